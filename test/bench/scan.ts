/**
 * How long a scan of letter size at 300 dots to the inch takes to read, beside decoding its pixels alone: `pngjs` for a
 * PNG, `jpeg-js` for a JPEG. All in this one warmed process, taking turns, the best of a few rounds each.
 */
import { Resvg } from '@resvg/resvg-js';
import jpeg from 'jpeg-js';
import pngjs from 'pngjs';
import { readArtwork } from '../../src/read/index.js';
import type { BenchRow } from './row.js';

const rounds = 3;
const [widthPx, heightPx] = [3300, 2550];

export async function scanRows(): Promise<BenchRow[]> {
  const pixels = page();
  const png = new pngjs.PNG({ width: widthPx, height: heightPx });
  png.data = pixels;
  const bytes = pngjs.PNG.sync.write(png, { colorType: 2, inputHasAlpha: true });
  const photograph = jpeg.encode({ data: pixels, width: widthPx, height: heightPx }, 85).data;
  return [
    await row('a letter page at 300 dots to the inch, PNG', bytes, () => pngjs.PNG.sync.read(bytes)),
    await row('the same as JPEG', photograph, () => jpeg.decode(photograph, { maxMemoryUsageInMB: 1000 })),
  ];
}

async function row(work: string, bytes: Uint8Array, decode: () => unknown): Promise<BenchRow> {
  let [bare, ours] = [Infinity, Infinity];
  for (let round = 0; round < rounds; round++) {
    bare = Math.min(bare, await timed(async () => decode()));
    ours = Math.min(ours, await timed(() => readArtwork(bytes, 'page', { dpi: 300 })));
  }
  return {
    work,
    measured: `${(ours / bare).toFixed(1)} times decoding alone (${ours.toFixed(0)} ms against ${bare.toFixed(0)} ms)`,
    aim: 'under 3 s, or at most 6 times',
  };
}

async function timed(job: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await job();
  return performance.now() - start;
}

/** Three lines of loops from edge to edge, three and a half metres, drawn with a pen of 1 mm on paper with a little grain. */
function page(): Buffer {
  const lines = [0, 1, 2].map((k) => {
    const places = Array.from({ length: 2001 }, (_, i) => {
      const angle = (i / 2000) * 12 * 2 * Math.PI;
      const [x, y] = [20 + (i / 2000) * 240 - 10 * Math.sin(angle), 40 + 65 * k + 15 * Math.cos(angle)];
      return `${x.toFixed(3)} ${y.toFixed(3)}`;
    });
    return `<path d="M${places.join('L')}" fill="none" stroke="#222" stroke-width="1" stroke-linecap="round"/>`;
  });
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 279.4 215.9"><rect width="100%" height="100%" fill="#fff"/>${lines.join('')}</svg>`;
  const { pixels } = new Resvg(svg, { fitTo: { mode: 'width', value: widthPx } }).render();
  const out = Buffer.from(pixels);
  let state = 1;
  for (let i = 0; i < out.length; i += 4) {
    state = (state * 1103515245 + 12345) & 0x7fffffff;
    out.fill(Math.max(0, Math.min(255, out[i] + ((state >> 16) % 9) - 4)), i, i + 3);
  }
  return out;
}
