/**
 * The strokes of a motif as they are stitched: exact duplicates set aside, pieces whose ends coincide joined into
 * one line, dots set aside. Ends in the very same place are joined before those that only coincide, and where more than
 * two meet, the straightest pair first, as a quilter would go on through a crossing.
 */

import type { Point, Polyline } from '../../../shared/plane.js';
import { coincideMm, type Duplicate } from '../../../shared/study.js';
import { centre } from '../../geometry/box.js';
import { turnDeg } from '../../geometry/point.js';
import { boundsOf, lengthOf, reversed } from '../../geometry/polyline.js';
import { pairsWithin } from '../../near/point-pairs.js';
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

/** Out of the piece at this end. */
function outward(pieces: readonly Polyline[], end: number): Point {
  const line = pieces[end >> 1];
  const { dx, dy } = end & 1 ? endDirection(line) : startDirection(line);
  return end & 1 ? { x: dx, y: dy } : { x: -dx, y: -dy };
}

/**
 * For each end, by its number, the end it is joined to, or -1. Ends in the very same place go first: where steps are shorter than the
 * distance at which ends coincide, the next end but one lies within it as well.
 */
function matesOf(pieces: readonly Polyline[]): Int32Array {
  const mates = new Int32Array(2 * pieces.length).fill(-1);
  mateWithin(samePlaceMm, pieces, mates);
  mateWithin(coincideMm, pieces, mates);
  return mates;
}

/** Pairs those ends that have no mate yet and lie so near: two that have only each other, then the straightest pair first. */
function mateWithin(reachMm: number, pieces: readonly Polyline[], mates: Int32Array): void {
  const { pairs, rivals } = endsWithin(reachMm, pieces, mates);
  const contested: { a: number; b: number; turn: number }[] = [];
  for (let i = 0; i < pairs.length; i += 2) {
    const a = pairs[i];
    const b = pairs[i + 1];
    if (rivals[a] > 1 || rivals[b] > 1) contested.push({ a, b, turn: turnAt(pieces, a, b) });
    else {
      mates[a] = b;
      mates[b] = a;
    }
  }
  contested.sort((p, q) => p.turn - q.turn || p.a - q.a || p.b - q.b);
  for (const { a, b } of contested) {
    if (mates[a] >= 0 || mates[b] >= 0) continue;
    mates[a] = b;
    mates[b] = a;
  }
}

/** Every two ends without a mate that lie so near, one after the other, and with how many each end does. */
function endsWithin(reachMm: number, pieces: readonly Polyline[], mates: Int32Array) {
  const loose = Uint32Array.from(mates.keys()).filter((end) => mates[end] < 0);
  const near = pairsWithin(placesOf(loose, pieces), reachMm, Infinity, endsInOnePlace)!;
  const rivals = new Uint32Array(mates.length);
  let n = 0;
  for (let i = 0; i < near.length; i += 2) {
    const a = loose[near[i + 1]];
    const b = loose[near[i]];
    // The two ends of a speck lie together without making it a loop.
    if (a >> 1 === b >> 1 && lengthOf(pieces[a >> 1]) < 10 * coincideMm) continue;
    near[n++] = a;
    near[n++] = b;
    rivals[a]++;
    rivals[b]++;
  }
  return { pairs: near.subarray(0, n), rivals };
}

/** [x0, y0, x1, y1, …] of ends by their numbers: 2k for the first point of line k and 2k + 1 for its last. */
export function placesOf(ends: Uint32Array, lines: readonly Polyline[]): Float64Array {
  const places = new Float64Array(2 * ends.length);
  ends.forEach((end, k) => {
    const line = lines[end >> 1];
    const i = end & 1 ? line.length - 2 : 0;
    places[2 * k] = line[i];
    places[2 * k + 1] = line[i + 1];
  });
  return places;
}

/** By how much the line turns, degrees, that leads out of one piece at end b and into another at end a. */
function turnAt(pieces: readonly Polyline[], a: number, b: number): number {
  const out = outward(pieces, b);
  const into = outward(pieces, a);
  return turnDeg(out.x, out.y, -into.x, -into.y);
}

function walkedFrom(from: number, pieces: readonly Polyline[], mates: Int32Array, seen: Uint8Array): Joined {
  /** The ends at which the pieces are entered. */
  const entries: number[] = [];
  let drawnAlong = 0;
  let entry = from;
  while (entry >= 0 && !seen[entry >> 1]) {
    const part = entry >> 1;
    seen[part] = 1;
    entries.push(entry);
    drawnAlong += (entry & 1 ? -1 : 1) * lengthOf(pieces[part]);
    entry = mates[entry ^ 1];
  }
  const parts = entries.map((each) => each >> 1);
  const closes = entry === from;
  const line = entries.length === 1 && !closes && !(from & 1) ? pieces[parts[0]] : inTurn(entries, pieces);
  if (closes) line.set(line.subarray(0, 2), line.length - 2);
  return drawnAlong < 0 ? { line: reversed(line), parts: parts.reverse() } : { line, parts };
}

/** The pieces one after the other, each from the end at which it is entered; an end that coincides with the last point is left out. */
function inTurn(entries: readonly number[], pieces: readonly Polyline[]): Polyline {
  const out = new Float64Array(entries.reduce((sum, entry) => sum + pieces[entry >> 1].length, 0));
  let n = 0;
  for (const entry of entries) {
    const piece = pieces[entry >> 1];
    const last = piece.length - 2;
    const step = entry & 1 ? -2 : 2;
    let i = entry & 1 ? last : 0;
    if (n > 0 && Math.hypot(piece[i] - out[n - 2], piece[i + 1] - out[n - 1]) <= coincideMm) i += step;
    for (; i >= 0 && i <= last; i += step) {
      out[n++] = piece[i];
      out[n++] = piece[i + 1];
    }
  }
  return out.slice(0, n);
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
