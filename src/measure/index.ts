/** From a motif to its study: facts, each worked out once and only when asked for. */

import { grouped } from '../../shared/grouped.js';
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { type Setup, stitchLengthMm } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { boundsOf, lengthOf, pointCount } from '../geometry/polyline.js';
import { densityOf } from '../near/density.js';
import { SegmentIndex } from '../near/segment-index.js';
import { type Network, networkOf } from '../network/network.js';
import { once, onceFor } from '../once.js';
import { spareOf } from '../route/spare.js';
import { battingRows, nest, rowDistance, rowOfMotif, rowsAt } from '../rows/index.js';
import { crowdingOf } from './company/crowding.js';
import { pilesOf } from './company/piles.js';
import { repeatMeetingOf } from './company/repeat-meeting.js';
import { retraceMm, retracesOf } from './company/retraces.js';
import { withoutSeamless } from './company/seamless.js';
import { crossingsOf } from './crossings/crossings.js';
import { marksOf } from './drawing/marks.js';
import { outlineOf } from './drawing/outline.js';
import { partGapsOf } from './drawing/part-gaps.js';
import { chainOf } from './ends/breaks.js';
import { copiesOf } from './ends/copies.js';
import { endsOf, joinTurn, repeatOf } from './ends/ends.js';
import { joinedStrokes } from './ends/strokes.js';
import { shortStepsOf } from './stitching/short-steps.js';
import { stitchesOf } from './stitching/stitches.js';
import { tightCurvesOf } from './stitching/tight-curves.js';
import { tightCurvesEndOf } from './stitching/tight-curves-ended.js';
import { cuspsOf } from './stitching/turns.js';
import { walkedLines } from './stitching/walked-line.js';

/** A line of more points takes longer to be taken apart than a check may. */
const sparePoints = 20_000;

/** More strokes than this are no motif that someone will join by hand. */
const joinedByHand = 1_000;

/** Two points are a straight line. */
function hasTurns(line: Polyline): boolean {
  return pointCount(line) > 2;
}

/** The lines taken apart where they meet; null where they meet too often for that. */
function knownNetwork(strokes: readonly Polyline[], mostContacts: number): Network | null {
  try {
    return networkOf(strokes, mostContacts);
  } catch (error) {
    if (error instanceof Refusal) return null;
    throw error;
  }
}

/** More passes than this through a square millimetre are a lump of thread; fewer are looked at one by one. */
const thickPasses = 12;

/** Whatever holds line against line would never end where all of it lies on itself; and no needle could follow it. */
function requireThin({ name, strokes }: Motif, { limits, unit }: Setup): void {
  const { at, passes, pairs } = densityOf(strokes, thickPasses);
  if (pairs <= limits.pairsOfPasses) return;
  throw new Refusal(
    `In "${name}" ${grouped(passes)} passes of the line run through one place, ${sayIn(unit).place(at)}: that cannot be stitched. Take out in your drawing program what was drawn again and again.`,
  );
}

