/** From a motif to its study: facts, each worked out once and only when asked for. */

import { grouped } from '../../shared/grouped.js';
import type { Layout } from '../../shared/layout.js';
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { type Setup, stitchLengthMm } from '../../shared/setup.js';
import { coincideMm, type Study } from '../../shared/study.js';
import { boundsOf, lengthOf, pointCount } from '../geometry/polyline.js';
import { densityOf } from '../near/density.js';
import { SegmentIndex } from '../near/segment-index.js';
import { type Network, networkOf } from '../network/network.js';
import { once, onceFor, oncePer, onDemand } from '../once.js';
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
import { type JoinedStrokes, joinedStrokes } from './ends/strokes.js';
import { isShakyAt } from './stitching/shaky.js';
import { shortStepsOf } from './stitching/short-steps.js';
import { stitchesOf } from './stitching/stitches.js';
import { tightCurvesOf } from './stitching/tight-curves.js';
import { tightCurvesEndOf } from './stitching/tight-curves-ended.js';
import { cuspsOf } from './stitching/turns.js';
import { walkedLines } from './stitching/walked-line.js';

export { requireStitchable } from './drawing/stitchable.js';

/** A line of more points takes longer to be taken apart than a check may. */
const sparePoints = 20_000;

/** More strokes than this are no motif that someone will join by hand. */
const joinedByHand = 1_000;

/** Two points are a straight line. */
function hasTurns(line: Polyline): boolean {
  return pointCount(line) > 2;
}

