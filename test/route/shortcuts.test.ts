/** New line within a part, on drawings in which every link worth a look can be seen. */
import { describe, expect, test } from 'vitest';
import { distance } from '../../src/geometry/point.js';
import { type Graph, pieceOf } from '../../src/network/graph.js';
import { shortcutsOf } from '../../src/route/shortcuts.js';
import { type At, graphOf } from './graphs.js';

/** "x y > x y" of each link, from the lower to the higher of the two texts. */
function linksOf(drawing: Graph, odd: readonly number[], reachMm = 1000, firstLink = drawing.pieces.length) {
  const { graph, links } = shortcutsOf(drawing, new Set(odd), firstLink, reachMm);
  for (const { from, to, line, lengthMm } of links) {
    expect([...line]).toEqual([from, to].flatMap((n) => [graph.nodes[n].x, graph.nodes[n].y]));
    expect(lengthMm).toBe(distance(graph.nodes[from], graph.nodes[to]));
  }
  const ends = links.map(({ from, to }) =>
    [from, to].map((n) => `${+graph.nodes[n].x.toFixed(6)} ${+graph.nodes[n].y.toFixed(6)}`),
  );
  return ends.map((pair) => pair.sort().join(' > ')).sort();
}

/** Upright posts on a level line, 4 mm from each other: the line's nodes come first, then the tips. */
function posts(heights: readonly number[]): { graph: Graph; tips: number[] } {
  const feet = heights.map((_, i): At => [4 * i, 0]);
  const tops = heights.map((height, i): At => [4 * i, height]);
  const along = feet.slice(1).map((_, i): At => [i, i + 1]);
  const tips = heights.map((_, i) => heights.length + i);
  return { graph: graphOf([...feet, ...tops], [...along, ...tips.map((tip, i): At => [i, tip])]), tips };
}

describe('from loose end to loose end', () => {
  /** Which tips are linked with which, by number. */
  const tipsLinked = (heights: readonly number[], order = [...heights.keys()], reachMm = 1000) => {
    const { graph, tips } = posts(heights);
    const { links } = shortcutsOf(graph, new Set(order.map((i) => tips[i])), graph.pieces.length, reachMm);
    return links
      .map(({ from, to }) => [from, to].map((n) => n - heights.length).sort((a, b) => a - b))
      .filter(([a, b]) => a >= 0 && b < heights.length)
      .map((pair) => pair.join(' '))
      .sort();
  };

  // The tips of eight posts stand in a hollow, so that each sees every other. Each is linked to its six nearest: all
  // pairs but the outermost two.
  test.each([[[0, 1, 2, 3, 4, 5, 6, 7]], [[0, 7, 1, 2, 3, 4, 5, 6]], [[7, 6, 0, 5, 3, 1, 2, 4]]])(
    'the nearest six, each pair once, in the order %j',
    (order) => {
      const hollow = order.map((_, i) => 20 + 0.5 * (i - 3.5) ** 2);
      const pairs = [...order.keys()].flatMap((a) =>
        [...order.keys()].filter((b) => a < b).map((b) => `${a} ${b}`),
      );
      expect(tipsLinked(hollow, order)).toEqual(pairs.filter((pair) => pair !== '0 7'));
    },
  );

  test('not across a post that is higher', () => {
    expect(tipsLinked([20, 30, 20])).toEqual(['0 1', '1 2']);
    expect(tipsLinked([20, 10, 20])).toEqual(['0 1', '0 2', '1 2']);
  });

  test('no farther than the reach', () => {
    expect(tipsLinked([20, 10, 20], [0, 1, 2], 8)).toEqual(['0 2']);
    expect(tipsLinked([20, 10, 20], [0, 1, 2], 7.9)).toEqual([]);
  });

  // A fifth of a millimetre is a link, less is a touch.
  test('not where they all but touch', () => {
    const gap = (mm: number) =>
      graphOf(
        [
          [0, 0],
          [0, 10],
          [mm, 10],
          [9, 0],
        ],
        [
          [0, 1],
          [2, 3],
          [0, 3],
        ],
      );
    expect(linksOf(gap(0.2), [1, 2], 1)).toContain('0 10 > 0.2 10');
    expect(linksOf(gap(0.19), [1, 2], 1)).not.toContain('0 10 > 0.19 10');
  });

  test('between the two ends of a bow, but not to places on it', () => {
    const bow = graphOf(
      [
        [0, 0],
        [5, 8],
        [10, 0],
      ],
      [
        [0, 1],
        [1, 2],
      ],
    );
    expect(linksOf(bow, [0, 1, 2])).toEqual(['0 0 > 10 0']);
  });

  // A closed loop at either end of a bow, so that neither end is loose.
  test('and from branch to branch, though a line leads from one to the other', () => {
    const [one, other] = [
      { x: 0, y: 0 },
      { x: 20, y: 0 },
    ];
    const loops = [Float64Array.of(0, 0, -5, 5, -5, -5, 0, 0), Float64Array.of(20, 0, 25, 5, 25, -5, 20, 0)];
    const bow = pieceOf(0, 1, Float64Array.of(0, 0, 10, 8, 20, 0));
    const graph = { nodes: [one, other], pieces: [bow, ...loops.map((loop, n) => pieceOf(n, n, loop))] };
    expect(linksOf(graph, [0, 1])).toEqual(['0 0 > 20 0']);
  });

  test('in drawings of up to 200 odd places', () => {
    const many = posts(Array.from({ length: 201 }, () => 10));
    // Each of 200 to the next, and the last of them to the tip of the post after it.
    expect(linksOf(many.graph, many.tips.slice(0, 200), 4)).toHaveLength(200);
    expect(shortcutsOf(many.graph, new Set(many.tips), many.graph.pieces.length, 4)).toEqual({
      graph: many.graph,
      links: [],
    });
  });
});

