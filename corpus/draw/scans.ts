/**
 * Drawings as a scanner gives them: drawn with a round pen on paper, a grey a pixel. The light may fall off to the
 * right, the paper may be rough, the sheet may lie aslant; blots and other passes of the pen may come with it.
 */
import { Resvg } from '@resvg/resvg-js';
import pngjs from 'pngjs';
import { type Expected, placesIn } from './cases/case.js';
import { boxOf, type Drawing, rights } from './drawing.js';
import { plain } from './flavours.js';
import { drawn } from './formula.js';
import { kelp } from './motifs/kelp.js';
import { ripples } from './motifs/ripples.js';
import { swell } from './motifs/swell.js';
import { at, type Stroke } from './stroke.js';

interface Pen {
  readonly dpi: number;
  readonly penMm: number;
  /** Of the light, so much is lost from left to right. */
  readonly lightLost?: number;
  /** Of the grain, in 255. */
  readonly grain?: number;
  readonly turnedDeg?: number;
  /** More ink, as SVG, in millimetres from the upper left corner of the drawing's box. */
  readonly also?: string;
}

interface ScanCase extends Pen {
  readonly name: string;
  readonly strokes: readonly Stroke[];
  readonly expected?: Expected;
}

/** A wave, and one beside it that comes within less than a pen for a tenth of its way. */
const near = (x: number) => 12 * Math.sin((6 * Math.PI * x) / 200);
const runTogether = [
  drawn((x) => at(x, near(x)), 0, 200, 24),
  drawn((x) => at(x, near(x) + 0.85 + 8 * Math.max(0, Math.abs(x - 100) / 40 - 0.25) ** 2), 30, 170, 24),
];

/** Half the way on which they come within a pen and a pixel of each other; the wave is 24 high. */
const besideMm = 40 * (0.25 + Math.sqrt((1 + 25.4 / 100 - 0.85) / 8));

/** A pen that rested leaves more than twice its width. */
const [blot] = placesIn({ title: '', creator: '', rights, strokes: [swell.stroke] }, [
  swell.stroke.segments[3].to,
]);

const plainPen = { dpi: 100, penMm: 1 };
const cases: readonly ScanCase[] = [
  { name: 'pass-light-falls-off', strokes: [swell.stroke], ...plainPen, lightLost: 0.5 },
  {
    name: 'pass-specks-on-rough-paper',
    strokes: [ripples.stroke],
    ...plainPen,
    grain: 20,
    also: '<circle cx="3" cy="2" r="0.5"/><circle cx="120" cy="1" r="0.4"/>',
  },
  {
    name: 'fail-blot',
    strokes: [swell.stroke],
    ...plainPen,
    also: `<circle cx="${blot[0]}" cy="${blot[1]}" r="1.15"/>`,
    expected: { measured: 1, placesMm: [blot] },
  },
  {
    name: 'fail-passes-run-together',
    strokes: runTogether,
    ...plainPen,
    expected: {
      withinMm: [[100 - besideMm, 0, 100 + besideMm, 24 + 1]],
      says: 'beside the traced line',
      also: ['one-stroke'],
    },
  },
];

/** By path under the corpus folder. */
export function scanFiles(): ReadonlyMap<string, string | Uint8Array> {
  const files = new Map<string, string | Uint8Array>();
  const credit = { title: '', creator: '', rights };
  files.set(
    'scans/kelp.png',
    scan({ ...credit, strokes: [kelp.stroke] }, { dpi: 150, penMm: 1, lightLost: 0.3 }),
  );
  files.set(
    'scans/swell-aslant.png',
    scan({ ...credit, strokes: [swell.stroke] }, { dpi: 100, penMm: 1.2, grain: 20, turnedDeg: 2 }),
  );
  const known: Record<string, Expected> = {};
  for (const { name, strokes, expected, ...pen } of cases) {
    files.set(`rules/traced-line/${name}.png`, scan({ ...credit, strokes }, pen));
    if (expected) known[`${name}.png`] = expected;
  }
  files.set('rules/traced-line/linewright.json', `${JSON.stringify({ dpi: plainPen.dpi }, null, 2)}\n`);
  files.set('rules/traced-line/expected.json', `${JSON.stringify(known, null, 2)}\n`);
  return files;
}

function scan(
  drawing: Drawing,
  { dpi, penMm, lightLost = 0, grain = 0, turnedDeg = 0, also = '' }: Pen,
): Uint8Array {
  const box = boxOf(drawing.strokes);
  const middle = `${5 + (box.maxX - box.minX) / 2} ${5 + (box.maxY - box.minY) / 2}`;
  const inked = plain(drawing)
    .replaceAll(/stroke-width="[^"]*"/g, `stroke-width="${penMm}"`)
    .replace(
      /<path/,
      `<g transform="rotate(${turnedDeg} ${middle})"><g transform="translate(5 5)">${also}</g><path`,
    )
    .replace('</svg>', '</g></svg>');
  const { width, height, pixels } = new Resvg(inked, {
    fitTo: { mode: 'zoom', value: dpi / 96 },
    background: '#fff',
  }).render();
  const png = new pngjs.PNG({ width, height, colorType: 0, inputHasAlpha: true });
  const random = seeded(1);
  const greys = grain === 0 ? 1 : 12;
  png.data = Buffer.alloc(pixels.length, 255);
  for (let i = 0; i < pixels.length; i += 4) {
    const noise = grain === 0 ? 0 : grain * (random() + random() - 1);
    // Of rough paper fewer greys are kept, so that its file stays small.
    const light = 1 - (lightLost * ((i >> 2) % width)) / width;
    const grey = Math.max(0, Math.min(255, Math.round((pixels[i] * light + noise) / greys) * greys));
    png.data.fill(grey, i, i + 3);
  }
  return pngjs.PNG.sync.write(png, { colorType: 0, inputHasAlpha: true });
}

/** Numbers from 0 to 1, the same each time. */
function seeded(start: number): () => number {
  let state = start;
  return () => {
    state = (state * 1103515245 + 12345) & 0x7fffffff;
    return state / 0x7fffffff;
  };
}
