/**
 * Every icon of `lucide-static` (ISC licence), real line drawings of a 24 by 24 grid, against the reference reading.
 * Each is read as if its side were 240 mm, the size of a motif, so that 0.05 mm means what it means there.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { disagreement } from './agreement.js';

const folder = new URL('../../node_modules/lucide-static/icons/', import.meta.url);
const names = readdirSync(folder).filter((name) => name.endsWith('.svg'));

describe('the icons', () => {
  it('all agree with the reference to 0.05 mm or 0.1 % of the diagonal', async () => {
    const off: string[] = [];
    for (const name of names) {
      const svg = readFileSync(new URL(name, folder), 'utf8').replace(/(width|height)="24"/g, '$1="240mm"');
      const found = await disagreement(svg, name, 'lines');
      if (found) off.push(found);
    }
    expect(names.length).toBeGreaterThan(1000);
    expect(off).toEqual([]);
  }, 60_000);
});
