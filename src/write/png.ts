/** A picture as PNG: resvg turns the SVG text into pixels, pngjs writes the file. */
import { grouped } from '../../shared/grouped.js';
import { Refusal } from '../../shared/refusal.js';
import { motifPicture } from '../picture/index.js';
import type { Exporter } from './exporter.js';

export const pngExporter: Exporter = {
  name: 'png',
  ending: '.png',
  write: (motif, { pixels }) => writePng(motifPicture(motif, { widthPx: pixels, leastStepPx }), pixels),
};

/** Finer than this is not seen in a line of pixels; a pass may have millions of points. */
const leastStepPx = 1;

/** A wider or taller picture is a mistake, and would not fit into memory. */
export const mostPixels = 20_000;

/**
 * The SVG text `pixels` wide, its height in proportion, on white.
 *
 * @throws Refusal where that is no whole number from 1 to 20,000, or the height would be more
 */
export async function writePng(svg: string, pixels: number): Promise<Uint8Array> {
  if (!Number.isInteger(pixels) || pixels < 1 || pixels > mostPixels) {
    throw new Refusal(`A picture is 1 to ${grouped(mostPixels)} pixels wide, not ${pixels}.`);
  }
  const [{ Resvg }, { default: pngjs }] = await Promise.all([import('@resvg/resvg-js'), import('pngjs')]);
  const picture = new Resvg(svg, {
    fitTo: { mode: 'width', value: pixels },
    background: '#fff',
    font: { loadSystemFonts: false },
  });
  if ((picture.height / picture.width) * pixels > mostPixels) {
    throw new Refusal(`The picture would be more than ${grouped(mostPixels)} pixels high.`);
  }
  const { width, height, pixels: rgba } = picture.render();
  const png = new pngjs.PNG({ width, height, colorType: 2, inputHasAlpha: true });
  png.data = rgba;
  return pngjs.PNG.sync.write(png, { colorType: 2, inputHasAlpha: true });
}
