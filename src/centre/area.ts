/**
 * Outlines as areas: which side of each is ink, and where outlines overlap, the edge of them all.
 *
 * A shape that says how it is painted is painted so: by the nonzero rule, or even-odd. Of other outlines those that cross
 * one another, or themselves, are the edges of overlapping ink and ink together what they run round at all; those that
 * do not cross are taken even-odd: one inside another is its hole. An outline that crosses itself is made one area first
 * under either rule: that is what the pen left where it came by again. What any shape paints is ink.
 * Outlines are cut where they cross (found by box index, O((n + k) log n)), of the pieces those are kept that have ink
 * on one side only, and they are put together to rings again.
 *
 * Limit: where outlines lie exactly on one another the cut is made a thousandth of a millimetre beside.
 */
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import type { Fill } from '../../shared/subpath.js';
import { lengthOf, pointCount, reversed, signedArea } from '../geometry/polyline.js';
import { segmentCrossing } from '../geometry/segment.js';
import { SegmentIndex } from '../near/segment-index.js';

/** Outlines are moved by up to this, each in its own way, so that none lies exactly on another. */
const apartMm = 1e-4;
/** Sides are looked at so far from the edge. */
const asideMm = 1e-3;

/**
 * Holes that are slivers, in pens: so wide at most, as the mean over their length, and so long round. Where an outline
 * doubles back at the inside of a sharp corner, its folds leave some between them.
 */
const sliverWide = 0.05;
const sliverRound = 8;

interface Cut {
  readonly along: number;
  readonly node: number;
  readonly x: number;
  readonly y: number;
}

interface Edge {
  readonly from: number;
  readonly to: number;
  readonly line: Polyline;
}

/**
 * The edges of the ink that closed `outlines` bound, as rings that have the ink as `border.ts` wants it.
 *
 * @throws Refusal where they cross at more than `mostCrossings` places
 */
export function inkEdges(
  outlines: readonly Polyline[],
  mostCrossings: number,
  fills: readonly (Fill | null)[] = [],
): Polyline[] {
  const rings = outlines.map((ring, k) =>
    ring.map((value, i) => value + apartMm * Math.sin(k * 7 + (i & 1))),
  );
  const index = new SegmentIndex(rings);
  const { cuts, groups, nodes } = cutsOf(index, mostCrossings);
  const isInk = inkOf(index, groups, fills);
  const whole: Polyline[] = [];
  const edges: Edge[] = [];
  rings.forEach((ring, k) => {
    for (const piece of piecesOf(ring, cuts[k])) {
      const side = inkSide(piece.line, isInk);
      if (side === 0) continue;
      const line = side > 0 ? piece.line : reversed(piece.line);
      if (piece.from < 0) whole.push(line);
      else edges.push(side > 0 ? { ...piece, line } : { from: piece.to, to: piece.from, line });
    }
  });
  return [...whole, ...chainedUp(edges, nodes)].filter((ring) => pointCount(ring) > 3);
}

/** The edges without slivers of paper that no pen as wide as this leaves. */
export function withoutSlivers(rings: readonly Polyline[], pen: number): Polyline[] {
  return rings.filter((ring) => {
    const round = lengthOf(ring);
    const area = signedArea(ring);
    return area > 0 || round > sliverRound * pen || -2 * area > sliverWide * pen * round;
  });
}

function cutsOf(index: SegmentIndex, most: number) {
  const { points, strokeOf } = index;
  const cuts: Cut[][] = index.strokes.map(() => []);
  const groups = index.strokes.map((_, k) => k);
  const find = (k: number): number => {
    while (groups[k] !== k) k = groups[k];
    return k;
  };
  let nodes = 0;
  for (let stroke = 0; stroke < index.strokes.length; stroke++) {
    for (let s = index.firstPoints[stroke]; s < index.firstPoints[stroke + 1] - 1; s++) {
      const [ax, ay, bx, by] = points.subarray(2 * s, 2 * s + 4);
      index.visitBox(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by), (other) => {
        if (other <= s + 1) return;
        const isSeam = other === index.firstPoints[stroke + 1] - 2 && s === index.firstPoints[stroke];
        if (isSeam && strokeOf[other] === stroke) return;
        const [cx, cy, dx, dy] = points.subarray(2 * other, 2 * other + 4);
        const at = segmentCrossing(ax, ay, bx, by, cx, cy, dx, dy);
        if (!at) return;
        if (nodes >= most) throw new Refusal('Its outlines cross at too many places to be told apart.');
        const length = (x: number, y: number) => Math.hypot(at.x - x, at.y - y);
        cuts[stroke].push({ along: index.runMm[s] + length(ax, ay), node: nodes, ...at });
        cuts[strokeOf[other]].push({ along: index.runMm[other] + length(cx, cy), node: nodes, ...at });
        nodes++;
        groups[find(stroke)] = find(strokeOf[other]);
      });
    }
  }
  return { cuts, groups: groups.map((_, k) => find(k)), nodes };
}

