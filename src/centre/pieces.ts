/**
 * The axis taken apart: pieces of it whose circles have the pen's radius, and forks between them, where the circles
 * are larger or the axis branches. A circle that reaches into another pass is not the pen's: its centre is not trusted.
 *
 * Forks that lie nearer than the pen allows two crossings to lie are one. So are two forks with an odd number of arms
 * each and a short piece between them: two passes that run into one another, and apart again.
 */
import type { Point } from '../../shared/plane.js';
import { type Axis, joinedWith } from './axis.js';
import { forksOf, widestOf } from './forks.js';

export interface Piece {
  /** Nodes of the axis in turn. */
  readonly nodes: readonly number[];
  /** The fork it leads into at its first and at its last node; -1 at a free end. */
  readonly forks: readonly [number, number];
  readonly length: number;
  readonly isLoop: boolean;
}

export interface Pieces {
  readonly pieces: readonly Piece[];
  /** Nodes of each, by number; of what was made part of another one, none. */
  readonly forks: readonly (readonly number[])[];
  /** The widest node of each fork that is too wide for passes of a pen, by the fork's number. */
  readonly shapes: ReadonlyMap<number, number>;
}

/** Radii up to this many times the pen's, and `blur` more, are the pen's. */
const evenTimes = 1.03;
/** Shorter pieces between two forks are part of them, in radii. */
const shortRadii = 1.2;
/** The same where both forks have an odd number of arms: so much of it at a stretch as wide as one pass, and so much in all. */
const oddRadii = 8;
const mostOddRadii = 60;
/** Shorter ends beside two other arms are the tip of a corner, in radii. */
const tipRadii = 0.9;
/** So are longer ones that narrow as a mitre does, which is at most this long, in radii: by the sine of half its angle. */
const mitreRadii = 12;
/** Where more than two passes meet, circles reach about twice the pen's; larger ones are of filled shapes, in radii. */
const shapeRadii = 2.6;
/** Ends that narrow by less than this are a pen's, in radii. */
const narrowRadii = 0.12;

export function piecesOf(axis: Axis, radius: number, blur: number): Pieces {
  const { joined } = axis;
  const count = axis.x.length;
  const degree = new Uint8Array(count);
  for (let e = 0; e < joined.length; e++) if (joined[e] >= 0) degree[Math.floor(e / 3)]++;
  const wide = evenTimes * radius + blur;
  const isSuspect = (node: number) => degree[node] > 0 && (degree[node] > 2 || axis.radius[node] > wide);
  const { forks, forkOf } = forksOf(axis, isSuspect, (node) => degree[node] > 2, radius);
  return merged(walked(axis, degree, forkOf), forks, axis, radius, wide);
}

/** The runs of trusted nodes. */
function walked(axis: Axis, degree: Uint8Array, forkOf: Int32Array): Piece[] {
  const pieces: Piece[] = [];
  const seen = new Uint8Array(axis.x.length);
  const walk = (start: number, first: number): Piece => {
    const nodes = [start];
    seen[start] = 1;
    let end = -1;
    let before = start;
    for (let node = first; node >= 0; ) {
      if (forkOf[node] >= 0) {
        end = forkOf[node];
        break;
      }
      if (seen[node]) break;
      seen[node] = 1;
      nodes.push(node);
      const next: number = joinedWith(axis, node).find((each) => each !== before) ?? -1;
      before = node;
      node = next;
    }
    return { nodes, forks: [-1, end], length: lengthOver(axis, nodes), isLoop: false };
  };
  for (let node = 0; node < degree.length; node++) {
    if (degree[node] === 0 || degree[node] > 2 || forkOf[node] >= 0 || seen[node]) continue;
    const next = joinedWith(axis, node);
    const outward = next.filter((each) => forkOf[each] >= 0);
    if (next.length === 2 && outward.length === 0) continue;
    const from = outward[0] ?? -1;
    const ahead = next.find((each) => each !== from) ?? -1;
    const piece = walk(node, ahead);
    pieces.push({ ...piece, forks: [from < 0 ? -1 : forkOf[from], piece.forks[1]] });
  }
  for (let node = 0; node < degree.length; node++) {
    if (degree[node] !== 2 || forkOf[node] >= 0 || seen[node]) continue;
    pieces.push({ ...walk(node, joinedWith(axis, node)[0]), isLoop: true });
  }
  return pieces;
}

