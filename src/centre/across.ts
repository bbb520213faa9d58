/**
 * The lines across a fork.
 *
 * Which arms go on into one another their headings tell, where those differ clearly. Where they do not (two passes that
 * touch, or cross at a small angle, look much alike from afar), the likely ways are drawn and held against the border:
 * every place of it lies half a pen from the pass it belongs to, so that the way is the right one whose lines come
 * nearest to the border moved inward by half a pen.
 */
import type { Point, Polyline } from '../../shared/plane.js';
import { lengthOf, reversed } from '../geometry/polyline.js';
import { type Heading, headingOf } from './arm.js';
import type { Axis } from './axis.js';
import type { Border } from './border.js';
import { bridge } from './bridge.js';
import { borderFrom, cornerLine } from './corner.js';
import type { Offsets } from './offsets.js';
import { mismatch, type Pairing, pairingsOf } from './pairing.js';
import type { Piece } from './pieces.js';
import type { Join, PieceEnd } from './strokes.js';
import { touching } from './touching.js';

/** The last stretch of an arm that tells where it is heading, in radii. */
const headingRadii = 3;
/** Pairs of two arms that mismatch by more are corners, radians². */
const cornerSquared = 0.15;
/** So many ways to pair up are drawn, where their mismatch is no more than this above the best, radians². */
const mostDrawn = 4;
const likelyOver = 1;
/** What a mean square distance of one radius from the border counts beside the mismatch. */
const offWeight = 5;

export interface Ground {
  readonly axis: Axis;
  readonly border: Border;
  readonly offsets: Offsets;
  readonly radius: number;
  readonly step: number;
}

interface Arm {
  readonly end: PieceEnd;
  readonly heading: Heading;
}

/** Joins the `ends` of pieces that meet at a fork. What stays alone is led on: `lines`, the pieces as lines, are changed there. */
export function acrossFork(
  ends: readonly PieceEnd[],
  pieces: readonly Piece[],
  lines: Polyline[],
  ground: Ground,
): Join[] {
  const { radius } = ground;
  const arms = ends.map((end): Arm => {
    const line = end[1] === 1 ? lines[end[0]] : reversed(lines[end[0]]);
    return { end, heading: headingOf(line, Math.min(headingRadii * radius, lengthOf(line))) };
  });
  const { pairs, alone, across } = drawnAcross(arms, pieces, ground);
  const joins = pairs.map(([a, b], k): Join => {
    const { end: from, heading: start } = arms[a];
    const { end: to, heading: finish } = arms[b];
    const isCorner = arms.length === 2 && mismatch(start, finish, radius) > cornerSquared;
    return { from, to, line: (isCorner && cornerBetween(pieces, from, to, ground)) || across[k] };
  });
  for (const each of alone) {
    const { end, heading } = arms[each];
    leadOn(lines, end, heading, joins, radius);
  }
  return joins;
}

/** The pairing whose lines fit the border best, and those lines. */
function drawnAcross(arms: readonly Arm[], pieces: readonly Piece[], ground: Ground) {
  const { offsets, radius, step } = ground;
  const headings = arms.map(({ heading }) => heading);
  const likely = pairingsOf(headings, radius, mostDrawn, likelyOver).map((pairing: Pairing) => ({
    ...pairing,
    across: offsets.settled(pairing.pairs.map(([a, b]) => bridge(headings[a], headings[b], step))),
  }));
  if (likely.length === 1) return likely[0];
  const between = borderBetweenArms(arms, pieces, ground);
  const price = ({ cost, across }: (typeof likely)[0]) =>
    cost + offWeight * offsets.squaredOff(between, across);
  return likely.map((way) => ({ way, price: price(way) })).reduce((a, b) => (b.price < a.price ? b : a)).way;
}

/** Points of the border round a fork, from each arm to the next one. */
function borderBetweenArms(
  arms: readonly Arm[],
  pieces: readonly Piece[],
  { axis, border }: Ground,
): number[] {
  const touches = arms.map(({ end: [piece, end] }) => touching(axis, border, pieces[piece], end));
  return touches.flatMap(([from]) => {
    const runs = touches.map(([, to]) => borderFrom(border, from, to)).filter((run) => run !== null);
    return runs.length === 0 ? [] : runs.reduce((a, b) => (b.length < a.length ? b : a));
  });
}

function cornerBetween(
  pieces: readonly Piece[],
  [a, endA]: PieceEnd,
  [b, endB]: PieceEnd,
  { axis, border, offsets, radius }: Ground,
): Polyline | null {
  const atA = touching(axis, border, pieces[a], endA);
  const atB = touching(axis, border, pieces[b], endB);
  const one = borderFrom(border, atA[0], atB[1]);
  const other = borderFrom(border, atB[0], atA[1]);
  if (!one || !other) return null;
  const outer = one.length >= other.length ? one : other;
  const line = cornerLine(outer, offsets, radius);
  return outer === one ? line : reversed(line);
}

/** An arm that stays alone runs on to the nearest line across the fork. */
function leadOn(
  lines: Polyline[],
  [piece, end]: PieceEnd,
  heading: Heading,
  joins: readonly Join[],
  radius: number,
): void {
  const place = meeting(heading, joins, radius);
  if (!place) return;
  const line = lines[piece];
  lines[piece] =
    end === 1
      ? Float64Array.from([...line, place.x, place.y])
      : Float64Array.from([place.x, place.y, ...line]);
}

/** Where the heading meets a line across, or the place of one that lies nearest to it. */
function meeting({ at, dx, dy }: Heading, joins: readonly Join[], radius: number): Point | null {
  let best: Point | null = null;
  let least = Infinity;
  for (const { line } of joins)
    for (let i = 0; i < line.length; i += 2) {
      const along = (line[i] - at.x) * dx + (line[i + 1] - at.y) * dy;
      const aside = Math.abs((line[i + 1] - at.y) * dx - (line[i] - at.x) * dy);
      if (along < -radius || along > 12 * radius) continue;
      const price = aside + 0.1 * Math.abs(along);
      if (price < least) {
        least = price;
        best = { x: line[i], y: line[i + 1] };
      }
    }
  return best;
}
