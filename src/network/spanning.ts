/**
 * The shortest links that hold all parts together: a least spanning tree over the distances of parts (J. Kruskal,
 * Proc. American Math. Society 7, 1956). A pair waits under the distance of its boxes and is measured only when its
 * turn comes, so most pairs never are.
 *
 * No link of this tree runs through a third part: then the links to that part would both be shorter.
 *
 * Both hold up to `allPairsUpTo` parts. Beyond it only the nearest boxes are paired, by their centres, so that links
 * can be far longer than need be where boxes nest and hide what lies inside them.
 */

import Flatbush from 'flatbush';
import FlatQueue from 'flatqueue';
import { Groups } from '../near/groups.js';
import { betweenBoxes, type Part, type PartLink } from './parts.js';

export interface TreeLink extends PartLink {
  readonly a: number;
  readonly b: number;
}

/** Up to this many parts every pair is considered; beyond it each part's nearest boxes only. */
const allPairsUpTo = 1_500;

export function spanningTree(parts: readonly Part[]): TreeLink[] {
  for (let near = 16; ; near *= 4) {
    const tree = treeAmong(parts, parts.length <= allPairsUpTo ? allPairs(parts) : nearPairs(parts, near));
    if (tree.length === parts.length - 1) return tree;
  }
}

function treeAmong(parts: readonly Part[], pairs: Iterable<readonly [number, number]>): TreeLink[] {
  const group = new Groups(parts.length);
  const queue = new FlatQueue<{ a: number; b: number; link: PartLink | null }>();
  for (const [a, b] of pairs) queue.push({ a, b, link: null }, betweenBoxes(parts[a].box, parts[b].box));
  const tree: TreeLink[] = [];
  while (queue.length > 0 && tree.length < parts.length - 1) {
    const { a, b, link } = queue.pop()!;
    if (group.of(a) === group.of(b)) continue;
    if (link) {
      group.join(a, b);
      tree.push({ a, b, ...link });
    } else {
      const measured = parts[a].linkTo(parts[b]);
      queue.push({ a, b, link: measured }, measured.lengthMm);
    }
  }
  return tree;
}

function* allPairs(parts: readonly Part[]): Generator<[number, number]> {
  for (let a = 0; a < parts.length; a++) for (let b = a + 1; b < parts.length; b++) yield [a, b];
}

function* nearPairs(parts: readonly Part[], near: number): Generator<[number, number]> {
  const boxes = new Flatbush(parts.length);
  for (const { box } of parts) boxes.add(box.minX, box.minY, box.maxX, box.maxY);
  boxes.finish();
  for (const [a, { box }] of parts.entries()) {
    const x = (box.minX + box.maxX) / 2;
    const y = (box.minY + box.maxY) / 2;
    for (const b of boxes.neighbors(x, y, near)) if (b !== a) yield [a, b];
  }
}
