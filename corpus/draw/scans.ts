/** Motifs as a scanner gives them: drawn with a pen on paper, pixels at 150 to the inch, the light falling off to the right. */
import { Resvg } from '@resvg/resvg-js';
import pngjs from 'pngjs';
import { rights } from './drawing.js';
import { plain } from './flavours.js';
import { motifs } from './motifs/index.js';

const dpi = 150;
const penMm = 1;
const scannedMotifs = ['kelp'];

/** By path under the corpus folder. */
export function scanFiles(): ReadonlyMap<string, Uint8Array> {
  return new Map(
    motifs
      .filter(({ name }) => scannedMotifs.includes(name))
      .map(({ name, stroke, ...credit }) => [
        `scans/${name}.png`,
        scan(plain({ ...credit, rights, strokes: [stroke] })),
      ]),
  );
}

function scan(svg: string): Uint8Array {
  const inked = svg.replace(/stroke-width="[^"]*"/, `stroke-width="${penMm}"`);
  const { width, height, pixels } = new Resvg(inked, {
    fitTo: { mode: 'zoom', value: dpi / 96 },
    background: '#fff',
  }).render();
  const png = new pngjs.PNG({ width, height, colorType: 0, inputHasAlpha: true });
  png.data = Buffer.from(
    pixels.map((value, i) => (i % 4 === 3 ? 255 : value * (1 - (0.3 * ((i >> 2) % width)) / width))),
  );
  return pngjs.PNG.sync.write(png, { colorType: 0, inputHasAlpha: true });
}
