/**
 * The strokes of a motif as they are stitched: exact duplicates set aside, pieces whose ends coincide joined into
 * one line, dots set aside. Ends in the very same place are joined before those that only coincide, and where more than
 * two meet, the straightest pair first, as a quilter would go on through a crossing.
 */

import type { Point, Polyline } from '../../../shared/plane.js';
import { coincideMm, type Duplicate } from '../../../shared/study.js';
import { centre } from '../../geometry/box.js';
import { distanceBetween, turnDeg } from '../../geometry/point.js';
import { boundsOf, lengthOf, reversed } from '../../geometry/polyline.js';
import { pairsWithin } from '../../near/point-pairs.js';
import { rankedPairs } from '../../near/ranked-pairs.js';
import { neighboursTogether } from '../../near/together.js';
import { onceFor, oncePer } from '../../once.js';
import { duplicatesOf } from './duplicates.js';
import { endDirection, startDirection } from './tangent.js';

/** A joined stroke less than this across is a dot, mm. */
const dotMm = 0.5;
/** Ends no farther apart than this are in the same place but for rounding, mm. */
const samePlaceMm = 1e-9;
/** By as much may rounding turn a short straight side, degrees. */
const roundedDeg = 1;
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
 * The strokes of a motif, joined where ends lie within the reach. A joined line runs as most of it was drawn; a closed one begins where its first
 * piece in the file does.
 */
export function joinedStrokes(drawn: readonly Polyline[], reachMm = coincideMm): JoinedStrokes {
  return joinedPer(drawn)(reachMm);
}

const joinedPer = oncePer((drawn: readonly Polyline[]) =>
  onceFor((reachMm: number) => joinedFrom(drawn, reachMm)),
);

function joinedFrom(drawn: readonly Polyline[], reachMm: number): JoinedStrokes {
  const duplicates = duplicatesOf(drawn);
  const aside = new Uint8Array(drawn.length);
  for (const { stroke } of duplicates) aside[stroke] = 1;
  const strokes: Joined[] = [];
  const dots: (Joined & { at: Point })[] = [];
  for (const joined of joinedWhereEndsMeet(drawn, aside, reachMm)) {
    if (isSmall(joined.line)) dots.push({ ...joined, at: centre(boundsOf([joined.line])) });
    else strokes.push(joined);
  }
  return { strokes, dots, duplicates };
}

/** Without those that are set aside. */
function joinedWhereEndsMeet(pieces: readonly Polyline[], aside: Uint8Array, reachMm: number): Joined[] {
  const mates = matesOf(pieces, aside, reachMm);
  const seen = aside.slice();
  const joined: Joined[] = [];
  const follow = (end: number) => {
    if (!seen[end >> 1]) joined.push(walkedFrom(end, pieces, mates, seen));
  };
  // Lines with loose ends first, each from its loose end, then the rest: they are closed.
  mates.forEach((mate, end) => {
    if (mate < 0) follow(end);
  });
  for (let piece = 0; piece < pieces.length; piece++) follow(2 * piece);
  const inFileOrder = new Array<Joined | undefined>(pieces.length);
  for (const one of joined) inFileOrder[one.parts.reduce((a, b) => Math.min(a, b))] = one;
  return inFileOrder.filter((one) => one !== undefined);
}

/**
 * For each end, by its number, the end it is joined to, or -1. Ends in the very same place go first: where steps are shorter than the
 * distance at which ends coincide, the next end but one lies within it as well.
 */
function matesOf(pieces: readonly Polyline[], aside: Uint8Array, farthestMm: number): Int32Array {
  const mates = new Int32Array(2 * pieces.length).fill(-1);
  const places = placesOfEnds(pieces);
  const ends = neighboursTogether(places);
  for (const reachMm of [samePlaceMm, farthestMm]) {
    const loose = ends.filter((end) => mates[end] < 0 && aside[end >> 1] === 0);
    mateWithin(reachMm, pieces, { loose, places: placesOf(loose, places) }, mates);
  }
  return mates;
}

interface LooseEnds {
  readonly loose: Uint32Array;
  readonly places: Float64Array;
}

