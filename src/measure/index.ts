/** From a motif to its study: facts, each worked out once and only when asked for. */
import type { Motif } from '../../shared/motif.js';
import { boundsOf, lengthOf, pointCount } from '../../shared/polyline.js';
import { Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { nest, rowDistance, rowOf, rowsAt } from '../rows/index.js';
import { chainOf } from './breaks.js';
import { crossingsOf } from './crossings.js';
import { endsOf, joinTurn, repeatOf } from './ends.js';
import { marksOf } from './marks.js';
import { once, onceFor } from './once.js';
import { SegmentIndex } from './segment-index.js';
import { stitchesOf } from './stitches.js';
import { joinedStrokes } from './strokes.js';

/** The facts of one motif. Asking for one throws a Refusal where the motif is nothing but dots. */
export function studyOf(motif: Motif, setup: Setup): Study {
  const joined = once(() => {
    const all = joinedStrokes(motif.strokes);
    if (all.strokes.length > 0) return all;
    throw new Refusal(`There is nothing to stitch in "${motif.name}", only dots.`);
  });
  const strokes = once(() => joined().strokes.map(({ line }) => line));
  const index = once(() => new SegmentIndex(strokes()));
  const chain = once(() => chainOf(strokes()));
  const box = once(() => boundsOf(strokes()));
  const widthMm = () => box().maxX - box().minX;
  const heightMm = () => box().maxY - box().minY;
  const lengthMm = once(() => strokes().reduce((sum, line) => sum + lengthOf(line), 0));
  const isOneStroke = () => chain().breaks.every(({ gapMm }) => gapMm <= setup.joinToleranceMm);
  const ends = once(() => endsOf(strokes(), chain(), box()));
  const repeat = once(() => repeatOf(ends().start, ends().end, isOneStroke(), widthMm()));
  const marks = once(() => marksOf(joined().strokes, index()));
  const crossings = once(() => crossingsOf(index(), motif.flattenMm, setup.limits.crossings));
  const stitches = once(() => stitchesOf(strokes(), setup));
  const row = once(() => {
    const { start, end } = ends();
    const middleXMm = repeat().assumed ? undefined : (start.at.x + end.at.x) / 2;
    return rowOf(strokes(), repeat().dx, middleXMm, setup.limits.overhangingRepeats);
  });
  const pending = (fact: string): never => {
    throw new Error(`${fact} is not measured yet`);
  };

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
    get breaks() {
      return chain().breaks;
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
      return pending('retraces');
    },
    cusps: onceFor((_legsDeg: number) => pending('cusps')),
    tightCurves: onceFor((_cutMm: number) => pending('tightCurves')),
    crowding: onceFor((_withinMm: number, _overMm: number) => pending('crowding')),
    piles: onceFor((_passes: number) => pending('piles')),
    shortSteps: onceFor((_stepMm: number) => pending('shortSteps')),
    get outline() {
      return pending('outline');
    },
    get stitches() {
      return stitches();
    },
    repeatMeeting: onceFor((_withinMm: number) => pending('repeatMeeting')),
    nesting: onceFor((layout) => nest(row(), layout, setup.clearanceMm)),
    rowsAt: onceFor((layout, spacingMm) => rowsAt(row(), layout, spacingMm)),
    rowDistance: onceFor((layout, spacingMm) => rowDistance(row(), layout, spacingMm)),
  };
}
