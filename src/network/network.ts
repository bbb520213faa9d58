/** From lines to their graph: contacts and ends become nodes, the line between them becomes pieces. */

import type { Point, Polyline } from '../../shared/plane.js';
import { distance, turnDeg } from '../geometry/point.js';
import {
  firstPoint,
  lastPoint,
  pointAt,
  pointCount,
  runningLengths,
  stretchOf,
} from '../geometry/polyline.js';
import { PointGrid } from '../near/point-grid.js';
import { SegmentIndex } from '../near/segment-index.js';
import { type Contact, contactsOf, passesNear } from './contacts.js';
import { eachOnce } from './copies.js';
import { type Graph, type Piece, pieceOf } from './graph.js';

/** Lines that come this near may be switched between, mm. */
export const touchMm = 0.1;
/** A piece from a node back to itself that is shorter than this is only what is left of a touch, mm. */
const scrapMm = 3 * touchMm;
const foldDeg = 170;

export interface Network {
  readonly graph: Graph;
  /** The node at which each line begins and ends. */
  readonly ends: readonly (readonly [number, number])[];
}

/** The graph of `lines`. Throws a Refusal where they meet at more than `mostContacts` places. */
export function networkOf(lines: readonly Polyline[], mostContacts: number): Network {
  const places = new NodePlaces();
  const cuts: Cut[][] = lines.map(() => []);
  const index = new SegmentIndex(lines);
  const contacts = contactsOf(index, touchMm, mostContacts);
  for (const kind of ['crossing', 'end', 'touch'] satisfies Contact['kind'][])
    for (const { a, b, at, kind: its } of contacts) {
      if (its !== kind) continue;
      const node = places.at(at);
      cuts[a.line].push({ alongMm: a.alongMm, node });
      cuts[b.line].push({ alongMm: b.alongMm, node });
      // A third line that runs along here is cut here too, so that stretches that lie on one another match.
      if (kind === 'touch')
        for (const { line, alongMm } of passesNear(index, at, touchMm)) cuts[line].push({ alongMm, node });
    }
  // A line that turns back on itself is folded there: what lies on it must be cut there, too.
  for (const at of lines.flatMap(foldsOf)) {
    const node = places.at(at);
    for (const { line, alongMm } of passesNear(index, at, touchMm)) cuts[line].push({ alongMm, node });
  }
  const pieces: Piece[] = [];
  const lineEnds: [number, number][] = [];
  lines.forEach((line, l) => {
    const run = runningLengths(line);
    const ends = [
      { alongMm: 0, node: nodeAtEnd(cuts[l], 0) ?? places.at(firstPoint(line)) },
      {
        alongMm: run[run.length - 1],
        node: nodeAtEnd(cuts[l], run[run.length - 1]) ?? places.at(lastPoint(line)),
      },
    ];
    lineEnds.push([ends[0].node, ends[1].node]);
    const ordered = [...cuts[l], ...ends].sort((p, q) => p.alongMm - q.alongMm);
    let last = 0;
    for (let i = 1; i < ordered.length; i++) {
      const [from, to] = [ordered[last], ordered[i]];
      const isScrap = from.node === to.node && to.alongMm - from.alongMm < scrapMm;
      if (isScrap) continue;
      pieces.push(pieceOf(from.node, to.node, stretchOf(line, run, from.alongMm, to.alongMm)));
      last = i;
    }
  });
  const once = eachOnce(pieces, touchMm);
  const { graph, number } = withoutLooseNodes({ nodes: places.points, pieces: once });
  const ends = lineEnds.map(([from, to]) => [number(from), number(to)] as const);
  return { graph, ends };
}

/** Where the line turns right round. */
function foldsOf(line: Polyline): Point[] {
  const folds: Point[] = [];
  let last = 0;
  for (let i = 1; i + 1 < pointCount(line); i++) {
    const [a, b, c] = [pointAt(line, last), pointAt(line, i), pointAt(line, i + 1)];
    if (turnDeg(b.x - a.x, b.y - a.y, c.x - b.x, c.y - b.y) > foldDeg) folds.push(b);
    if (b.x !== c.x || b.y !== c.y) last = i;
  }
  return folds;
}

interface Cut {
  readonly alongMm: number;
  readonly node: number;
}

function nodeAtEnd(cuts: readonly Cut[], alongMm: number): number | undefined {
  return cuts.find((cut) => Math.abs(cut.alongMm - alongMm) < 1e-9)?.node;
}

/** Nodes come from `at`: a place within the touch distance of an earlier one is that node. */
class NodePlaces {
  readonly points: Point[] = [];
  readonly #grid = new PointGrid(touchMm);

  at(place: Point): number {
    let nearest = -1;
    let nearestMm = touchMm;
    this.#grid.visitNear(place.x, place.y, (node) => {
      const mm = distance(place, this.points[node]);
      if (mm <= nearestMm) [nearest, nearestMm] = [node, mm];
    });
    if (nearest >= 0) return nearest;
    this.#grid.add(place.x, place.y);
    return this.points.push(place) - 1;
  }
}

function withoutLooseNodes({ nodes, pieces }: Graph): { graph: Graph; number: (node: number) => number } {
  const used = new Set(pieces.flatMap(({ from, to }) => [from, to]));
  const numbers = new Map([...used].sort((a, b) => a - b).map((node, i) => [node, i]));
  const number = (node: number) => numbers.get(node) ?? -1;
  return {
    graph: {
      nodes: nodes.filter((_, n) => used.has(n)),
      pieces: pieces.map((piece) => ({ ...piece, from: number(piece.from), to: number(piece.to) })),
    },
    number,
  };
}