/** The facts of one motif. Asking for one throws a Refusal where the motif is nothing but dots. */
export function studyOf(motif: Motif, setup: Setup): Study {
  const joined = once(() => {
    const all = joinedStrokes(motif.strokes);
    if (all.strokes.length === 0)
      throw new Refusal(`There is nothing to stitch in "${motif.name}", only dots.`);
    requireThin(motif, setup);
    return all;
  });
  const strokes = once(() => joined().strokes.map(({ line }) => line));
  const index = once(() => new SegmentIndex(strokes()));
  const walked = once(() => walkedLines(strokes().filter(hasTurns), stitchLengthMm(setup)));
  const chain = once(() => chainOf(strokes()));
  const network = once(() => knownNetwork(strokes(), setup.limits.crossings));
  const partGaps = once(() => {
    if (strokes().length === 1) return [];
    const known = strokes().length > joinedByHand ? null : network();
    return known && partGapsOf(known.graph);
  });
  const box = once(() => boundsOf(strokes()));
  const widthMm = () => box().maxX - box().minX;
  const heightMm = () => box().maxY - box().minY;
  const lengthMm = once(() => strokes().reduce((sum, line) => sum + lengthOf(line), 0));
  const isOneStroke = () => chain().breaks.every(({ gapMm }) => gapMm <= setup.joinToleranceMm);
  const ends = once(() => endsOf(strokes(), chain(), box()));
  const repeat = once(() => repeatOf(ends().start, ends().end, isOneStroke(), widthMm()));
  const rowJoin = once(() => {
    const { start, end } = ends();
    return { repeat: repeat(), join: start.at.x > end.at.x ? start.at : end.at };
  });
  const marks = once(() => marksOf(joined().strokes, index()));
  const crossings = once(() => crossingsOf(index(), motif.flattenMm, setup.limits.crossings));
  const stitches = once(() => stitchesOf(strokes(), setup));
  const retraces = once(() => retracesOf(index()));
  const spareMm = once(() => {
    if (strokes().length !== 1 || pointCount(strokes()[0]) > sparePoints) return null;
    const known = network();
    return known && (spareOf(strokes()[0], known)?.spareMm ?? 0);
  });
  const outline = once(() => outlineOf(index()));
  const tightCurves = onceFor((cutMm: number) => tightCurvesOf(walked(), stitchLengthMm(setup), cutMm));
  const row = once(() => rowOfMotif({ strokes: strokes(), repeat: repeat(), ...ends(), setup }));

  return {
    motif,
    setup,
    get strokes() {
      return strokes();
    },
    get dots() {
      return joined().dots.map(({ at }) => at);
    },
    get duplicates() {
      return joined().duplicates;
    },
    copies: onceFor((withinMm: number, most: number) => {
      const { duplicates, dots } = joined();
      const apart = new Set([
        ...duplicates.map(({ stroke }) => stroke),
        ...dots.flatMap(({ parts }) => parts),
      ]);
      return copiesOf(motif.strokes, apart, { nearMm: retraceMm, withinMm, most });
    }),
    get breaks() {
      return chain().breaks;
    },
    get partGapsMm() {
      return partGaps();
    },
    get marks() {
      return marks();
    },
    get box() {
      return box();
    },
    get widthMm() {
      return widthMm();
    },
    get heightMm() {
      return heightMm();
    },
    get lengthMm() {
      return lengthMm();
    },
    get points() {
      return strokes().reduce((sum, line) => sum + pointCount(line), 0);
    },
    get isOneStroke() {
      return isOneStroke();
    },
    get start() {
      return ends().start;
    },
    get end() {
      return ends().end;
    },
    get runsLeft() {
      return !repeat().assumed && ends().end.at.x < ends().start.at.x;
    },
    get repeat() {
      return repeat();
    },
    get joinTurnDeg() {
      return repeat().assumed ? null : joinTurn(ends().start, ends().end);
    },
    get crossings() {
      return crossings();
    },
    get retraces() {
      return retraces();
    },
    get spareMm() {
      return spareMm();
    },
    cusps: onceFor((legsDeg: number) => cuspsOf(walked(), legsDeg)),
    tightCurves,
    tightCurvesEnd: onceFor((cutMm: number, finestPerInch: number) =>
      tightCurvesEndOf(
        strokes(),
        motif.flattenMm,
        setup.stitchesPerInch,
        cutMm,
        finestPerInch,
        tightCurves(cutMm).places,
      ),
    ),
    crowding: onceFor((withinMm: number, overMm: number) => crowdingOf(index(), withinMm, overMm)),
    piles: onceFor((passes: number) => pilesOf(index(), stitchLengthMm(setup) / 2, passes)),
    shortSteps: onceFor((stepMm: number) => shortStepsOf(strokes(), stepMm)),
    get outline() {
      return outline();
    },
    get stitches() {
      return stitches();
    },
    repeatMeeting: onceFor((withinMm: number) =>
      repeat().assumed
        ? null
        : withoutSeamless(
            repeatMeetingOf(index(), rowJoin(), withinMm, setup.limits.overhangingRepeats),
            index(),
            repeat(),
            () => crossings().places.map(({ at }) => at),
          ),
    ),
    nesting: onceFor((layout) =>
      nest(row(), layout, setup.clearanceMm, Math.min(setup.gapMm, setup.battingMm ?? Infinity)),
    ),
    battingRows: onceFor((layout) => {
      const { battingMm, clearanceMm } = setup;
      if (battingMm === null) return null;
      return battingRows(row(), layout, clearanceMm, battingMm);
    }),
    rowsAt: onceFor((layout, spacingMm) => rowsAt(row(), layout, spacingMm)),
    rowDistance: onceFor((layout, spacingMm) => rowDistance(row(), layout, spacingMm)),
  };
}
