/** Whatever is drawn: mended once is mended for good, and without --reshape nothing that is seen changes. */
import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { lengthOf } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { writeMotif } from '../../src/write/index.js';
import { hausdorff } from './hausdorff.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const place = fc.tuple(fc.integer({ min: 0, max: 2000 }), fc.integer({ min: 0, max: 800 }));

/** Strokes on a grid of 0.05 mm, some of them pieces of one line with small gaps, some closed, some twice. */
const drawings = fc
  .record({
    strokes: fc.array(fc.array(place, { minLength: 2, maxLength: 6 }), { minLength: 1, maxLength: 5 }),
    cuts: fc.array(fc.tuple(fc.nat(4), fc.integer({ min: 0, max: 24 })), { maxLength: 3 }),
    closed: fc.boolean(),
    twice: fc.boolean(),
  })
  .map(({ strokes, cuts, closed, twice }): Motif => {
    let lines = strokes.map((points): Polyline => Float64Array.from(points.flat(), (v) => v / 20));
    if (closed) lines[0] = Float64Array.of(...lines[0], ...lines[0].slice(0, 2));
    for (const [which, gap] of cuts) lines = cutAt(lines, which % lines.length, gap / 20);
    if (twice) lines.push(lines[0].slice());
    return motifOf(lines.filter((line) => lengthOf(line) > 1));
  })
  .filter(({ strokes, widthMm }) => strokes.length > 0 && widthMm > 1);

/** The first segment cut in two with a gap in its middle. */
function cutAt(lines: readonly Polyline[], which: number, gapMm: number): Polyline[] {
  const line = lines[which];
  const [ax, ay, bx, by] = line;
  const length = Math.hypot(bx - ax, by - ay);
  if (length < 8) return [...lines];
  const at = (mm: number) => [ax + (mm / length) * (bx - ax), ay + (mm / length) * (by - ay)];
  const first = Float64Array.of(ax, ay, ...at(length / 2 - gapMm / 2));
  const rest = Float64Array.of(...at(length / 2 + gapMm / 2), ...line.slice(2));
  return [...lines.slice(0, which), first, rest, ...lines.slice(which + 1)];
}

/** The motif as its file has it. */
function readBack(motif: Motif): Motif {
  const { strokes } = JSON.parse(writeMotif(motif)) as { strokes: number[][][] };
  return motifOf(
    strokes.map((points) => Float64Array.from(points.flat())),
    motif,
  );
}

test('default mends: the eye sees no change, and once is enough', () => {
  fc.assert(
    fc.property(drawings, (motif) => {
      const { motif: mended, accounts } = mendMotif(motif, defaultSetup);
      // Files carry thousandths of a millimetre, and thinning may add what it may move.
      expect(hausdorff(motif.strokes, mended.strokes)).toBeLessThan(defaultSetup.joinToleranceMm / 2 + 0.022);
      for (const { movedMm } of accounts)
        expect(movedMm).toBeLessThanOrEqual(defaultSetup.joinToleranceMm / 2);
      expect(writeMotif(mendMotif(readBack(mended), defaultSetup).motif)).toBe(writeMotif(mended));
    }),
    { seed: 1890, numRuns: 300 },
  );
});

test('reshaping: one stroke that can be repeated, and once is enough', () => {
  fc.assert(
    fc.property(drawings, (motif) => {
      const { motif: mended, notMended } = mendMotif(motif, defaultSetup, { reshape: true });
      expect(mended.strokes.length).toBe(1);
      const { repeat, runsLeft } = studyOf(mended, defaultSetup);
      expect({ assumed: repeat.assumed, runsLeft }).toEqual({ assumed: false, runsLeft: false });
      // Ends that are not level stay so only with a word that says why.
      const says = notMended.some(({ message }) => message.includes('from level'));
      expect(says).toBe(Math.abs(repeat.dy) > 0.5);
      const again = mendMotif(readBack(mended), defaultSetup, { reshape: true });
      expect(again.accounts.map(({ message }) => message)).toEqual([]);
      expect(writeMotif(again.motif)).toBe(writeMotif(mended));
    }),
    { seed: 1890, numRuns: 100 },
  );
}, 240_000);
