/** The line in the middle of areas; `index.ts` tells the way. */
import type { Point, Polyline } from '../../shared/plane.js';
import { chained, firstPoint, lastPoint, pointCount, polylineOf, reversed } from '../geometry/polyline.js';
import { acrossFork } from './across.js';
import { type Axis, axisOf } from './axis.js';
import { borderOf } from './border.js';
import { endedLine } from './ends.js';
import { ledOut } from './led-out.js';
import { Offsets } from './offsets.js';
import { type Piece, piecesOf, placeOf } from './pieces.js';
import { type PieceEnd, strokesOf } from './strokes.js';
import { touching } from './touching.js';

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

/** Near a fork the axis is drawn aside a little before its circles grow; so much is left out, in radii. */
const trimRadii = 0.35;

/** `rings` bound the area as `border.ts` has it. */
export function centreOf(rings: readonly Polyline[], { step, blur, smoothOver = 0 }: CentreOptions): Centre {
  const border = borderOf(rings, step);
  if (border.ringOf.length < 3) return { strokes: [], pen: 0, widths: [0, 0], shapes: [] };
  const axis = axisOf(border);
  const radius = axis.medianRadius;
  const { pieces, forks, shapes } = piecesOf(axis, radius, blur);
  const parts = { forks, pieces: ledOut(pieces, forks, (fork) => shapes.has(fork), axis) };
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
    // Ink does not tell which way the pen went: from left to right, as it is stitched.
    strokes: strokesOf(ended, joins).map((line) =>
      firstPoint(line).x > lastPoint(line).x ? reversed(line) : line,
    ),
    pen: 2 * radius,
    widths: [2 * axis.radii[0], 2 * axis.radii[1]],
    shapes: [...shapes.values()].map((node) => ({ at: placeOf(axis, node), radius: axis.radius[node] })),
  };
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
