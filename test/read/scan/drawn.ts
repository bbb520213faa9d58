/** A motif as a scanner would see it: drawn with a round pen by resvg, and what scanning does to it. */
import { Resvg } from '@resvg/resvg-js';
import jpeg from 'jpeg-js';
import pngjs from 'pngjs';
import type { Polyline } from '../../../shared/plane.js';
import { boundsOf, moved, pointsOf } from '../../../src/geometry/polyline.js';

export interface Wish {
  readonly dpi: number;
  readonly penMm: number;
  readonly kind?: 'plain' | 'noise' | 'light' | 'turned' | 'jpeg';
  /** More lines of the same pen, in the coordinates of the line. */
  readonly beside?: readonly Polyline[];
  /** More to draw, as SVG, in millimetres of the page: over the line, and under it. */
  readonly also?: string;
  readonly under?: string;
  /** Of the page and the pen; white and nearly black if not said. */
  readonly paper?: string;
  readonly ink?: string;
}

export interface Scan {
  readonly bytes: Uint8Array;
  /** Where the line lies on the page, mm. */
  readonly line: Polyline;
  /** It and those beside it. */
  readonly lines: readonly Polyline[];
  /** The resolution it comes to in whole pixels. */
  readonly dpi: number;
}

const marginMm = 8;

export function scanned(
  drawn: Polyline,
  { dpi, penMm, kind = 'plain', beside = [], also = '', under = '', paper = '#fff', ink = '#222' }: Wish,
): Scan {
  const box = boundsOf([drawn, ...beside]);
  // A page of whole pixels both ways: resvg would put the drawing in the middle of one that is not.
  const whole = (mm: number) => (Math.round((mm * dpi) / 25.4) * 25.4) / dpi;
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY].map((mm) => whole(mm + 2 * marginMm));
  const lines = [drawn, ...beside].map((each) => {
    const upright = moved(each, marginMm - box.minX, marginMm - box.minY);
    return kind === 'turned' ? turned(upright, width / 2, height / 2, 3) : upright;
  });
  const d = lines
    .map((line) => Array.from(pointsOf(line), ({ x, y }) => `${x} ${y}`).join('L'))
    .map((places) => `M${places}`)
    .join('');
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}"><rect width="${width}" height="${height}" fill="${paper}"/>${under}<path d="${d}" fill="none" stroke="${ink}" stroke-width="${penMm}" stroke-linecap="round" stroke-linejoin="round"/>${also}</svg>`;
  const image = new Resvg(svg, {
    fitTo: { mode: 'width', value: Math.round((width * dpi) / 25.4) },
  }).render();
  const pixels = spoilt(image.pixels, image.width, kind);
  const data = Buffer.from(pixels);
  const png = new pngjs.PNG({ width: image.width, height: image.height });
  png.data = data;
  const bytes =
    kind === 'jpeg'
      ? jpeg.encode({ data, width: image.width, height: image.height }, 80).data
      : pngjs.PNG.sync.write(png);
  return { bytes: new Uint8Array(bytes), line: lines[0], lines, dpi: (image.width / width) * 25.4 };
}

function turned(line: Polyline, x: number, y: number, deg: number): Polyline {
  const [c, s] = [Math.cos((deg * Math.PI) / 180), Math.sin((deg * Math.PI) / 180)];
  return line.map((_, i) => {
    const [dx, dy] = [line[i & ~1] - x, line[i | 1] - y];
    return i % 2 === 0 ? x + c * dx - s * dy : y + s * dx + c * dy;
  });
}

/** Noise of a standard deviation of 20 in 255; light that falls to a half from left to right. */
function spoilt(pixels: Uint8Array, width: number, kind: Wish['kind']): Uint8Array {
  if (kind !== 'noise' && kind !== 'light') return pixels;
  const random = seeded(1);
  const out = pixels.slice();
  for (let i = 0; i < out.length; i += 4) {
    const noise = kind === 'noise' ? (random() + random() + random() - 1.5) * 40 : 0;
    const light = kind === 'light' ? 1 - (0.5 * ((i / 4) % width)) / width : 1;
    for (let channel = 0; channel < 3; channel++)
      out[i + channel] = Math.max(0, Math.min(255, out[i + channel] * light + noise));
  }
  return out;
}

/** Numbers from 0 to 1, the same each time. */
function seeded(start: number): () => number {
  let state = start;
  return () => {
    state = (state * 1103515245 + 12345) & 0x7fffffff;
    return state / 0x7fffffff;
  };
}
