/** What is said of ends that are brought to their edges and level, or left; each limit from both sides. */
import { describe, expect, test } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { firstPoint, lastPoint, lengthOf, moved } from '../../src/geometry/polyline.js';
import { toEdges } from '../../src/mend/edges.js';
import { mendMotif } from '../../src/mend/index.js';
import { toLevel } from '../../src/mend/level.js';
import { motifOf } from '../../src/size/motif-of.js';
import { line } from './drawings.js';

const setup = { ...defaultSetup, unit: 'mm' } as const;
const nothing = { step: null, left: null };

describe('to the edges', () => {
  const across = (...coordinates: number[]) => toEdges(line(...coordinates), setup);
  // It starts inside a curl on its left; neighbouring repeats keep clear.
  const curl = [20, 0, 30, 10, 0, 20, 60, 30, 120, 0];

  test('up to a millimetre inside is on the edge', () => {
    expect(across(1, 0, 10, 10, 0, 20, 99, 10, 100, 5, 99, 0)).toEqual(nothing);
    expect(across(1.1, 0, 10, 10, 0, 20, 100, 0).step).not.toBeNull();
    expect(across(0, 0, 100, 20, 90, 10, 98.9, 0).step).not.toBeNull();
  });

  test('a cut says where the ends were, and moves nothing', () => {
    const { step, left } = across(...curl);
    expect(left).toBeNull();
    expect(step!.message).toBe(
      'The line started or ended 20 mm (13/16 in) inside the left edge. The row is now cut at a place that an upright line meets only once, so both ends are on the edges.',
    );
    expect(step!.at).toEqual([{ x: 65, y: 27.5 }]);
    expect(step).toMatchObject({ movedMm: 0, added: [] });
    expect(step!.place({ x: 30, y: 10 })).toEqual({ x: 130, y: 10 });
    expect(firstPoint(step!.line).x).toBeCloseTo(65, 9);
    expect(lastPoint(step!.line).x).toBeCloseTo(165, 9);
    // The same from the other side: turned round by half a turn it ends inside its right edge.
    const turned = line(...curl)
      .reverse()
      .map((_, i, all) => 120 - all[i ^ 1]);
    expect(toEdges(turned, setup).step!.message).toMatch(
      /^The line started or ended 20 mm \(13\/16 in\) inside the right edge\. /,
    );
  });

  test('leads say how many there are', () => {
    // A full bight to the left over the start, so that every upright line meets the row three times.
    const bight = line(50, 0, 120, 30, -20, 40, 170, 50, 120, 15, 150, 0);
    const { step, left } = toEdges(bight, setup);
    expect(left).toBeNull();
    expect(step!.message).toBe(
      'The line started or ended 70 mm (2 3/4 in) inside the left edge and 20 mm (13/16 in) inside the right edge, and neighbouring repeats ran into each other: 2 lead lines go out to the edges.',
    );
    expect(step!.at).toEqual([
      { x: 50, y: 0 },
      { x: 150, y: 0 },
    ]);
    expect(step!.added.map((each) => [...each])).toEqual([
      [-20, 0, 50, 0],
      [150, 0, 170, 0],
    ]);
    expect(step!.place({ x: 3, y: 4 })).toEqual({ x: 3, y: 4 });
    expect([...step!.line].slice(0, 4)).toEqual([-20, 0, 50, 0]);
    // Only its start lies inside.
    const half = line(50, 0, 120, 30, -20, 40, 150, 0);
    const one = toEdges(half, setup).step!;
    expect(one.message).toBe(
      'The line started or ended 70 mm (2 3/4 in) inside the left edge, and neighbouring repeats ran into each other: 1 lead line goes out to the edge.',
    );
    expect(one.added).toHaveLength(1);
  });

  test('says why there is no way out', () => {
    // It starts inside a curl, which the next repeat's end runs through.
    const { step, left } = across(40, 20, 50, 10, 50, 30, 0, 30, 0, -10, 120, 40, 130, 20);
    expect(step).toBeNull();
    expect(left).toBe(
      'The line starts or ends 40 mm (1 9/16 in) inside the left edge, neighbouring repeats run into each other, and there is no smooth way out to the edge that does not run into what is drawn there. Draw the way in and out yourself, from edge to edge.',
    );
  });
});

