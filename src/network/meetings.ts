/**
 * Where passes of the line meet: every two segments that cross.
 *
 * That is decided by which side of one segment the ends of the other lie on, exactly, and never on it: a point that
 * lies on another pass is taken to lie a hair aside (`side.ts`). So two passes that change sides meet an odd number of
 * times, however they do it: inside two segments, at a point of one or of both, along a shared stretch; and those that
 * only touch meet an even number of times, or never. Only places and angles are rounded.
 *
 * Neighbours along the line do not meet where they join. A closed stroke has no end: its first point is its last.
 */

import { Growing } from '../geometry/growing.js';
import { acuteDeg } from '../geometry/point.js';
import { areaOf, sideOf } from '../geometry/side.js';
import type { SegmentIndex } from '../near/segment-index.js';
import { visitSegmentPairs } from '../near/segment-pairs.js';

/** One of the two passes: the segment, and how far along it the meeting lies, a share from 0 to 1. */
const passes = 2;
/** x, y, the acute angle between the segments, degrees, and how far they are clear of each other, mm. */
const measures = 4;

export class Meetings {
  count = 0;
  private readonly segments = new Growing(new Uint32Array(passes * 512));
  private readonly shares = new Growing(new Float64Array(passes * 512));
  private readonly places = new Growing(new Float64Array(measures * 512));

  constructor(private readonly index: SegmentIndex) {}

  /** `which` is 0 or 1: of the two segments that meet, the earlier or the later. */
  segment(k: number, which: number): number {
    return this.segments.array[passes * k + which];
  }

  /** Length walked along the stroke of that segment, mm. */
  alongMm(k: number, which: number): number {
    return this.index.alongMm(this.segment(k, which), this.shares.array[passes * k + which]);
  }

  x(k: number): number {
    return this.places.array[measures * k];
  }

  y(k: number): number {
    return this.places.array[measures * k + 1];
  }

  angleDeg(k: number): number {
    return this.places.array[measures * k + 2];
  }

  /** Each end of either segment lies at least so far from the line through the other, mm. */
  clearMm(k: number): number {
    return this.places.array[measures * k + 3];
  }

  add(
    s: number,
    share: number,
    t: number,
    otherShare: number,
    x: number,
    y: number,
    angleDeg: number,
    clearMm: number,
  ): void {
    this.segments.push(s);
    this.segments.push(t);
    this.shares.push(share);
    this.shares.push(otherShare);
    this.places.push(x);
    this.places.push(y);
    this.places.push(angleDeg);
    this.places.push(clearMm);
    this.count++;
  }

  dropLast(): void {
    this.count--;
    this.segments.length -= passes;
    this.shares.length -= passes;
    this.places.length -= measures;
  }

  addAll(others: Meetings): void {
    for (let k = 0; k < others.count; k++) this.addFrom(others, k);
  }

  /** The meetings that are not flagged. */
  without(flags: Uint8Array): Meetings {
    const rest = new Meetings(this.index);
    for (let k = 0; k < this.count; k++) if (!flags[k]) rest.addFrom(this, k);
    return rest;
  }

  private addFrom(others: Meetings, k: number): void {
    const { segments, shares, places } = others;
    for (let i = passes * k; i < passes * (k + 1); i++) {
      this.segments.push(segments.array[i]);
      this.shares.push(shares.array[i]);
    }
    for (let i = measures * k; i < measures * (k + 1); i++) this.places.push(places.array[i]);
    this.count++;
  }
}

/** All meetings; after `most` of them the search ends, and `more` is true. */
export function meetingsOf(
  index: SegmentIndex,
  most: number,
): { readonly meetings: Meetings; readonly more: boolean } {
  const meetings = new Meetings(index);
  let more = false;
  visitSegmentPairs(index, 0, (s, t) => {
    if (t > s + 1) meet(index, s, t, meetings);
    more = meetings.count > most;
    return !more;
  });
  if (more) meetings.dropLast();
  return { meetings, more };
}

