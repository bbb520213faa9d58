/**
 * Ends and lines on which the pen pressed harder all the way: their circles are wider than the pen's throughout, so
 * that they are forks with one arm, or with none. The line leads on through them.
 */
import { type Axis, joinedWith } from './axis.js';
import { lengthOver, type Piece } from './pieces.js';

/** `isShape` tells forks that no line leads through. */
export function ledOut(
  pieces: readonly Piece[],
  forks: readonly (readonly number[])[],
  isShape: (fork: number) => boolean,
  axis: Axis,
): Piece[] {
  const arms = forks.map(() => 0);
  for (const piece of pieces) for (const fork of piece.forks) if (fork >= 0) arms[fork]++;
  const has = (fork: number, count: number) => fork >= 0 && arms[fork] === count && !isShape(fork);
  const led = pieces.map((piece): Piece => {
    const [a, b] = piece.forks;
    const { nodes } = piece;
    if (!has(a, 1) && !has(b, 1)) return piece;
    const before = has(a, 1) ? pathWithin(axis, forks[a], nodes[0]).reverse() : [];
    const after = has(b, 1) ? pathWithin(axis, forks[b], nodes[nodes.length - 1]) : [];
    const all = [...before, ...nodes, ...after];
    return {
      ...piece,
      nodes: all,
      forks: [has(a, 1) ? -1 : a, has(b, 1) ? -1 : b],
      length: lengthOver(axis, all),
    };
  });
  const whole = forks.flatMap((fork, number): Piece[] => {
    if (fork.length === 0 || !has(number, 0)) return [];
    const end = pathWithin(axis, fork, fork[0]).at(-1);
    if (end === undefined) return [];
    const nodes = [end, ...pathWithin(axis, fork, end)];
    return [{ nodes, forks: [-1, -1], length: lengthOver(axis, nodes), isLoop: false }];
  });
  return [...led, ...whole];
}

/** The nodes of a fork that lead from one beside it, or in it, to the one most steps away. */
function pathWithin(axis: Axis, fork: readonly number[], from: number): number[] {
  const left = new Set(fork);
  const before = new Map<number, number>();
  const reached = [from];
  left.delete(from);
  for (let i = 0; i < reached.length; i++)
    for (const next of joinedWith(axis, reached[i])) {
      if (!left.delete(next)) continue;
      before.set(next, reached[i]);
      reached.push(next);
    }
  const path: number[] = [];
  for (let node = reached[reached.length - 1]; node !== from; node = before.get(node)!) path.push(node);
  return path.reverse();
}