describe('to the line beside', () => {
  // From the corner of a square of 40 to (18, 19): 18 mm from the left side, 19 from the lower, 21 from the upper one
  // and 22 from the right one. A spur leads out of that corner.
  const points: At[] = [
    [0, 0],
    [40, 0],
    [40, 40],
    [0, 40],
    [18, 19],
    [-10, -10],
  ];
  const square: At[] = [
    [0, 1],
    [1, 2],
    [2, 3],
    [0, 4],
    [0, 5],
    [3, 0],
  ];
  const inSquare = graphOf(points, square);
  test('the nearest three, as far as the reach goes', () => {
    expect(linksOf(inSquare, [4])).toEqual(['0 19 > 18 19', '18 0 > 18 19', '18 19 > 18 40']);
    expect(linksOf(inSquare, [4], 19)).toEqual(['0 19 > 18 19', '18 0 > 18 19']);
    expect(linksOf(inSquare, [4], 18.9)).toEqual(['0 19 > 18 19']);
    expect(linksOf(inSquare, [4], 17.9)).toEqual([]);
  });

  test('not to the lines that end at the place itself', () => {
    // Two of them, one drawn to it and one from it.
    expect(linksOf(graphOf(points, [...square, [4, 2]]), [4])).toEqual(linksOf(inSquare, [4]));
  });

  test('not to links between parts', () => {
    // As if the left side, the last piece, were one.
    expect(linksOf(inSquare, [4], 1000, 5)).toEqual(['18 0 > 18 19', '18 19 > 18 40', '18 19 > 40 19']);
  });

  test('to that place of a piece which is nearest', () => {
    const corner = graphOf(
      [
        [0, 0],
        [30, 0],
        [30, 20],
        [50, 40],
        [-10, 0],
      ],
      [
        [0, 1],
        [1, 2],
        [0, 4],
      ],
    );
    // Over the tip of the second piece a third comes down to within 5 mm of it, and goes up again.
    const over = [0, 0, 10, 40, 20, 40, 20, 25, 35, 25, 35, 40, 50, 40];
    const there = pieceOf(0, 3, Float64Array.from(over));
    const back = pieceOf(3, 0, Float64Array.of(50, 40, 35, 40, 35, 25, 20, 25, 20, 40, 10, 40, 0, 0));
    for (const piece of [there, back])
      expect(linksOf({ ...corner, pieces: [...corner.pieces, piece] }, [2], 20)).toEqual(['30 20 > 30 25']);
  });

  // A hook: up from the middle of a level line, over, and down again to 10 mm over the line and 5 mm from the stem.
  const hook: At[] = [
    [0, 0],
    [50, 0],
    [100, 0],
    [50, 20],
    [55, 30],
    [55, 10],
  ];
  const edges: At[] = [
    [0, 1],
    [1, 2],
    [1, 3],
    [3, 4],
    [4, 5],
  ];
  test('not to what leads to the loose end itself, nor between places on that', () => {
    const graph = graphOf(hook, edges);
    expect(linksOf(graph, [5], 20)).toEqual(['55 0 > 55 10']);
    // The foot of the hook, its bends and its tip lie on one way.
    expect(linksOf(graph, [5, 3, 4, 1], 20)).toEqual(['55 0 > 55 10']);
    expect(linksOf(graph, [4, 1, 3, 5], 20)).toEqual(['55 0 > 55 10']);
  });

  // The same hook, its stem cut 1 mm over the line, and linked to it there: by its end it still hangs on the line.
  test('nor to the foot of a hook that a link holds', () => {
    const cut: At[] = [...hook, [50, 1], [52, 24]];
    const hung = [...edges.filter((_, i) => i !== 2), [6, 3]] as At[];
    expect(linksOf(graphOf(cut, [...hung, [1, 6]]), [5, 6, 1], 20, 5)).toEqual(['55 0 > 55 10']);
    // One that is in two pieces leads back over both links; a place beside the link's foot is none of its own.
    const inTwo = [...edges.filter((_, i) => i < 2), [6, 3], [7, 4], [4, 5], [1, 6], [3, 7]] as At[];
    expect(linksOf(graphOf(cut, inTwo), [5, 6, 3, 1], 20, 5)).toEqual(['55 0 > 55 10']);
  });

  test('a link between parts makes no branch of that', () => {
    // A link from the stem to a part beside it.
    const linked = graphOf([...hook, [30, 40], [30, 60]], [...edges, [6, 7], [3, 6]]);
    expect(linksOf(linked, [5, 1], 12, 6)).toEqual(['55 0 > 55 10']);
    // Were it drawn, it would: the lower half of the stem leads to no loose end then.
    expect(linksOf(linked, [5, 1], 12, 7)).toEqual(['50 0 > 55 10', '50 10 > 55 10', '55 0 > 55 10']);
  });
});

// Two level lines and a post from one to the other: what leads along the post is drawn already. Whether rounding puts the
// link on the post or a hair beside it depends on the slant.
test('none lies on a line that is drawn', () => {
  for (let slant = 0; slant <= 20; slant++) {
    const ladder = graphOf(
      [
        [0, 0],
        [slant, 30],
        [-50, 0],
        [50, 0],
        [-50, 30],
        [50, 30],
      ],
      [
        [2, 0],
        [0, 3],
        [4, 1],
        [1, 5],
        [0, 1],
      ],
    );
    const upright = slant > 0 ? ['0 0 > 0 30', `${slant} 0 > ${slant} 30`] : [];
    expect(linksOf(ladder, [0, 1])).toEqual(upright);
  }
});

test('without odd places there are none', () => {
  expect(linksOf(posts([20, 20]).graph, [])).toEqual([]);
});