function requireFew(joined: JoinedStrokes, name: string, most: number): JoinedStrokes {
  const pieces = joined.strokes.length;
  if (pieces <= most) return joined;
  throw new Refusal(
    `"${name}" is in ${grouped(pieces)} separate pieces, more than the limit of ${grouped(most)}: join them in your drawing program first.`,
  );
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

/**
 * The facts of one motif, kept as long as there are the motif and the setup. Asking for one throws a Refusal where the motif
 * is nothing but dots, or in more pieces than any motif is.
 */
export function studyOf(motif: Motif, setup: Setup): Study {
  return studiesOf(motif)(setup);
}

const studiesOf = oncePer((motif: Motif) => oncePer((setup: Setup) => newStudy(motif, setup)));

function newStudy(motif: Motif, setup: Setup): Study {
  const { limits, clearanceMm, battingMm } = setup;
  const stitchMm = stitchLengthMm(setup);
  const taken = once(() => requireFew(joinedStrokes(motif.strokes), motif.name, limits.pieces));
  const joined = once(() => {
    if (taken().strokes.length === 0)
      throw new Refusal(`There is nothing to stitch in "${motif.name}", only dots.`);
    return taken();
  });
  // Holding line against line would never end in a lump, and could tell no more than that it is one.
  const lumps = once(() => {
    if (taken().strokes.length === 0) return null;
    const density = densityOf(study.strokes, thickPasses);
    return density.pairs > limits.pairsOfPasses ? density : null;
  });
  const known = <T extends { readonly more: boolean }>(fact: T): T =>
    lumps() === null ? fact : { ...fact, more: true };
  const index = once(() => {
    const thick = lumps();
    return new SegmentIndex(thick === null ? study.strokes : study.strokes.flatMap(thick.outside));
  });
  const walked = once(() => walkedLines(study.strokes.filter(hasTurns), stitchMm));
  const chain = once(() => chainOf(study.strokes));
  const ends = once(() => endsOf(study.strokes, chain(), study.box));
  const row = once(() => rowOfMotif(study));

  const study: Study = onDemand<Study>({
    motif: () => motif,
    setup: () => setup,
    strokes: () => joined().strokes.map(({ line }) => line),
    dots: () => joined().dots.map(({ at }) => at),
    duplicates: () => joined().duplicates,
    lump: () => {
      const thick = lumps();
      return thick && { at: thick.at, passes: thick.passes };
    },
    copies: () =>
      onceFor((withinMm: number, most: number) => {
        const { duplicates, dots } = joined();
        const apart = new Set([
          ...duplicates.map(({ stroke }) => stroke),
          ...dots.flatMap(({ parts }) => parts),
        ]);
        const thick = lumps();
        if (thick)
          motif.strokes.forEach((line, k) => {
            if (thick.outside(line)[0] !== line) apart.add(k);
          });
        return known(copiesOf(motif.strokes, apart, { nearMm: retraceMm, withinMm, most }));
      }),
    breaks: () => chain().breaks,
    partGapsMm: () => {
      if (study.strokes.length === 1) return [];
      if (study.strokes.length > joinedByHand || lumps() !== null) return null;
      return partGapsOf(index());
    },
    marks: () =>
      lumps() === null ? marksOf(joined().strokes, index(), Math.max(coincideMm, setup.joinToleranceMm)) : [],
    box: () => boundsOf(study.strokes),
    widthMm: () => study.box.maxX - study.box.minX,
    heightMm: () => study.box.maxY - study.box.minY,
    lengthMm: () => study.strokes.reduce((sum, line) => sum + lengthOf(line), 0),
    points: () => study.strokes.reduce((sum, line) => sum + pointCount(line), 0),
    isOneStroke: () => study.breaks.every(({ gapMm }) => gapMm <= setup.joinToleranceMm),
    start: () => ends().start,
    end: () => ends().end,
    runsLeft: () => !study.repeat.assumed && study.end.at.x < study.start.at.x,
    repeat: () => repeatOf(study.start, study.end, study.isOneStroke, study.widthMm),
    joinTurnDeg: () => (study.repeat.assumed ? null : joinTurn(study.start, study.end)),
    crossings: () => known(crossingsOf(index(), motif.flattenMm, limits.crossings)),
    retraces: () => known(retracesOf(index())),
    spareMm: () => {
      const [line, ...others] = study.strokes;
      if (others.length > 0 || pointCount(line) > sparePoints) return null;
      const noded = lumps() === null ? knownNetwork(study.strokes, limits.crossings) : null;
      return noded && (spareOf(line, noded)?.spareMm ?? 0);
    },
    cusps: () => onceFor((legsDeg: number) => cuspsOf(walked(), legsDeg)),
    tightCurves: () => onceFor((cutMm: number) => tightCurvesOf(walked(), stitchMm, cutMm)),
    tightCurvesEnd: () =>
      onceFor((cutMm: number, finestPerInch: number) =>
        tightCurvesEndOf(
          study.strokes,
          motif.flattenMm,
          setup.stitchesPerInch,
          cutMm,
          finestPerInch,
          study.tightCurves(cutMm).places,
        ),
      ),
    isShakyAt: () => (at, withinMm) => isShakyAt(study.strokes, at, withinMm),
    crowding: () =>
      onceFor((withinMm: number, overMm: number) => known(crowdingOf(index(), withinMm, overMm))),
    piles: () => onceFor((passes: number) => known(pilesOf(index(), stitchMm / 2, passes))),
    shortSteps: () => onceFor((stepMm: number) => shortStepsOf(study.strokes, stepMm)),
    outline: () => (lumps() === null ? outlineOf(index()) : null),
    stitches: () => stitchesOf(study.strokes, setup),
    repeatMeeting: () =>
      onceFor((withinMm: number) => {
        const { repeat, start, end } = study;
        if (repeat.assumed) return null;
        const rowJoin = { repeat, join: start.at.x > end.at.x ? start.at : end.at };
        const meeting = repeatMeetingOf(index(), rowJoin, withinMm, limits.overhangingRepeats);
        return known(
          withoutSeamless(meeting, index(), repeat, () => study.crossings.places.map(({ at }) => at)),
        );
      }),
    nesting: () =>
      onceFor((layout: Layout) =>
        nest(row(), layout, clearanceMm, Math.min(setup.gapMm, battingMm ?? Infinity)),
      ),
    battingRows: () =>
      onceFor((layout: Layout) =>
        battingMm === null ? null : battingRows(row(), layout, clearanceMm, battingMm),
      ),
    rowsAt: () => (layout, spacingMm) => rowsAt(row(), layout, spacingMm),
    rowDistance: () => onceFor((layout: Layout, spacingMm: number) => rowDistance(row(), layout, spacingMm)),
  });
  return study;
}