describe('to one height', () => {
  const level = (...coordinates: number[]) => toLevel(line(...coordinates), setup);

  test('up to half a millimetre is level', () => {
    expect(level(0, 0, 50, 20, 100, 0.5)).toEqual(nothing);
    expect(level(0, 0, 50, 20, 100, 0.6).step).not.toBeNull();
  });

  test('a slant says by how much, and moves the ends by half the drop each', () => {
    const { step, left } = level(0, 0, 50, 40, 100, 10);
    expect(left).toBeNull();
    expect(step!.message).toBe(
      'The ends were 10 mm (13/32 in) from level: spread over the whole motif, which is slanted by 5.7 degrees.',
    );
    expect(step!.at).toEqual([
      { x: 0, y: 5 },
      { x: 100, y: 5 },
    ]);
    expect(step!.movedMm).toBeCloseTo(5, 9);
    expect(step!.added).toEqual([]);
    expect(step!.place({ x: 100, y: 10 })).toEqual({ x: 100, y: 5 });
    // What lies outside the ends moves more: at x = -50 by the whole drop.
    expect(level(0, 0, -50, 40, 100, 10).step!.movedMm).toBeCloseTo(10, 9);
  });

  test('is a slant up to a quarter of the height, or up to eight degrees', () => {
    const message = (...coordinates: number[]) => level(...coordinates).step?.message ?? '';
    expect(message(0, 0, 50, 80, 100, 20)).toContain('slanted by 11.3 degrees');
    expect(message(0, 20, 50, 100, 100, 40)).toContain('slanted by');
    expect(message(0, 0, 50, 79, 100, 20)).not.toContain('slanted');
    // 8 degrees are 14.05 down on 100 across.
    expect(message(0, 0, 50, 16, 100, 14)).toContain('slanted by 8.0 degrees');
    expect(level(0, 0, 50, 16, 100, 14.1).left).toContain("more than half the motif's height");
  });

  test('more than half the height is no slip', () => {
    // Wherever the drawing lies.
    for (const y of [0, 500]) {
      const { step, left } = toLevel(moved(line(0, 0, 50, 59, 100, 30), 0, y), setup);
      expect(step).toBeNull();
      expect(left).toBe(
        "The ends are 30 mm (1 3/16 in) from level, more than half the motif's height: the line runs across and down at once, as a corner does, and such a motif makes no row. Draw it so that it ends about as high as it starts.",
      );
      expect(toLevel(moved(line(0, 0, 50, 61, 100, 30), 0, y), setup).left ?? '').not.toContain(
        'half the motif',
      );
    }
  });

  test('an ease says so, where the line is long enough', () => {
    // Up and down by 60 every 2 mm: 3,000 mm of line for a drop of 20 of 66. Half of it over a quarter turns the line by
    // atan(1.5 x 10 / 750) = 1.1 degrees.
    const points = Array.from({ length: 51 }, (_, i) => [2 * i, (i % 2) * 60 + (20 * i) / 50]).flat();
    const { step } = level(...points);
    expect(step!.message).toBe(
      'The ends were 20 mm (13/16 in) from level: eased away over the first and the last quarter of the line, half of it each.',
    );
    expect(step!.at.map(({ y }) => y)).toEqual([10, 10]);
    expect(step!.movedMm).toBe(10);
    expect(step!.added).toEqual([]);
    expect(step!.place({ x: 100, y: 20 }).y).toBeCloseTo(10, 9);
    expect(step!.place({ x: 0, y: 0 }).y).toBeCloseTo(10, 9);
  });

  test('an ease turns the line by no more than eight degrees', () => {
    // Those are reached where a quarter of the line is 1.5 x 10 / tan 8 = 106.7 long, all of it 427.
    const zigzag = (legs: number) =>
      Array.from({ length: legs + 1 }, (_, i) => [(100 * i) / legs, (i % 2) * 60 + (20 * i) / legs]).flat();
    expect(lengthOf(line(...zigzag(6)))).toBeLessThan(427);
    expect(level(...zigzag(6)).step?.message ?? '').not.toContain('eased');
    expect(lengthOf(line(...zigzag(8)))).toBeGreaterThan(427);
    expect(level(...zigzag(8)).step?.message ?? '').toContain('eased');
  });

  test('a curve says so, and where it begins', () => {
    const rise = Array.from({ length: 201 }, (_, i) => {
      const x = i / 2;
      return [x, 25 * Math.sin((2 * Math.PI * x) / 100) - 0.2 * x];
    }).flat();
    const { step } = level(...rise);
    expect(step!.message).toBe(
      'The ends were 20 mm (13/16 in) from level, too much to slant or ease without it showing: a curve leads on from the end to the height of the start.',
    );
    expect(step!.at).toEqual([lastPoint(line(...rise))]);
    expect(step!.movedMm).toBe(0);
    expect(step!.place({ x: 3, y: 4 })).toEqual({ x: 3, y: 4 });
    // As short as has room: one and a half drops.
    expect(step!.added).toHaveLength(1);
    expect(firstPoint(step!.added[0])).toEqual(lastPoint(line(...rise)));
    expect(lastPoint(step!.added[0]).x).toBeCloseTo(100 + 1.5 * 20, 9);
    expect(lastPoint(step!.added[0]).y).toBeCloseTo(0, 9);
  });
});

