/**
 * How long routing takes: a lattice of lines that weave through each other, so that every line's two ends are odd
 * places, and a ladder, whose places are nearly all odd. In this one warmed process, once each.
 */
import { oddNodes, pieceOf } from '../../src/network/graph.js';
import { networkOf } from '../../src/network/network.js';
import { routeOf } from '../../src/route/plan.js';
import { leastRetrace } from '../../src/route/retrace.js';
import type { BenchRow } from './row.js';

export function mendRows(): BenchRow[] {
  return [latticeRow(100, 20_000), ladderRow(1_000), ladderRow(4_000)];
}

/** So many lines that cross each other; both ends of each are free, so that twice as many places are odd. */
function latticeRow(lines: number, pieces: number): BenchRow {
  const start = performance.now();
  const { graph } = networkOf(lattice(lines, pieces), 1_000_000);
  const odd = oddNodes(graph).size;
  const route = routeOf(graph, { linkWeight: 2 });
  const seconds = (performance.now() - start) / 1000;
  const answer = route.exact
    ? 'the least'
    : `within ${(route.retracedMm / route.atLeastMm).toFixed(2)} times the least`;
  return {
    work: `route of ${graph.pieces.length.toLocaleString('en-US')} pieces, ${odd} odd places`,
    measured: `${seconds.toFixed(1)} s, ${answer}`,
    aim: 'seconds',
  };
}

/** Two bundles of waves, each line of one meeting each of the other many times: about `pieces` pieces in all. */
function lattice(lines: number, pieces: number): Float64Array[] {
  const half = lines / 2;
  // Each pair of lines meets once for each half wave; every line then has that many pieces.
  const meetings = pieces / 2 / half / half;
  const across = 10 * half * meetings;
  const out: Float64Array[] = [];
  for (let i = 0; i < half; i++) {
    const flat: number[] = [];
    const down: number[] = [];
    for (let s = 0; s <= across; s += 2) {
      const wave = 6 * (half - 1) * (0.5 - 0.5 * Math.cos((s / across) * meetings * Math.PI));
      flat.push(s, wave + i * 0.7 * meetings + 0.3 * Math.sin(s / 40 + i));
      down.push(s, 6 * (half - 1) - wave + i * 0.7 * meetings + 0.3 * Math.cos(s / 50 + i));
    }
    out.push(Float64Array.from(flat), Float64Array.from(down));
  }
  return out;
}

function ladderRow(odd: number): BenchRow {
  const rungs = odd / 2 + 2;
  const nodes = Array.from({ length: 2 * rungs }, (_, i) => ({ x: 1.5 * (i >> 1), y: i & 1 }));
  const piece = (a: number, b: number) =>
    pieceOf(a, b, Float64Array.of(nodes[a].x, nodes[a].y, nodes[b].x, nodes[b].y));
  const pieces = Array.from({ length: rungs }, (_, i) => [
    piece(2 * i, 2 * i + 1),
    ...(i > 0 ? [piece(2 * i - 2, 2 * i), piece(2 * i - 1, 2 * i + 1)] : []),
  ]).flat();
  const graph = { nodes, pieces };
  const start = performance.now();
  const { lengthMm, atLeastMm, exact } = leastRetrace(graph, oddNodes(graph));
  const seconds = (performance.now() - start) / 1000;
  return {
    work: `least retracing of ${odd.toLocaleString('en-US')} odd places in a ladder`,
    measured: `${seconds.toFixed(1)} s, ${exact ? 'the least' : `near-least: ${(lengthMm / atLeastMm).toFixed(2)} times the bound`}`,
    aim: 'seconds',
  };
}
