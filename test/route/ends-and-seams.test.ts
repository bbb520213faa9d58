/** Where a line may start and end, with prices worked out by hand, and new line from repeat to repeat. */
import { describe, expect, test } from 'vitest';
import { distance } from '../../src/geometry/point.js';
import { firstPoint, lastPoint } from '../../src/geometry/polyline.js';
import { networkOf } from '../../src/network/network.js';
import { endPairs } from '../../src/route/row-ends.js';
import { leadsOf, seamsOf } from '../../src/route/seam.js';

const line = (...xy: number[]) => Float64Array.from(xy);
const graphOfLines = (...lines: Float64Array[]) => networkOf(lines, 1000).graph;
const sorted = (texts: string[]) => [...texts].sort();

describe('pairs of ends', () => {
  /** "x y > x y: price" of each pair. */
  const pairsOf = (...lines: Float64Array[]) => {
    const { graph, pairs } = endPairs(graphOfLines(...lines));
    const place = (node: number) => `${graph.nodes[node].x} ${graph.nodes[node].y}`;
    return sorted(
      pairs.map(({ start, end, priceMm }) => `${place(start)} > ${place(end)}: ${+priceMm.toFixed(6)}`),
    );
  };

  // 40 mm high. A drop of 10 mm is slanted away; of what is over it, 10 mm cost four times as much, and the rest
  // twenty times.
  test.each([
    [0, 0],
    [8, 8],
    [10, 10],
    [13, 10 + 4 * 3],
    [20, 10 + 4 * 10],
    [26, 10 + 4 * 10 + 20 * 6],
  ])('ends %d mm apart in height cost %d mm', (drop, price) => {
    expect(pairsOf(line(0, 5, 30, 0, 60, 40, 100, 5 + drop))).toEqual([`0 5 > 100 ${5 + drop}: ${price}`]);
    expect(pairsOf(line(0, 5 + drop, 30, 0, 60, 40, 100, 5))).toEqual([`0 ${5 + drop} > 100 5: ${price}`]);
  });

  // The natural ends lie 4 and 6 mm inside; the places on the edges lie on the way, each 0.05 mm worse for that.
  test('inside the edges cost half of how far, places on the way a hair', () => {
    expect(pairsOf(line(4, 20, 0, 20, 0, 0, 50, 40, 100, 20, 94, 20))).toEqual([
      '0 0 > 100 20: 50.1',
      '0 0 > 94 20: 53.05',
      '0 20 > 100 20: 0.1',
      '0 20 > 94 20: 3.05',
      '4 20 > 100 20: 2.05',
      '4 20 > 94 20: 5',
    ]);
  });

  // The drawing need not lie at the upper left of the plane.
  test('cost the same wherever the drawing lies', () => {
    const there = (...xy: number[]) => line(...xy.map((value, i) => value + (i % 2 ? 70 : 300)));
    expect(pairsOf(there(4, 20, 0, 20, 0, 0, 50, 40, 100, 20, 94, 20))).toEqual([
      '300 70 > 394 90: 53.05',
      '300 70 > 400 90: 50.1',
      '300 90 > 394 90: 3.05',
      '300 90 > 400 90: 0.1',
      '304 90 > 394 90: 5',
      '304 90 > 400 90: 2.05',
    ]);
  });

  // Seven ends at 1 to 7 mm from the left edge: the five nearest are tried, and the two places on the edge.
  test('are no more than the nearest five on a side', () => {
    const spine = line(0, 40, 0, 0, 100, 0);
    const teeth = [6, 2, 7, 3, 1, 5, 4].map((x) => line(x, 0, x, 20));
    const starts = new Set(pairsOf(spine, ...teeth).map((pair) => pair.split(' > ')[0]));
    // The end of the spine on the edge is the nearest of the five.
    expect([...starts].sort()).toEqual(['0 0', '0 40', '1 20', '1 0', '2 20', '2 0'].sort());
  });

  test('lie within a quarter of the width from their edge', () => {
    const bow = (left: number, right: number) => line(left, 20, 0, 20, 0, 0, 100, 40, 100, 20, right, 20);
    const natural = (left: number, right: number) =>
      pairsOf(bow(left, right)).filter(
        (pair) => pair.startsWith(`${left} 20`) && pair.includes(`> ${right} 20`),
      );
    // Half of 25 and of 10 mm.
    expect(natural(25, 90)).toEqual(['25 20 > 90 20: 17.5']);
    expect(natural(26, 90)).toEqual([]);
    expect(natural(10, 75)).toEqual(['10 20 > 75 20: 17.5']);
    expect(natural(10, 74)).toEqual([]);
    // A repeat is more than half of the width.
    expect(natural(25, 75)).toEqual([]);
    expect(natural(24, 75)).toEqual(['24 20 > 75 20: 24.5']);
    // Wherever the drawing lies.
    const pairs = pairsOf(bow(26, 90).map((value, i) => value + (i % 2 ? 70 : 300)));
    expect(pairs.filter((pair) => pair.startsWith('326'))).toEqual([]);
  });

  test('are the highest and the lowest place on an edge, and loose ends there', () => {
    // Three upright bars on the left edge; at the foot of the second a level line begins, so that no end is loose there.
    const comb = [line(0, 0, 0, 10), line(0, 20, 0, 30), line(0, 40, 0, 60), line(0, 30, 100, 30)];
    const starts = pairsOf(...comb).map((pair) => pair.split(' > ')[0]);
    expect(starts).toEqual(['0 0', '0 10', '0 20', '0 40', '0 60']);
  });
});