/** Pairs those of the loose ends that lie so near: two that have only each other, then the straightest pair first. */
function mateWithin(reachMm: number, pieces: readonly Polyline[], ends: LooseEnds, mates: Int32Array): void {
  const { pairs, rivals } = endsWithin(reachMm, pieces, ends);
  let contested = 0;
  for (let i = 0; i < pairs.length; i += 2) {
    const a = pairs[i];
    const b = pairs[i + 1];
    if (rivals[a] > 1 || rivals[b] > 1) {
      pairs[contested++] = a;
      pairs[contested++] = b;
    } else {
      mates[a] = b;
      mates[b] = a;
    }
  }
  const outward = outwardAt(pairs.subarray(0, contested), pieces);
  // By how much the line turns that leads out of one piece at one end and into another at the other. Where a curve comes
  // to the corner of a box along its side, the next side turns no more and no less but for rounding: straight goes with straight.
  const turn = (a: number, b: number) => {
    const isUnlike = (pieces[a >> 1].length === 4) !== (pieces[b >> 1].length === 4);
    const deg = turnDeg(outward[2 * b], outward[2 * b + 1], -outward[2 * a], -outward[2 * a + 1]);
    return (deg + (isUnlike ? roundedDeg : 0)) / 180;
  };
  const ranked = rankedPairs(pairs.subarray(0, contested), turn);
  for (let i = 0; i < ranked.length; i += 2) {
    const a = ranked[i];
    const b = ranked[i + 1];
    if (mates[a] >= 0 || mates[b] >= 0) continue;
    mates[a] = b;
    mates[b] = a;
  }
}

/** [x, y] of the unit vector out of the piece at each of these ends, by the end's number. */
function outwardAt(ends: Uint32Array, pieces: readonly Polyline[]): Float64Array {
  const outward = new Float64Array(4 * pieces.length);
  for (const end of ends) {
    if (outward[2 * end] !== 0 || outward[2 * end + 1] !== 0) continue;
    const line = pieces[end >> 1];
    const { dx, dy } = end & 1 ? endDirection(line) : startDirection(line);
    outward[2 * end] = end & 1 ? dx : -dx;
    outward[2 * end + 1] = end & 1 ? dy : -dy;
  }
  return outward;
}

/** Every two of the loose ends that lie so near, one after the other, and with how many each end does. */
function endsWithin(reachMm: number, pieces: readonly Polyline[], { loose, places }: LooseEnds) {
  const near = pairsWithin(places, reachMm, Infinity, endsInOnePlace)!;
  const rivals = new Uint32Array(2 * pieces.length);
  let n = 0;
  for (let i = 0; i < near.length; i += 2) {
    const a = Math.min(loose[near[i]], loose[near[i + 1]]);
    const b = Math.max(loose[near[i]], loose[near[i + 1]]);
    // The two ends of a speck lie together without making it a loop.
    if (a >> 1 === b >> 1 && lengthOf(pieces[a >> 1]) < 10 * coincideMm) continue;
    near[n++] = a;
    near[n++] = b;
    rivals[a]++;
    rivals[b]++;
  }
  return { pairs: near.subarray(0, n), rivals };
}

/** [x0, y0, x1, y1, …] of the ends of all lines: end 2k is the first point of line k, 2k + 1 its last. */
export function placesOfEnds(lines: readonly Polyline[]): Float64Array {
  const places = new Float64Array(4 * lines.length);
  lines.forEach((line, k) => {
    places[4 * k] = line[0];
    places[4 * k + 1] = line[1];
    places[4 * k + 2] = line[line.length - 2];
    places[4 * k + 3] = line[line.length - 1];
  });
  return places;
}

/** Those of some of them. */
export function placesOf(ends: Uint32Array, all: Float64Array): Float64Array {
  const places = new Float64Array(2 * ends.length);
  for (let k = 0; k < ends.length; k++) {
    places[2 * k] = all[2 * ends[k]];
    places[2 * k + 1] = all[2 * ends[k] + 1];
  }
  return places;
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
    if (n > 0 && distanceBetween(piece[i], piece[i + 1], out[n - 2], out[n - 1]) <= coincideMm) i += step;
    for (; i >= 0 && i <= last; i += step) {
      out[n++] = piece[i];
      out[n++] = piece[i + 1];
    }
  }
  return out.slice(0, n);
}

/** Less across than a dot may be, in whichever direction it is widest (to half a per cent). */
function isSmall(line: Polyline): boolean {
  const last = line.length - 2;
  if (Math.max(Math.abs(line[last] - line[0]), Math.abs(line[last + 1] - line[1])) >= dotMm) return false;
  if (lengthOf(line) < dotMm) return true;
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
