/**
 * What ends tight curves: how many times as large the motif, or how short a stitch, keeps all of them within the
 * limit. No formula has it: at another size other bends lie under one stitch, and legs grow long enough to make a
 * corner. So the curves are looked for again at the size tried, wherever the line bends enough (`suspects.ts`), with its
 * flattened curves rounded out first: enlarged as they are, their points would be corners.
 */
import type { Polyline } from '../../../shared/plane.js';
import type { TightCurve, TightCurvesEnd } from '../../../shared/study.js';
import { pointCount } from '../../geometry/polyline.js';
import { once } from '../../once.js';
import { firstNear } from './first-near.js';
import { roundedOut } from './rounded-out.js';
import { suspectStretches } from './suspects.js';
import { radiusCut, tightCurveFinder } from './tight-curves.js';
import { walkedLines } from './walked-line.js';

/**
 * Sizes are tried in these steps, as a share of the motif's own, and up to so many times it: no one stitches a motif
 * larger than that for the sake of a curve, and a line of points says little about how it would look then.
 */
const sizeStep = 0.05;
const mostTimes = 6;
/** The line is gone through dozens of times: one of more points is answered without. */
const mostPoints = 100_000;
/** Steps that say nothing about a line at its own size do at a larger one, mm. */
const finestStepMm = 0.002;
/** A motif read anew at the larger size is flattened anew: its cuts may differ by as much at each end and between, mm. */
const anewMm = 0.02;
/** The size may be rounded when it is typed, so it must do a little smaller as well; a larger one then does, too. */
const roundedDown = 0.97;

/** What ends these curves; stitches up to `finestPerInch` to the inch are tried. */
export function tightCurvesEndOf(
  strokes: readonly Polyline[],
  flattenMm: number,
  stitchesPerInch: number,
  cutMm: number,
  finestPerInch: number,
  tight: readonly TightCurve[],
): TightCurvesEnd {
  const points = strokes.reduce((sum, line) => sum + pointCount(line), 0);
  if (points > mostPoints) return { timesAsLarge: null, stitchesPerInch: null };
  const stitchMm = 25.4 / stitchesPerInch;
  const limitMm = Math.max(cutMm - anewMm, cutMm / 2);
  const larger = once(() => {
    const suspect = walkedLines(strokes, stitchMm, finestStepMm).flatMap((line) =>
      suspectStretches(line, stitchMm, limitMm),
    );
    const round = suspect.map(({ line }) => roundedOut(roundedOut(line.points, flattenMm), flattenMm / 4));
    return tightCurveFinder(walkedLines(round, stitchMm, finestStepMm), stitchMm, limitMm);
  });
  // A motif so many times as large is to its stitch as the motif itself is to one so many times as short.
  const isOver = (times: number) => !larger()(stitchMm / times, limitMm / times);
  const finer = once(() => tightCurveFinder(walkedLines(strokes, stitchMm), stitchMm, cutMm));
  const isFineEnough = (perInch: number) => !finer()(25.4 / perInch, cutMm);
  // Were the tightest curve a circle, it would be round enough so many times as large; what is cut off shrinks with the
  // square of the stitch.
  const radiusMm = tight.reduce((least, curve) => Math.min(least, curve.radiusMm), Infinity);
  const guess = radiusCut(limitMm, stitchMm) / radiusMm;
  const steps = (mostTimes - 1) / sizeStep;
  const doesSmaller = (n: number) => isOver(roundedDown * sizeOf(n));
  const near = (n: number) => firstNear(n, 0, steps, doesSmaller);
  // Where the guess is too large, what does not do there may do before.
  const step = near((guess - 1) / sizeStep) ?? near(0);
  return {
    timesAsLarge: step && sizeOf(step),
    stitchesPerInch: firstNear(
      stitchesPerInch * Math.sqrt(guess),
      Math.floor(stitchesPerInch),
      Math.floor(finestPerInch),
      isFineEnough,
    ),
  };
}

function sizeOf(step: number): number {
  return Math.round(100 * (1 + step * sizeStep)) / 100;
}
