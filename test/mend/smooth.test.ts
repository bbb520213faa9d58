/** Smoothing held against lines whose true course is known, and against jsts for how far it moved them. */
import { describe, expect, test, vi } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { lengthOf } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { motifIn } from '../checked.js';
import { randomFrom } from '../measure/lines.js';
import { hausdorff } from './hausdorff.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const setup = { ...defaultSetup, smoothMm: 0.5 };
const only = { only: ['smooth', 'thin'] } as const;

/** Places `stepMm` apart, each coordinate off by up to `offMm`, as a hand on a tablet leaves them. */
function shaky(place: (t: number) => [number, number], toT: number, stepT: number, offMm: number) {
  const random = randomFrom(1890);
  const count = Math.round(toT / stepT);
  return Float64Array.from(
    Array.from({ length: count + 1 }, (_, i) => place(i * stepT)).flatMap(([x, y], i) =>
      i === 0 || i === count ? [x, y] : [x + offMm * (2 * random() - 1), y + offMm * (2 * random() - 1)],
    ),
  );
}

const sine = (t: number): [number, number] => [t, 20 * Math.sin(t / 16)];

describe.each([
  ['every millimetre', 1, 0.2],
  ['40,000 points of a tablet', 200 / 40_000, 0.03],
])('a shaky sine, %s', (_, stepMm, offMm) => {
  const drawn = motifOf([shaky(sine, 200, stepMm, offMm)]);
  const { motif, accounts } = mendMotif(drawn, setup, only);
  const truth = motifOf([shaky(sine, 200, 0.1, 0)]);

  test('comes back within the distance asked for, and nearer to the line that was meant', () => {
    expect(accounts.map(({ mend }) => mend)).toEqual(['smooth', 'thin']);
    // Ends stay where they are; the boxes of the two need not begin at the same place.
    const [[startX, startY], [drawnX, drawnY]] = [motif.strokes[0], drawn.strokes[0]];
    const back = motif.strokes[0].map((v, i) => v + (i % 2 === 0 ? drawnX - startX : drawnY - startY));
    // Half a millimetre, and what thinning and coordinates to 0.001 mm add.
    expect(hausdorff([back], drawn.strokes)).toBeLessThanOrEqual(0.5 + 0.03);
    const longer = (line: Float64Array) => lengthOf(line) / lengthOf(truth.strokes[0]) - 1;
    expect(Math.abs(longer(motif.strokes[0]))).toBeLessThan(longer(drawn.strokes[0]) / 2);
  });

  test('has no curve left that is too tight for the stitch', () => {
    expect(studyOf(motif, setup).tightCurves(0.4).places).toEqual([]);
  });

  test('once is enough', () => {
    expect(mendMotif(motif, setup, only).accounts).toEqual([]);
  });
});

test('corners stay: the points of a shaky zigzag', () => {
  const zigzag = (t: number): [number, number] => [t, 30 * Math.abs(((t / 30) % 2) - 1)];
  const drawn = motifOf([shaky(zigzag, 180, 0.5, 0.15)]);
  const { motif } = mendMotif(drawn, setup, only);
  for (const x of [30, 60, 90, 120, 150]) {
    const [, y] = zigzag(x);
    const corner = Float64Array.of(x, y, x, y);
    const nearest = Math.min(
      ...Array.from({ length: motif.strokes[0].length / 2 }, (_, i) =>
        Math.hypot(motif.strokes[0][2 * i] - corner[0], motif.strokes[0][2 * i + 1] - corner[1]),
      ),
    );
    // The shake itself moves a corner by up to 0.15 mm each way, and the box begins there.
    expect(nearest).toBeLessThan(0.6);
  }
});

test('a sound motif is left as it is, also one of small loops and one of sharp points', async () => {
  for (const name of ['swell', 'pebble-beach', 'sail', 'anchor-chain', 'net']) {
    const motif = await motifIn(new URL(`../../corpus/motifs/${name}.svg`, import.meta.url).pathname);
    expect(mendMotif(motif, setup, { only: ['smooth'] }).accounts).toEqual([]);
  }
});

describe('what smoothing was asked for and left', () => {
  const left = (drawn: ReturnType<typeof motifOf>, smoothMm: number | null) => {
    const { accounts, notMended } = mendMotif(drawn, { ...setup, smoothMm }, only);
    const messages = notMended.filter(({ mend }) => mend === 'smooth').map(({ message }) => message);
    return { did: accounts.some(({ mend }) => mend === 'smooth'), messages };
  };
  const none = { did: false };

  test.each([
    ['there is no shake', 1, 0, 0.5],
    ['points 2 mm apart and 0.5 mm off are shape to 0.1 mm', 2, 0.5, 0.1],
    ['it is wider than what was allowed', 0.1, 3, 0.5],
  ])('is told where %s', (_, stepMm, offMm, smoothMm) => {
    const says = [
      expect.stringMatching(new RegExp(`^There is no shake in it .*\\(${smoothMm} mm\\).*--smooth\\.$`)),
    ];
    expect(left(motifOf([shaky(sine, 200, stepMm, offMm)]), smoothMm)).toEqual({ ...none, messages: says });
  });

  test('is nothing where it was smoothed, or not asked for', () => {
    expect(left(motifOf([shaky(sine, 200, 1, 0.2)]), 0.5)).toEqual({ did: true, messages: [] });
    expect(left(motifOf([shaky(sine, 200, 0.1, 3)]), null)).toEqual({ ...none, messages: [] });
  });
});

test('without a distance nothing is smoothed', () => {
  const drawn = motifOf([shaky(sine, 200, 1, 0.2)]);
  expect(mendMotif(drawn, defaultSetup, { reshape: true }).accounts.map(({ mend }) => mend)).not.toContain(
    'smooth',
  );
});

test('once is enough, whatever the shake: 60 random lines', () => {
  const random = randomFrom(7);
  for (let n = 0; n < 60; n++) {
    const [wide, high, stepMm, offMm] = [
      6 + 30 * random(),
      5 + 30 * random(),
      0.05 + 2 * random(),
      0.4 * random(),
    ];
    const drawn = motifOf([shaky((t) => [t, high * Math.sin(t / wide)], 150, stepMm, offMm)]);
    const { motif } = mendMotif(drawn, setup, only);
    expect(mendMotif(motif, setup, only).accounts).toEqual([]);
  }
});