describe('links from repeat to repeat', () => {
  // Two bars 20 mm apart: 20 wide, and 20 on to the next repeat.
  const bars = graphOfLines(line(0, 0, 0, 30), line(20, 0, 20, 30));
  test('are as far as the parts are apart', () => {
    const { seams, gapMm, graph } = seamsOf(bars);
    expect(gapMm).toBe(20);
    expect(seams.length).toBeGreaterThan(0);
    expect(seams[0]).toMatchObject({ repeatMm: 40, lengthMm: 20 });
    for (const { start, end, lengthMm, repeatMm } of seams) {
      expect(repeatMm).toBe(40);
      const { x, y } = graph.nodes[start];
      expect(lengthMm).toBeCloseTo(distance(graph.nodes[end], { x: x + 40, y }), 9);
    }
    const [into, out] = leadsOf(graph, seams[0]);
    // From 20 to 40 and cut at 30: level, and 10 mm on either side.
    expect(firstPoint(into).x).toBe(-10);
    expect(lastPoint(into)).toEqual(graph.nodes[seams[0].start]);
    expect(firstPoint(out)).toEqual(graph.nodes[seams[0].end]);
    expect(lastPoint(out).x).toBe(30);
    expect(lastPoint(out).y).toBe(firstPoint(into).y);
  });
  // Three bars of other heights, far from the corner of the plane: the nearest places of the last and the first, and
  // from loose end to loose end, each no longer than the ones left out.
  test('are the shortest four between nearest places, and the shortest four between loose ends', () => {
    const spread = graphOfLines(line(240, 50, 240, 80), line(200, 50, 200, 90), line(220, 55, 220, 75));
    const { seams, gapMm, graph } = seamsOf(spread);
    expect(gapMm).toBe(20);
    const told = seams.map(({ start, end, lengthMm }) => {
      const [from, to] = [graph.nodes[end], graph.nodes[start]];
      return `${from.x} ${from.y} > ${to.x} ${to.y}: ${+lengthMm.toFixed(3)}`;
    });
    // The next repeat lies 40 + 20 mm on.
    const nearest = told.slice(0, 4).map((each) => each.split(': ')[1]);
    expect(nearest[0]).toBe('20');
    expect([...nearest].sort((a, b) => +a - +b)).toEqual(nearest);
    const loose = told.slice(-4);
    expect(loose[0]).toBe('240 50 > 200 50: 20');
    expect(loose[1]).toBe(`240 80 > 200 90: ${+Math.hypot(20, 10).toFixed(3)}`);
    expect(loose[2]).toBe(`240 80 > 200 50: ${+Math.hypot(20, 30).toFixed(3)}`);
    // From 240 50 to 280 55 it is shorter, but across the bar at 260; this one passes over the bar at 240.
    expect(loose[3]).toBe(`220 75 > 200 90: ${+Math.hypot(40, 15).toFixed(3)}`);
  });

  // Two columns of 24 diamonds, 10 mm wide and high, 20 mm from row to row. Each is half a millimetre farther out than
  // the one before it, so that on to the next repeat the last row has the least way to go, and each row before it a
  // millimetre more. The widest of the gaps that hold them together is that from row to row.
  test('are found among many parts', () => {
    const diamond = (x: number, y: number) => line(x - 5, y, x, y - 5, x + 5, y, x, y + 5, x - 5, y);
    const rows = Array.from({ length: 24 }, (_, row) => [
      diamond(30 + row / 2, 20 * row),
      diamond((23 - row) / 2, 20 * row),
    ]);
    const { seams, gapMm } = seamsOf(graphOfLines(...rows.flat()));
    expect(gapMm).toBeCloseTo(Math.hypot(10, 0.5), 9);
    expect(seams.map(({ lengthMm }) => +(lengthMm - gapMm).toFixed(6))).toEqual([0, 1, 2, 3]);
  });

  test('are 3 mm at least, and there are none of one part', () => {
    const near = seamsOf(graphOfLines(line(0, 0, 0, 30), line(1, 0, 1, 30)));
    expect(near.gapMm).toBe(3);
    expect(near.seams[0]).toMatchObject({ repeatMm: 4, lengthMm: 3 });
    expect(seamsOf(graphOfLines(line(0, 0, 50, 20)))).toMatchObject({ seams: [], gapMm: 0 });
  });
});

describe('lines that run out at either edge and go on in one another', () => {
  /** Level lines at these heights on the left, and at those on the right. */
  const drawn = (left: readonly number[], right: readonly number[]) =>
    graphOfLines(...left.map((y, i) => line(0, y, 50, y + 3, 100, right[i])));
  const drops = (left: readonly number[], right: readonly number[]) => {
    const { graph, pairs, meets } = endPairs(drawn(left, right));
    const found = pairs.map(
      ({ start, end }) => Math.round(10 * (graph.nodes[end].y - graph.nodes[start].y)) / 10,
    );
    return { drops: [...new Set(found)].sort((a, b) => a - b), meets };
  };

  test('are kept together by the ends that are looked at', () => {
    expect(drops([0, 10, 20], [0, 10, 20])).toEqual({ drops: [0], meets: true });
    expect(drops([0, 10, 30], [0.4, 10.2, 30])).toEqual({ drops: [0, 0.2, 0.4], meets: true });
    expect(drops([0, 10, 30], [4, 14, 34])).toEqual({ drops: [4], meets: true });
  });

  test('which leaves a single line, and lines that do not, as they are', () => {
    expect(drops([0], [4])).toEqual({ drops: [4], meets: false });
    // 40 mm high: a drop of 30 is no slant any more.
    expect(drops([0, 10], [30, 40])).toMatchObject({ meets: false });
    expect(drops([0, 10], [0, 11])).toEqual({ drops: [-10, 0, 1, 11], meets: false });
  });
});