export function lengthOver({ x, y }: Axis, nodes: readonly number[]): number {
  let sum = 0;
  for (let i = 1; i < nodes.length; i++)
    sum += Math.hypot(x[nodes[i]] - x[nodes[i - 1]], y[nodes[i]] - y[nodes[i - 1]]);
  return sum;
}

function merged(
  pieces: readonly Piece[],
  forks: readonly number[][],
  axis: Axis,
  radius: number,
  wide: number,
): Pieces {
  const all = forks.map((nodes) => [...nodes]);
  const root = forks.map((_, i) => i);
  const find = (fork: number): number => {
    let at = fork;
    while (root[at] !== at) at = root[at];
    return at;
  };
  const arms = forks.map(() => 0);
  for (const { forks: ends } of pieces) for (const end of ends) if (end >= 0) arms[end]++;
  const gone = new Set<Piece>();
  const absorb = (piece: Piece, a: number, b: number) => {
    root[b] = a;
    arms[a] += arms[b] - 2;
    all[a].push(...all[b], ...piece.nodes);
    all[b] = [];
    gone.add(piece);
  };
  const between = pieces.filter(({ forks: [a, b] }) => a >= 0 && b >= 0).sort((p, q) => p.length - q.length);
  const absorbUpTo = (most: number, isOne: (a: number, b: number, piece: Piece) => boolean) => {
    for (const piece of between) {
      if (piece.length >= most) break;
      const [a, b] = piece.forks.map(find);
      if (a !== b && !gone.has(piece) && isOne(a, b, piece)) absorb(piece, a, b);
    }
  };
  absorbUpTo(shortRadii * radius, () => true);
  for (const piece of pieces) {
    const [a, b] = piece.forks;
    if (a >= 0 === b >= 0 || !isTip(piece, axis, radius)) continue;
    const fork = find(Math.max(a, b));
    if (arms[fork] !== 3) continue;
    arms[fork]--;
    gone.add(piece);
  }
  const isOdd = (a: number, b: number) => arms[a] % 2 === 1 && arms[b] % 2 === 1 && arms[a] + arms[b] > 2;
  absorbUpTo(
    mostOddRadii * radius,
    (a, b, piece) => isOdd(a, b) && narrow(axis, piece, wide) < oddRadii * radius,
  );
  const widest = all.map((nodes) => widestOf(axis, nodes));
  const isShape = (fork: number) =>
    fork >= 0 && all[fork].length > 0 && axis.radius[widest[fork]] > shapeRadii * radius;
  const left = pieces.flatMap((piece): Piece[] => {
    const [a, b] = piece.forks.map((fork) => (fork < 0 ? -1 : find(fork)));
    if (gone.has(piece)) return [];
    // What a shape narrows to at its corners is no line.
    if (isShape(Math.max(a, b)) && Math.min(a, b) < 0 && piece.length < axis.radius[widest[Math.max(a, b)]])
      return [];
    return [{ ...piece, forks: [a, b] }];
  });
  const shapes = widest.flatMap((node, fork) => (isShape(fork) ? [[fork, node] as const] : []));
  return { pieces: left, forks: all, shapes: new Map(shapes) };
}

/** The longest stretch of a piece that is no wider than this. */
function narrow({ x, y, radius }: Axis, { nodes }: Piece, wide: number): number {
  let [most, now] = [0, 0];
  for (let i = 1; i < nodes.length; i++) {
    const step = Math.hypot(x[nodes[i]] - x[nodes[i - 1]], y[nodes[i]] - y[nodes[i - 1]]);
    now = radius[nodes[i]] <= wide ? now + step : 0;
    most = Math.max(most, now);
  }
  return most;
}

/** Whether a piece with one free end is what the ink runs on to past a corner, and no line. */
function isTip({ nodes, length }: Piece, { radius: radii }: Axis, radius: number): boolean {
  if (length < tipRadii * radius) return true;
  const [first, last] = [radii[nodes[0]], radii[nodes[nodes.length - 1]]];
  const narrows = radius - Math.min(first, last);
  return narrows > Math.max(narrowRadii * radius, length / mitreRadii);
}

export function placeOf({ x, y }: Axis, node: number): Point {
  return { x: x[node], y: y[node] };
}
