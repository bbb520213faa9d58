/**
 * Where the lines of a drawing meet: they cross, an end lies on a line, or two lines touch in passing. There the
 * needle may switch from one line to the other.
 *
 * Every pair of segments within the touch distance is found as for the crossings (`segment-pairs.ts`). Crossings and
 * ends that touch are all kept. Lines that touch in passing, or lie on one another, are within reach over a whole
 * stretch: of that the closest place is kept, and further ones no nearer to it than `spacingMm` along the line.
 */
import { grouped } from '../../shared/grouped.js';
import type { Point } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { distance, midpoint } from '../geometry/point.js';
import { pointAt } from '../geometry/polyline.js';
import { nearestOnSegment, segmentCrossing } from '../geometry/segment.js';
import type { SegmentIndex } from '../near/segment-index.js';
import { visitSegmentPairs } from '../near/segment-pairs.js';

/** A place on a line: which, and how far along it from its first point. */
export interface PlaceOnLine {
  readonly line: number;
  readonly alongMm: number;
}

export interface Contact {
  readonly a: PlaceOnLine;
  readonly b: PlaceOnLine;
  readonly at: Point;
  /** How far the lines are apart there; 0 where they cross. */
  readonly gapMm: number;
  readonly kind: 'crossing' | 'end' | 'touch';
}

/** Two lines that touch in passing can be switched between about this often. */
const spacingMm = 1;
/** Lines drawn with many points touch in as many places before they are thinned out; so many for each that is kept. */
const touchesAPlace = 2;
/** Places of one line nearer than this along it are one place, not a contact. */
const sameStretchMm = 0.5;

/** All contacts between the lines of an index and of each with itself. Throws a Refusal where there are more than `most`. */
export function contactsOf(index: SegmentIndex, touchMm: number, most: number): Contact[] {
  const kept: Contact[] = [];
  const touches = new Map<number, Contact[]>();
  let found = 0;
  const segments = new Segments(index);
  const keep = (contact: Contact) => {
    if (contact.kind !== 'touch') kept.push(contact);
    else {
      const pair = contact.a.line * index.strokes.length + contact.b.line;
      const list = touches.get(pair);
      if (list) list.push(contact);
      else touches.set(pair, [contact]);
    }
    found++;
    if (kept.length > most || found > touchesAPlace * most)
      throw new Refusal(`The lines meet at more than ${grouped(most)} places: too many to route.`);
  };
  visitSegmentPairs(index, touchMm, (i, j) => {
    for (const contact of segments.contacts(i, j, touchMm)) keep(contact);
    return true;
  });
  for (const list of touches.values()) for (const touch of thinnedOut(list)) kept.push(touch);
  return kept;
}

/** Of touches of the same two lines: the closest, and others at a distance from those already taken. */
function thinnedOut(touches: Contact[]): Contact[] {
  touches.sort((p, q) => p.gapMm - q.gapMm || p.a.alongMm - q.a.alongMm || p.b.alongMm - q.b.alongMm);
  const taken = new Map<number, Contact[]>();
  const cell = (mm: number) => Math.floor(mm / spacingMm);
  return touches.filter((touch) => {
    const here = cell(touch.a.alongMm);
    for (const near of [here - 1, here, here + 1])
      for (const other of taken.get(near) ?? [])
        if (
          Math.abs(other.a.alongMm - touch.a.alongMm) < spacingMm &&
          Math.abs(other.b.alongMm - touch.b.alongMm) < spacingMm
        )
          return false;
    const list = taken.get(here);
    if (list) list.push(touch);
    else taken.set(here, [touch]);
    return true;
  });
}

class Segments {
  readonly #index: SegmentIndex;

  constructor(index: SegmentIndex) {
    this.#index = index;
  }

  contacts(i: number, j: number, touchMm: number): Contact[] {
    const [a, b] = [this.#ends(i), this.#ends(j)];
    const found: Contact[] = [];
    const add = (onA: Point, onB: Point, gapMm: number, crosses: boolean) => {
      const contact = this.#contact(this.#place(i, onA), this.#place(j, onB), onA, onB, gapMm, crosses);
      if (contact) found.push(contact);
    };
    const crossing = segmentCrossing(a[0].x, a[0].y, a[1].x, a[1].y, b[0].x, b[0].y, b[1].x, b[1].y);
    if (crossing) add(crossing, crossing, 0, true);
    for (const end of a) {
      const foot = nearestOnSegment(end, ...b);
      const gap = distance(end, foot);
      if (gap <= touchMm) add(end, foot, gap, false);
    }
    for (const end of b) {
      const foot = nearestOnSegment(end, ...a);
      const gap = distance(end, foot);
      if (gap <= touchMm) add(foot, end, gap, false);
    }
    return found;
  }

  #ends(n: number): readonly [Point, Point] {
    const { points } = this.#index;
    return [pointAt(points, n), pointAt(points, n + 1)];
  }

  #place(n: number, at: Point): PlaceOnLine {
    const { strokeOf, runMm } = this.#index;
    return { line: strokeOf[n], alongMm: runMm[n] + distance(this.#ends(n)[0], at) };
  }

  #contact(
    a: PlaceOnLine,
    b: PlaceOnLine,
    onA: Point,
    onB: Point,
    gapMm: number,
    crosses: boolean,
  ): Contact | null {
    if (a.line === b.line && Math.abs(a.alongMm - b.alongMm) < sameStretchMm) return null;
    if (crosses) return { a, b, at: onA, gapMm, kind: 'crossing' };
    // An end is drawn to the line it touches; where lines touch in passing each gives way by half the gap.
    if (this.#isEnd(a)) return { a, b, at: onB, gapMm, kind: 'end' };
    if (this.#isEnd(b)) return { a, b, at: onA, gapMm, kind: 'end' };
    return { a, b, at: midpoint(onA, onB), gapMm, kind: 'touch' };
  }

  #isEnd({ line, alongMm }: PlaceOnLine): boolean {
    return alongMm <= 1e-9 || alongMm >= this.#index.strokeLengthMm(line) - 1e-9;
  }
}

/** Each pass of a line within `reachMm` of a place, where it is nearest to it. */
export function passesNear(index: SegmentIndex, at: Point, reachMm: number): PlaceOnLine[] {
  const near: (PlaceOnLine & { mm: number })[] = [];
  index.visitNearPoint(at.x, at.y, reachMm, (segment, mm) => {
    const [from, to] = [pointAt(index.points, segment), pointAt(index.points, segment + 1)];
    const alongMm = index.runMm[segment] + distance(from, nearestOnSegment(at, from, to));
    near.push({ line: index.strokeOf[segment], alongMm, mm });
  });
  near.sort((p, q) => p.mm - q.mm || p.alongMm - q.alongMm);
  const passes: PlaceOnLine[] = [];
  for (const { line, alongMm } of near) {
    const isNew = passes.every(
      (pass) => pass.line !== line || Math.abs(pass.alongMm - alongMm) >= sameStretchMm,
    );
    if (isNew) passes.push({ line, alongMm });
  }
  return passes;
}
