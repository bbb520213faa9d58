/** The line in the middle of areas; `index.ts` tells the way. */
import type { Point, Polyline } from '../../shared/plane.js';
import { chained, lengthOf, pointCount, polylineOf, reversed } from '../geometry/polyline.js';
import { type Heading, headingOf } from './arm.js';
import { type Axis, axisOf } from './axis.js';
import { type Border, borderOf } from './border.js';
import { bridge } from './bridge.js';
import { borderFrom, cornerLine } from './corner.js';
import { endedLine } from './ends.js';
import { Offsets } from './offsets.js';
import { mismatch, pairingOf } from './pairing.js';
import { type Piece, piecesOf, placeOf } from './pieces.js';
import { type Join, type PieceEnd, strokesOf } from './strokes.js';

export interface Centre {
  readonly strokes: readonly Polyline[];
  /** The width of the pen: twice the median radius. */
  readonly pen: number;
  /** What it was under and over for a twentieth of the line each. */
  readonly widths: readonly [number, number];
  /** The widest circles of what is no stroke of this pen: filled shapes, blots. */
  readonly shapes: readonly { readonly at: Point; readonly radius: number }[];
}

export interface CentreOptions {
  /** Between points of the border. */
  readonly step: number;
  /** How far the border may be off, beside what its points say: of a picture a part of a pixel. */
  readonly blur: number;
  /** The line is smoothed over this length (one standard deviation); what is finer counts as grain. */
  readonly smoothOver?: number;
}

/** The last stretch of an arm that tells where it is heading, in radii. */
const headingRadii = 3;
/** Near a fork the axis is drawn aside a little before its circles grow; so much is left out, in radii. */
const trimRadii = 0.35;
/** Pairs of two arms that mismatch by more are corners, radians². */
const cornerSquared = 0.15;

/** `rings` bound the area as `border.ts` has it. */
export function centreOf(rings: readonly Polyline[], { step, blur, smoothOver = 0 }: CentreOptions): Centre {
  const border = borderOf(rings, step);
  if (border.ringOf.length < 3) return { strokes: [], pen: 0, widths: [0, 0], shapes: [] };
  const axis = axisOf(border);
  const radius = axis.medianRadius;
  const parts = piecesOf(axis, radius, blur);
  const offsets = new Offsets(border, radius, step);
  const lines = parts.pieces.map((piece) => trimmed(axis, piece, radius, roundsFor(smoothOver, step)));
  const endsAt: PieceEnd[][] = parts.forks.map(() => []);
  parts.pieces.forEach(({ forks }, piece) => {
    for (const end of [0, 1] as const) if (forks[end] >= 0) endsAt[forks[end]].push([piece, end]);
  });
  const ground = { axis, border, offsets, radius, step };
  const joins = endsAt.flatMap((ends) => acrossFork(ends, parts.pieces, lines, ground));
  const ended = parts.pieces.map((piece, k) => {
    let line = lines[k];
    if (piece.isLoop) return chained([line, line.subarray(0, 2)]);
    if (piece.forks[1] < 0) line = endedLine(line, border, touching(axis, border, piece, 1), radius);
    if (piece.forks[0] < 0)
      line = reversed(endedLine(reversed(line), border, touching(axis, border, piece, 0), radius));
    return line;
  });
  return {
    strokes: strokesOf(ended, joins),
    pen: 2 * radius,
    widths: [2 * axis.radii[0], 2 * axis.radii[1]],
    shapes: parts.shapes.map((node) => ({ at: placeOf(axis, node), radius: axis.radius[node] })),
  };
}

interface Ground {
  readonly axis: Axis;
  readonly border: Border;
  readonly offsets: Offsets;
  readonly radius: number;
  readonly step: number;
}

/** The piece as a line, without what lies too near a fork to be trusted. */
function trimmed(axis: Axis, piece: Piece, radius: number, rounds: number): Polyline {
  const line = smoothed(polylineOf(piece.nodes.map((node) => placeOf(axis, node))), rounds);
  const trim = Math.min(trimRadii * radius, 0.2 * piece.length);
  let out = line;
  if (piece.forks[1] >= 0) out = shortened(out, trim);
  if (piece.forks[0] >= 0) out = reversed(shortened(reversed(out), trim));
  return out;
}

/** Each round of [1 2 1] / 4 adds half a step's square to the square of what is smoothed over; centres lie half a step apart. */
function roundsFor(over: number, step: number): number {
  return Math.max(2, Math.ceil(2 * (over / (step / 2)) ** 2));
}

/** Centres between points of the border that do not face one another lie a little aside, by turns: halved out. */
function smoothed(line: Polyline, rounds: number): Polyline {
  let now = line;
  for (let round = 0; round < rounds; round++) {
    const before = now;
    now = before.map((value, i) =>
      i < 2 || i >= before.length - 2 ? value : (before[i - 2] + 2 * value + before[i + 2]) / 4,
    );
  }
  return now;
}

function shortened(line: Polyline, by: number): Polyline {
  let left = by;
  let count = pointCount(line);
  while (count > 2) {
    left -= Math.hypot(line[2 * count - 2] - line[2 * count - 4], line[2 * count - 1] - line[2 * count - 3]);
    if (left < 0) break;
    count--;
  }
  return line.slice(0, 2 * count);
}

/** The points of the border on either side of an end: where it runs on past the end first, then where it comes back. */
function touching(axis: Axis, { points }: Border, { nodes }: Piece, end: 0 | 1): readonly [number, number] {
  const order = end === 1 ? nodes : [...nodes].reverse();
  const last = order[order.length - 1];
  const before = order[Math.max(0, order.length - 6)];
  const dx = axis.x[last] - axis.x[before];
  const dy = axis.y[last] - axis.y[before];
  const aside = (point: number) =>
    dx * (points[2 * point + 1] - axis.y[last]) - dy * (points[2 * point] - axis.x[last]);
  const three = [...axis.touches.subarray(3 * last, 3 * last + 3)].sort((p, q) => aside(p) - aside(q));
  return [three[0], three[2]];
}

function acrossFork(
  ends: readonly PieceEnd[],
  pieces: readonly Piece[],
  lines: Polyline[],
  ground: Ground,
): Join[] {
  const { radius, step } = ground;
  const arms = ends.map((end) => {
    const line = end[1] === 1 ? lines[end[0]] : reversed(lines[end[0]]);
    return { end, heading: headingOf(line, Math.min(headingRadii * radius, lengthOf(line))) };
  });
  const { pairs, alone } = pairingOf(
    arms.map(({ heading }) => heading),
    radius,
  );
  const across = ground.offsets.settled(
    pairs.map(([a, b]) => bridge(arms[a].heading, arms[b].heading, step)),
  );
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
