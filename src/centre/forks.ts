/**
 * Forks: nodes of the axis that are not to be trusted, in clusters that hang together. Where the axis branches, another
 * pass reaches in, and round such places its circles are wider than the pen's.
 *
 * Away from any branch a wider circle says only that the pen pressed harder, or that two passes ran together for long:
 * there the axis is kept. A cluster without a branch is a corner, or a blot: it is judged from its widest circle. Much
 * wider circles are of shapes, and never trusted.
 */
import { type Axis, joinedWith } from './axis.js';

/** So far from a branch, along the axis, the axis is trusted again, in radii; and circles up to so wide. */
const apartRadii = 6;
const widestRadii = 2;

/** The clusters, and by node the number of its cluster or -1. `isSuspect` tells nodes that branch or are wide. */
export function forksOf(
  axis: Axis,
  isSuspect: (node: number) => boolean,
  isBranch: (node: number) => boolean,
  radius: number,
): { readonly forks: number[][]; readonly forkOf: Int32Array } {
  const distrusted = new Uint8Array(axis.x.length);
  for (const cluster of clustersOf(axis, isSuspect).forks) {
    const branches = cluster.filter(isBranch);
    const from = branches.length > 0 ? branches : [widestOf(axis, cluster)];
    for (const node of near(axis, from, apartRadii * radius, isSuspect)) distrusted[node] = 1;
    for (const node of cluster) if (axis.radius[node] > widestRadii * radius) distrusted[node] = 1;
  }
  return clustersOf(axis, (node) => distrusted[node] === 1);
}

function clustersOf(axis: Axis, isIn: (node: number) => boolean) {
  const count = axis.x.length;
  const forkOf = new Int32Array(count).fill(-1);
  const forks: number[][] = [];
  for (let start = 0; start < count; start++) {
    if (forkOf[start] >= 0 || !isIn(start)) continue;
    const nodes = [start];
    forkOf[start] = forks.length;
    for (let i = 0; i < nodes.length; i++)
      for (const next of joinedWith(axis, nodes[i]))
        if (forkOf[next] < 0 && isIn(next)) {
          forkOf[next] = forks.length;
          nodes.push(next);
        }
    forks.push(nodes);
  }
  return { forks, forkOf };
}

/** Nodes within a length of axis of some, those among them; only through nodes that are in. */
function near(
  axis: Axis,
  from: readonly number[],
  within: number,
  isIn: (node: number) => boolean,
): Iterable<number> {
  const reached = new Map(from.map((node) => [node, 0]));
  const queue = [...from];
  for (let i = 0; i < queue.length; i++) {
    const node = queue[i];
    const sofar = reached.get(node)!;
    for (const next of joinedWith(axis, node)) {
      const length = sofar + Math.hypot(axis.x[next] - axis.x[node], axis.y[next] - axis.y[node]);
      if (length > within || !isIn(next) || length >= (reached.get(next) ?? Infinity)) continue;
      reached.set(next, length);
      queue.push(next);
    }
  }
  return reached.keys();
}

export function widestOf({ radius }: Axis, nodes: readonly number[]): number {
  return nodes.reduce((a, b) => (radius[b] > radius[a] ? b : a), nodes[0]);
}
