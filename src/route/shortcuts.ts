/**
 * New line that saves stitching twice: straight links from the loose ends of a drawing (its odd places) to one
 * another, and to the nearest places of line beside them.
 *
 * No link goes from place to place of the line that leads to a loose end: that would cut through what curls round the
 * end, as through the rings of a spiral, which no hand would draw.
 *
 * A link may be taken or left; which of them serve is found together with the retracing, as one pairing of the odd
 * places (`retrace.ts`), with each link at its weight. A link that crosses drawn line or lies on it is not offered.
 *
 * Limits: links go to the nearest place of a line or to an odd place, not to the place on it where link and retracing
 * together would be shortest; drawings of more than `mostOdd` odd places get none.
 */
import type { Point } from '../../shared/plane.js';
import { distance } from '../geometry/point.js';
import { pointAt, polylineOf } from '../geometry/polyline.js';
import { nearestShare } from '../geometry/segment.js';
import { SegmentIndex } from '../near/segment-index.js';
import { type Graph, type Piece, type PlaceOnPiece, pieceOf, withNodesAt } from '../network/graph.js';
import { isClear } from './clear.js';

const mostOdd = 200;
/** Odd places and lines beside it that one odd place may be linked to. */
const nearestOdd = 6;
const nearestLines = 3;
/** Shorter ones are touches, not links, mm. */
const leastMm = 0.2;

export interface Shortcuts {
  /** The drawing with nodes where links end on a line; old nodes and pieces' order along lines stay. */
  readonly graph: Graph;
  readonly links: readonly Piece[];
}

/**
 * The links worth a look between the places of `oddPlaces`, none longer than `reachMm`. Pieces from number `firstLink`
 * on are links themselves: nothing is linked to the middle of one.
 */
export function shortcutsOf(
  drawing: Graph,
  oddPlaces: ReadonlySet<number>,
  firstLink: number,
  reachMm: number,
): Shortcuts {
  const odd = [...oddPlaces];
  if (odd.length > mostOdd) return { graph: drawing, links: [] };
  const index = new SegmentIndex(drawing.pieces.map(({ line }) => line));
  const wanted: { from: number; to: PlaceOnPiece }[] = [];
  const ways = waysToLooseEnds(drawing, firstLink);
  const areOnOneWay = (a: number, b: number) => ways.some(({ nodes }) => nodes.has(a) && nodes.has(b));
  for (const from of odd) {
    const own = new Set(ways.filter(({ nodes }) => nodes.has(from)).flatMap(({ pieces }) => [...pieces]));
    for (const to of linesBeside(drawing, index, from, firstLink, reachMm, own)) wanted.push({ from, to });
  }
  const { graph, at } = withNodesAt(
    drawing,
    wanted.map(({ to }) => to),
  );
  const links = new Map<string, Piece>();
  const offer = (a: number, b: number) => {
    const mm = distance(graph.nodes[a], graph.nodes[b]);
    const key = `${Math.min(a, b)} ${Math.max(a, b)}`;
    if (mm < leastMm || mm > reachMm || links.has(key) || areOnOneWay(a, b)) return;
    if (!isClear(index, graph.nodes[a], graph.nodes[b])) return;
    links.set(key, pieceOf(a, b, polylineOf([graph.nodes[a], graph.nodes[b]])));
  };
  wanted.forEach(({ from }, i) => {
    offer(from, at[i]);
  });
  for (const a of odd) {
    const others = odd.filter((b) => b !== a && !areOnOneWay(a, b));
    const mm = (b: number) => distance(graph.nodes[a], graph.nodes[b]);
    others.sort((b, c) => mm(b) - mm(c));
    for (const b of others.slice(0, nearestOdd)) offer(a, b);
  }
  return { graph, links: [...links.values()] };
}

/** The nearest places of the nearest pieces, but of `own` and of those that end at the node. */
function linesBeside(
  graph: Graph,
  index: SegmentIndex,
  node: number,
  firstLink: number,
  reachMm: number,
  own: ReadonlySet<number>,
): PlaceOnPiece[] {
  const at = graph.nodes[node];
  const nearest = new Map<number, { alongMm: number; mm: number }>();
  index.visitNearPoint(at.x, at.y, reachMm, (segment, mm) => {
    const piece = index.strokeOf[segment];
    const { from, to } = graph.pieces[piece];
    if (piece >= firstLink || own.has(piece) || from === node || to === node) return;
    const known = nearest.get(piece);
    if (known && known.mm <= mm) return;
    nearest.set(piece, { mm, alongMm: index.runMm[segment] + along(index, segment, at) });
  });
  return [...nearest]
    .sort(([, p], [, q]) => p.mm - q.mm)
    .slice(0, nearestLines)
    .map(([piece, { alongMm }]) => ({ piece, alongMm }));
}

/** The line that leads to a loose end, back to the first branch: its pieces, and the places on it. */
interface Way {
  readonly pieces: ReadonlySet<number>;
  readonly nodes: ReadonlySet<number>;
}

/** Links, from piece number `firstLink` on, make no branch; an end that hangs on one is not loose: the way goes on over it. */
function waysToLooseEnds({ nodes, pieces }: Graph, firstLink: number): Way[] {
  const at = nodes.map((): number[] => []);
  pieces.forEach(({ from, to }, p) => {
    at[from].push(p);
    at[to].push(p);
  });
  return [...at.keys()]
    .filter((node) => at[node].length === 1)
    .map((end) => {
      const passed = new Set([end]);
      const own = new Set(at[end]);
      for (let here = end, [piece] = at[end]; ; ) {
        here = pieces[piece].from === here ? pieces[piece].to : pieces[piece].from;
        // Another loose end may be linked to this one, as the two ends of a bow.
        if (at[here].length > 1) passed.add(here);
        const onward = piece < firstLink ? at[here].filter((p) => p < firstLink) : at[here];
        const ways = onward.length === 2 ? onward : at[here];
        const next = ways.length === 2 ? ways.find((p) => !own.has(p)) : undefined;
        if (next === undefined) return { pieces: own, nodes: passed };
        own.add(next);
        piece = next;
      }
    });
}

function along({ points }: SegmentIndex, segment: number, at: Point): number {
  const [a, b] = [pointAt(points, segment), pointAt(points, segment + 1)];
  return nearestShare(at.x, at.y, a.x, a.y, b.x, b.y) * distance(a, b);
}
