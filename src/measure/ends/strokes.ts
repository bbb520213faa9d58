/**
 * The strokes of a motif as they are stitched: exact duplicates set aside, pieces whose ends coincide joined into
 * one line, dots set aside. Ends in the very same place are joined before those that only coincide, and where more than
 * two meet, the straightest pair first, as a quilter would go on through a crossing.
 */

import type { Point, Polyline } from '../../../shared/plane.js';
import { coincideMm, type Duplicate } from '../../../shared/study.js';
import { centre } from '../../geometry/box.js';
import { turnDeg } from '../../geometry/point.js';
import { boundsOf, chained, lengthOf, reversed } from '../../geometry/polyline.js';
import { PointGrid } from '../../near/point-grid.js';
import { duplicatesOf } from './duplicates.js';
import { endDirection, startDirection } from './tangent.js';

/** A joined stroke less than this across is a dot, mm. */
export const dotMm = 0.5;
/** Ends no farther apart than this are in the same place but for rounding, mm. */
const samePlaceMm = 1e-9;
/** So many ends in one place are no drawing; further ones are left unjoined, so that the work stays bounded. */
const endsInOnePlace = 400;

export interface Joined {
  readonly line: Polyline;
  /** The motif's strokes that it is made of, as indices, in the order of the line. */
  readonly parts: readonly number[];
}

export interface JoinedStrokes {
  readonly strokes: readonly Joined[];
  readonly dots: readonly (Joined & { readonly at: Point })[];
  readonly duplicates: readonly Duplicate[];
}

/**
 * The strokes of a motif, joined. A joined line runs as most of it was drawn; a closed one begins where its first
 * piece in the file does.
 */
export function joinedStrokes(drawn: readonly Polyline[]): JoinedStrokes {
  const duplicates = duplicatesOf(drawn);
  const copies = new Set(duplicates.map(({ stroke }) => stroke));
  const kept = drawn.map((_, index) => index).filter((index) => !copies.has(index));
  const pieces = kept.map((index) => drawn[index]);
  const strokes: Joined[] = [];
  const dots: (Joined & { at: Point })[] = [];
  for (const { line, parts } of joinedWhereEndsMeet(pieces)) {
    const joined = { line, parts: parts.map((part) => kept[part]) };
    if (isSmall(line)) dots.push({ ...joined, at: centre(boundsOf([line])) });
    else strokes.push(joined);
  }
  return { strokes, dots, duplicates };
}

function joinedWhereEndsMeet(pieces: readonly Polyline[]): Joined[] {
  const mates = matesOf(pieces);
  const seen = new Uint8Array(pieces.length);
  const joined: Joined[] = [];
  const follow = (end: number) => {
    if (!seen[end >> 1]) joined.push(walkedFrom(end, pieces, mates, seen));
  };
  // Lines with loose ends first, each from its loose end, then the rest: they are closed.
  mates.forEach((mate, end) => {
    if (mate < 0) follow(end);
  });
  pieces.forEach((_, piece) => {
    follow(2 * piece);
  });
  const inFileOrder = new Array<Joined | undefined>(pieces.length);
  for (const one of joined) inFileOrder[one.parts.reduce((a, b) => Math.min(a, b))] = one;
  return inFileOrder.filter((one) => one !== undefined);
}

/** Ends are numbered 2k for the first point of piece k and 2k + 1 for its last. */
function placeOfEnd(pieces: readonly Polyline[], end: number): Point {
  const line = pieces[end >> 1];
  const i = end & 1 ? line.length - 2 : 0;
  return { x: line[i], y: line[i + 1] };
}

/** Out of the piece at this end. */
function outward(pieces: readonly Polyline[], end: number): Point {
  const line = pieces[end >> 1];
  const { dx, dy } = end & 1 ? endDirection(line) : startDirection(line);
  return end & 1 ? { x: dx, y: dy } : { x: -dx, y: -dy };
}

/**
 * For each end the end it is joined to, or -1. Ends in the very same place go first: where steps are shorter than the
 * distance at which ends coincide, the next end but one lies within it as well.
 */
function matesOf(pieces: readonly Polyline[]): Int32Array {
  const mates = new Int32Array(2 * pieces.length).fill(-1);
  mateWithin(samePlaceMm, pieces, mates);
  mateWithin(coincideMm, pieces, mates);
  return mates;
}

/** Pairs those ends that have no mate yet and lie so near, the straightest pair first. */
function mateWithin(reachMm: number, pieces: readonly Polyline[], mates: Int32Array): void {
  const loose = Array.from(mates.keys()).filter((end) => mates[end] < 0);
  const grid = new PointGrid(reachMm, endsInOnePlace, loose.length);
  const pairs: { a: number; b: number; turn: number }[] = [];
  loose.forEach((end, k) => {
    const { x, y } = placeOfEnd(pieces, end);
    if (!grid.add(x, y)) return;
    grid.visitNear(x, y, (near) => {
      if (near === k) return;
      const other = loose[near];
      // The two ends of a speck lie together without making it a loop.
      if (other >> 1 === end >> 1 && lengthOf(pieces[end >> 1]) < 10 * coincideMm) return;
      const out = outward(pieces, end);
      const into = outward(pieces, other);
      pairs.push({ a: other, b: end, turn: turnDeg(out.x, out.y, -into.x, -into.y) });
    });
  });
  pairs.sort((p, q) => p.turn - q.turn || p.a - q.a || p.b - q.b);
  for (const { a, b } of pairs) {
    if (mates[a] >= 0 || mates[b] >= 0) continue;
    mates[a] = b;
    mates[b] = a;
  }
}

function walkedFrom(from: number, pieces: readonly Polyline[], mates: Int32Array, seen: Uint8Array): Joined {
  const parts: number[] = [];
  const lines: Polyline[] = [];
  let drawnAlong = 0;
  let entry = from;
  while (entry >= 0 && !seen[entry >> 1]) {
    const part = entry >> 1;
    seen[part] = 1;
    const backwards = (entry & 1) === 1;
    parts.push(part);
    lines.push(backwards ? reversed(pieces[part]) : pieces[part]);
    drawnAlong += (backwards ? -1 : 1) * lengthOf(pieces[part]);
    entry = mates[entry ^ 1];
  }
  const closes = entry === from;
  const line = lines.length === 1 && !closes ? lines[0] : chained(lines, coincideMm);
  if (closes) line.set(line.subarray(0, 2), line.length - 2);
  return drawnAlong < 0 ? { line: reversed(line), parts: parts.reverse() } : { line, parts };
}

/** Less across than a dot may be, in whichever direction it is widest (to half a per cent). */
function isSmall(line: Polyline): boolean {
  if (lengthOf(line) < dotMm) return true;
  const box = boundsOf([line]);
  if (box.maxX - box.minX >= dotMm || box.maxY - box.minY >= dotMm) return false;
  const directions = 16;
  for (let k = 0; k < directions; k++) {
    const angle = (k * Math.PI) / directions;
    const cos = Math.cos(angle);
    const sin = Math.sin(angle);
    let least = Infinity;
    let most = -Infinity;
    for (let i = 0; i < line.length; i += 2) {
      const across = cos * line[i] + sin * line[i + 1];
      if (across < least) least = across;
      if (across > most) most = across;
    }
    if (most - least >= dotMm) return false;
  }
  return true;
}