/** Whether a place is ink, by how often the outlines of each shape wind round it. */
function inkOf(
  index: SegmentIndex,
  groups: readonly number[],
  fills: readonly (Fill | null)[],
): (x: number, y: number) => boolean {
  const { points, strokeOf } = index;
  const right = points.reduce((most, value, i) => (i % 2 === 0 ? Math.max(most, value) : most), -Infinity);
  // Outlines of a unit wind together; units of a shape are taken even-odd. Outlines without a shape are one.
  const noShape = -1;
  const shapeOf = (stroke: number) => fills[stroke]?.shape ?? noShape;
  const unitOf = (stroke: number) =>
    fills[stroke]?.rule === 'nonzero' ? -1 : fills[stroke] ? groups.length + stroke : groups[stroke];
  return (x, y) => {
    const winding = new Map<number, Map<number, number>>();
    index.visitBox(x, y, right, y, (s) => {
      const [ax, ay, bx, by] = points.subarray(2 * s, 2 * s + 4);
      if (ay <= y === by <= y) return;
      if (ax + ((y - ay) / (by - ay)) * (bx - ax) <= x) return;
      const shape = shapeOf(strokeOf[s]);
      const units = winding.get(shape) ?? new Map<number, number>();
      const unit = unitOf(strokeOf[s]);
      winding.set(shape, units.set(unit, (units.get(unit) ?? 0) + (by > ay ? 1 : -1)));
    });
    for (const units of winding.values()) {
      let odd = false;
      for (const turns of units.values()) if (turns !== 0) odd = !odd;
      if (odd) return true;
    }
    return false;
  };
}

/** 1 where the ink lies on the side of (-ty, tx), -1 where on the other, 0 where both sides are the same. */
function inkSide(line: Polyline, isInk: (x: number, y: number) => boolean): number {
  let longest = 0;
  let at = 0;
  for (let i = 0; i + 3 < line.length; i += 2) {
    const length = Math.hypot(line[i + 2] - line[i], line[i + 3] - line[i + 1]);
    if (length <= longest) continue;
    longest = length;
    at = i;
  }
  if (longest === 0) return 0;
  const by = Math.min(asideMm, longest / 4) / longest;
  const nx = -(line[at + 3] - line[at + 1]) * by;
  const ny = (line[at + 2] - line[at]) * by;
  const x = (line[at] + line[at + 2]) / 2;
  const y = (line[at + 1] + line[at + 3]) / 2;
  return Number(isInk(x + nx, y + ny)) - Number(isInk(x - nx, y - ny));
}

function piecesOf(ring: Polyline, cuts: readonly Cut[]): Edge[] {
  if (cuts.length === 0) return [{ from: -1, to: -1, line: ring }];
  const ordered = [...cuts].sort((a, b) => a.along - b.along);
  const runs: number[] = [];
  let run = 0;
  for (let i = 0; i < ring.length; i += 2) {
    if (i > 0) run += Math.hypot(ring[i] - ring[i - 2], ring[i + 1] - ring[i - 1]);
    runs.push(run);
  }
  const n = runs.length - 1;
  return ordered.map((cut, k) => {
    const next = ordered[(k + 1) % ordered.length];
    const flat = [cut.x, cut.y];
    const wraps = k === ordered.length - 1;
    for (let i = 0; i < n; i++)
      if (runs[i] > cut.along && (wraps || runs[i] < next.along)) flat.push(ring[2 * i], ring[2 * i + 1]);
    if (wraps) for (let i = 0; i < n && runs[i] < next.along; i++) flat.push(ring[2 * i], ring[2 * i + 1]);
    flat.push(next.x, next.y);
    return { from: cut.node, to: next.node, line: Float64Array.from(flat) };
  });
}

/** Edges to rings: where one ends the next begins. */
function chainedUp(edges: readonly Edge[], nodes: number): Polyline[] {
  const out: Edge[][] = Array.from({ length: nodes }, () => []);
  for (const edge of edges) out[edge.from].push(edge);
  const rings: Polyline[] = [];
  for (const first of edges) {
    const flat: number[] = [];
    let edge = out[first.from].includes(first) ? first : undefined;
    while (edge) {
      out[edge.from].splice(out[edge.from].indexOf(edge), 1);
      flat.push(...edge.line.subarray(flat.length > 0 ? 2 : 0));
      edge = out[edge.to][0];
    }
    if (flat.length > 0) rings.push(Float64Array.from(flat));
  }
  return rings.filter((ring) => lengthOf(ring) > 0);
}