describe('reach', () => {
  test('leaves what is no row, or no line, alone', () => {
    const left = (...strokes: number[][]) => {
      const { accounts, notMended } = mendMotif(motifOf(strokes.map((each) => line(...each))), setup, {
        only: ['reach'],
      });
      return [accounts, notMended];
    };
    const rising = [0, 0, 50, 40, 100, 8];
    expect(left(rising)[0]).toHaveLength(1);
    expect(left(rising, [0, 60, 100, 60])).toEqual([[], []]);
    expect(left([0, 0, 100, 40, 20, 8])).toEqual([[], []]);
  });

  test('what cannot come to its edges is told together with why it stays uneven', () => {
    // The curl whose start the next repeat's end runs through, its end 6 lower.
    const curl = line(40, 20, 50, 10, 50, 30, 0, 30, 0, -10, 120, 40, 130, 26);
    const { notMended } = mendMotif(motifOf([curl]), setup, { only: ['reach'] });
    expect(notMended[0].message).toMatch(
      /from edge to edge\. The ends are 6 mm \(1\/4 in\) from level, and stay so as long as the repeats run into each other\.$/,
    );
  });

  test('adds up what its steps did, in the order in which the line is drawn', () => {
    // Inside its left edge, and 6 from level; drawn from the right.
    const curl = line(120, 6, 60, 30, 0, 20, 30, 10, 20, 0);
    const { motif, accounts } = mendMotif(motifOf([curl]), setup, { only: ['reach'] });
    const [{ message, places, movedMm, addedMm }] = accounts;
    expect(message).toMatch(
      /^The line started or ended 20 mm .* on the edges\. The ends were 6 mm .* slanted by 3\.4 degrees\.$/,
    );
    expect(places).toHaveLength(3);
    expect(movedMm).toBeCloseTo(3, 2);
    expect(addedMm).toBeCloseTo(lengthOf(motif.strokes[0]) - lengthOf(curl), 1);
    expect(firstPoint(motif.strokes[0]).x).toBeCloseTo(100, 2);
    expect(firstPoint(motif.strokes[0]).y).toBeCloseTo(lastPoint(motif.strokes[0]).y, 2);
  });
});
