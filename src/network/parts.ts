/**
 * The parts of a drawing that do not touch, and the shortest links between them.
 *
 * Two polylines that do not meet are nearest at an end of a segment of one of them, so the distance of two parts is
 * the least distance of a corner of one to a segment of the other. It is no more than that of any one corner of the
 * smaller, which leaves few corners of a large part to be asked where a small one lies in it.
 */
import type { Box, Point, Polyline } from '../../shared/plane.js';
import { emptyBox, extend } from '../geometry/box.js';
import { distance } from '../geometry/point.js';
import { pointAt } from '../geometry/polyline.js';
import { nearestOnSegment } from '../geometry/segment.js';
import { SegmentIndex } from '../near/segment-index.js';
import { type Graph, type PlaceOnPiece, partsOf } from './graph.js';

/** A distance worked out in another way may be longer by this share. */
const roundingShare = 1e-12;

export interface PartLink {
  readonly from: PlaceOnPiece;
  readonly to: PlaceOnPiece;
  readonly lengthMm: number;
}

/** One connected part: its pieces by number, and an index over their segments. */
export class Part {
  readonly box: Box = emptyBox();
  readonly #index: SegmentIndex;

  constructor(
    readonly pieces: readonly number[],
    lines: readonly Polyline[],
  ) {
    this.#index = new SegmentIndex(lines);
    const { points } = this.#index;
    for (let i = 0; i < points.length; i += 2) extend(this.box, points[i], points[i + 1]);
  }

  /** The shortest link to another part. */
  linkTo(other: Part): PartLink {
    const [fewer, more] = this.#cornerCount < other.#cornerCount ? [this, other] : [other, this];
    // No farther than any one corner is, but for rounding: so most corners of a large part are never asked.
    const atMostMm =
      more.#distanceFrom(pointAt(fewer.#index.points, 0)) * (1 + roundingShare) + Number.MIN_VALUE;
    const out = this.#nearestCornerTo(other, atMostMm);
    const back = other.#nearestCornerTo(this, out?.lengthMm ?? atMostMm);
    return back ? { from: back.to, to: back.from, lengthMm: back.lengthMm } : out!;
  }

  get #cornerCount(): number {
    return this.#index.points.length / 2;
  }

  /** How far the nearest place of this part lies from another place, mm: looked for within wider and wider squares. */
  #distanceFrom(at: Point): number {
    const { minX, minY, maxX, maxY } = this.box;
    const usualMm = (maxX - minX + maxY - minY) / Math.sqrt(this.#cornerCount);
    for (let reachMm = toBox(at, this.box) + usualMm; ; reachMm *= 2) {
      let leastMm = Infinity;
      this.#visitNear(at, reachMm, (_segment, foot) => {
        leastMm = Math.min(leastMm, distance(at, foot));
      });
      if (leastMm <= reachMm) return leastMm;
    }
  }

  /** The shortest link from a corner of this part to a line of the other, if shorter than `belowMm`. */
  #nearestCornerTo(other: Part, belowMm: number): PartLink | null {
    let best = belowMm;
    let found: { corner: number; segment: number; foot: Point } | null = null;
    const { points } = this.#index;
    for (const corner of this.#cornersBy(other.box, belowMm)) {
      const at = pointAt(points, corner);
      if (toBox(at, other.box) >= best) break;
      other.#visitNear(at, best, (segment, foot) => {
        const mm = distance(at, foot);
        if (mm < best) {
          best = mm;
          found = { corner, segment, foot };
        }
      });
    }
    if (found === null) return null;
    const { corner, segment, foot } = found as { corner: number; segment: number; foot: Point };
    return {
      from: this.#place(corner, pointAt(points, corner)),
      to: other.#place(segment, foot),
      lengthMm: best,
    };
  }

  /** The corners within that distance of a box, and some farther off, those nearest to the box first. */
  #cornersBy(box: Box, withinMm: number): number[] {
    const { points } = this.#index;
    const near: { corner: number; mm: number }[] = [];
    this.#index.visitBox(
      box.minX - withinMm,
      box.minY - withinMm,
      box.maxX + withinMm,
      box.maxY + withinMm,
      (segment) => {
        for (const corner of [segment, segment + 1])
          near.push({ corner, mm: toBox(pointAt(points, corner), box) });
      },
    );
    return near
      .sort((p, q) => p.mm - q.mm || p.corner - q.corner)
      .map(({ corner }) => corner)
      .filter((corner, i, all) => corner !== all[i - 1]);
  }

  /** Segments that may lie within `withinMm` of a place, each with the place on it that is nearest. */
  #visitNear(at: Point, withinMm: number, visit: (segment: number, foot: Point) => void): void {
    const { points } = this.#index;
    // A first guess keeps the search small while nothing is known.
    const reach = Math.min(withinMm, distance(at, pointAt(points, 0)));
    this.#index.visitBox(at.x - reach, at.y - reach, at.x + reach, at.y + reach, (segment) => {
      visit(segment, nearestOnSegment(at, pointAt(points, segment), pointAt(points, segment + 1)));
    });
  }

  #place(segment: number, at: Point): PlaceOnPiece {
    const { points, runMm, strokeOf } = this.#index;
    return {
      piece: this.pieces[strokeOf[segment]],
      alongMm: runMm[segment] + distance(pointAt(points, segment), at),
    };
  }
}

export function partsOfGraph(graph: Graph): Part[] {
  const { part, count } = partsOf(graph);
  const pieces: number[][] = Array.from({ length: count }, () => []);
  graph.pieces.forEach(({ from }, i) => {
    pieces[part[from]].push(i);
  });
  return pieces.map(
    (list) =>
      new Part(
        list,
        list.map((i) => graph.pieces[i].line),
      ),
  );
}

function toBox({ x, y }: Point, box: Box): number {
  return Math.hypot(Math.max(box.minX - x, 0, x - box.maxX), Math.max(box.minY - y, 0, y - box.maxY));
}

/** No two places of the boxes are nearer than this. */
export function betweenBoxes(a: Box, b: Box): number {
  return Math.hypot(
    Math.max(a.minX - b.maxX, 0, b.minX - a.maxX),
    Math.max(a.minY - b.maxY, 0, b.minY - a.maxY),
  );
}
