/** Files cut off and files with bytes changed: the answer is artwork with finite numbers or a Refusal, nothing else. */
import { describe, expect, it } from 'vitest';
import { Refusal } from '../../shared/refusal.js';
import { read } from './read.js';

const ns = 'xmlns="http://www.w3.org/2000/svg"';

describe('whatever the bytes, the answer is artwork or a Refusal', () => {
  const motif = `<?xml version="1.0" encoding="UTF-8"?><!-- harbour -->
<!DOCTYPE svg [<!ENTITY st "fill:none;stroke:#000">]>
<svg ${ns} xmlns:xlink="http://www.w3.org/1999/xlink" width="9in" height="4in" viewBox="0 0 90 40">
<title>Swell &amp; k\u00f6der</title><style>.a > path, #k{stroke:red!important}</style>
<clipPath id="c"><circle r="30"/></clipPath><defs><path id="k" d="M0 0c1 2 3 4 5 6s1-1 2 2q1 1 2 2t3 3a4 5 6 017 8z"/></defs>
<g class="a" transform="rotate(9 1,2)scale(.5)"><path style="&st;" d="M1 2L3-4H5v6m1 1 2 2"/></g>
<use xlink:href="#k" x="1mm" y="5%" clip-path="url(#c)"/><rect width="9" height="8" rx="2"/><text>hi</text>
<svg width="9" height="9" viewBox="0 0 3 4" preserveAspectRatio="xMinYMax slice"><polygon points="1,2 3 4 5,6"/></svg></svg>`;
  const bytes = new TextEncoder().encode(motif);

  async function survives(given: Uint8Array): Promise<string> {
    try {
      const { lines } = await read(given);
      return lines.every(({ coords }) => coords.every(Number.isFinite)) ? 'artwork' : 'a wrong number';
    } catch (error) {
      return error instanceof Refusal ? 'refusal' : String(error);
    }
  }

  it('cut off at every byte', async () => {
    const answers = new Set<string>();
    for (let end = 0; end < bytes.length; end++) answers.add(await survives(bytes.subarray(0, end)));
    expect([...answers]).toEqual(['refusal']);
    expect(await survives(bytes)).toBe('artwork');
  });

  it('with bytes changed, taken out and doubled', async () => {
    let state = 11;
    const random = (below: number) => {
      state = (state * 48271) % 2147483647;
      return state % below;
    };
    const answers = new Map<string, number>();
    for (let run = 0; run < 1500; run++) {
      let changed = Uint8Array.from(bytes);
      for (let n = random(3); n >= 0; n--) {
        const at = random(changed.length);
        const letters = ' "\'<>&#/=()0123456789.-,eEMLHVCSQTAZ%';
        if (random(3) > 0) changed[at] = letters.charCodeAt(random(letters.length));
        else if (random(2) > 0) changed[at] = random(256);
        else {
          const length = random(20);
          changed = Uint8Array.from([
            ...changed.subarray(0, at),
            ...changed.subarray(at + length),
            ...changed.subarray(at, at + length),
          ]);
        }
      }
      const answer = await survives(changed);
      answers.set(answer, (answers.get(answer) ?? 0) + 1);
    }
    expect([...answers.keys()].sort()).toEqual(['artwork', 'refusal']);
    expect(Math.min(...answers.values())).toBeGreaterThan(150);
  });
});