/** Adds the meeting of two segments where they cross. */
function meet(index: SegmentIndex, s: number, t: number, meetings: Meetings): void {
  const { points } = index;
  const c = areaOf(points, s, s + 1, t);
  const d = areaOf(points, s, s + 1, t + 1);
  if ((c > 0 && d > 0) || (c < 0 && d < 0)) return;
  const a = areaOf(points, t, t + 1, s);
  const b = areaOf(points, t, t + 1, s + 1);
  if ((a > 0 && b > 0) || (a < 0 && b < 0)) return;
  if ((a === 0 || b === 0 || c === 0 || d === 0) && !crossByHair(index, s, t)) return;
  const ax = points[2 * s];
  const ay = points[2 * s + 1];
  const ux = points[2 * s + 2] - ax;
  const uy = points[2 * s + 3] - ay;
  const vx = points[2 * t + 2] - points[2 * t];
  const vy = points[2 * t + 3] - points[2 * t + 1];
  // The line of t parts s in the ratio of the two distances; segments in line meet at a point of one of them.
  const share = a === b ? sharedPlace(points, s, t) : a / (a - b);
  const x = ax + share * ux;
  const y = ay + share * uy;
  const otherShare = c === d ? shareAt(points, t, x, y) : c / (c - d);
  // Twice the area of a triangle over one of its sides is how far its third point lies from that side.
  const clearMm = Math.min(
    Math.min(Math.abs(a), Math.abs(b)) / Math.sqrt(vx * vx + vy * vy),
    Math.min(Math.abs(c), Math.abs(d)) / Math.sqrt(ux * ux + uy * uy),
  );
  meetings.add(s, share, t, otherShare, x, y, acuteDeg(ux, uy, vx, vy), clearMm);
}

/** Do two segments cross of which one has a point in line with the other? */
function crossByHair(index: SegmentIndex, s: number, t: number): boolean {
  const { points } = index;
  if (isPoint(points, s) || isPoint(points, t)) return false;
  const sEnd = endOf(index, s);
  const tEnd = endOf(index, t);
  if (s === tEnd || t === sEnd || sEnd === tEnd) return false;
  return (
    sideOf(points, s, sEnd, t) > 0 !== sideOf(points, s, sEnd, tEnd) > 0 &&
    sideOf(points, t, tEnd, s) > 0 !== sideOf(points, t, tEnd, sEnd) > 0
  );
}

function isPoint(points: Float64Array, s: number): boolean {
  return points[2 * s] === points[2 * s + 2] && points[2 * s + 1] === points[2 * s + 3];
}

/** The number of the point at which a segment ends and the next one that is no mere point begins. */
function endOf({ points, strokeOf, firstPoints, closed }: SegmentIndex, s: number): number {
  const stroke = strokeOf[s];
  const last = firstPoints[stroke + 1] - 1;
  let p = s + 1;
  while (p < last && isPoint(points, p)) p++;
  if (p < last || !closed[stroke]) return p;
  p = firstPoints[stroke];
  while (p < last && isPoint(points, p)) p++;
  return p;
}

/** A share of segment s at which it lies on segment t, for segments in line that have a place in common. */
function sharedPlace(points: Float64Array, s: number, t: number): number {
  const from = shareAt(points, s, points[2 * t], points[2 * t + 1]);
  return Math.max(0, Math.min(from, 1));
}

/** The share of segment s, or of its line beyond its ends, at (x, y), which lies on it. */
function shareAt(points: Float64Array, s: number, x: number, y: number): number {
  const ux = points[2 * s + 2] - points[2 * s];
  const uy = points[2 * s + 3] - points[2 * s + 1];
  if (ux === 0 && uy === 0) return 0;
  return Math.abs(ux) >= Math.abs(uy) ? (x - points[2 * s]) / ux : (y - points[2 * s + 1]) / uy;
}
