/**
 * How far apart the parts of a drawing lie, line to line. Strokes that cross or touch are one part, though their ends
 * may be far from each other; the parts are held together by the shortest links, the same that the route mend bridges.
 *
 * Which strokes hang together is asked of the lines and not of their network: it is known as soon as all do, and a
 * drawing whose lines meet in too many places to be noded still has an answer.
 */
import { Groups } from '../../near/groups.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { visitSegmentPairs } from '../../near/segment-pairs.js';
import { touchMm } from '../../network/network.js';
import { Part } from '../../network/parts.js';
import { spanningTree } from '../../network/spanning.js';

/** Lengths of the links, longest first. */
export function partGapsOf(index: SegmentIndex): readonly number[] {
  const linesOf = (strokes: readonly number[]) => strokes.map((k) => index.strokes[k]);
  const parts = strokesOfParts(index).map((strokes) => new Part(strokes, linesOf(strokes)));
  return spanningTree(parts)
    .map(({ lengthMm }) => lengthMm)
    .sort((a, b) => b - a);
}

function strokesOfParts(index: SegmentIndex): number[][] {
  const { strokeOf, strokes } = index;
  const groups = new Groups(strokes.length);
  let left = strokes.length;
  visitSegmentPairs(index, touchMm, (s, t) => {
    const [a, b] = [groups.of(strokeOf[s]), groups.of(strokeOf[t])];
    if (a === b) return true;
    if (index.apartMm(s, t) > touchMm) return true;
    groups.join(a, b);
    left--;
    return left > 1;
  });
  return groups.members();
}
