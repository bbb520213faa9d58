/** From the steps of a walk to its line, and whether a link is clear. */
import { describe, expect, test } from 'vitest';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { pieceOf } from '../../src/network/graph.js';
import { isClear } from '../../src/route/clear.js';
import { walkedLine } from '../../src/route/walk.js';

const line = (...xy: number[]) => Float64Array.from(xy);

describe('the line of a walk', () => {
  const nodes = [
    { x: 0, y: 0 },
    { x: 10, y: 0 },
    { x: 20, y: 0 },
  ];
  const walk = (pieces: Float64Array[], steps: [number, boolean][]) => {
    const ends = [
      [0, 1],
      [1, 2],
    ];
    const graph = { nodes, pieces: pieces.map((each, i) => pieceOf(ends[i][0], ends[i][1], each)) };
    const { line: walked, movedMm } = walkedLine(
      graph,
      steps.map(([piece, back]) => ({ piece, back })),
    );
    return { walked: [...walked], movedMm };
  };

  test('goes on where it was drawn, forwards and backwards', () => {
    const pieces = [line(0, 0, 5, 1, 10, 0), line(10, 0, 20, 0)];
    expect(
      walk(pieces, [
        [0, false],
        [1, false],
      ]),
    ).toEqual({ walked: [0, 0, 5, 1, 10, 0, 20, 0], movedMm: 0 });
    expect(
      walk(pieces, [
        [1, true],
        [0, true],
      ]),
    ).toEqual({ walked: [20, 0, 10, 0, 5, 1, 0, 0], movedMm: 0 });
  });

  test('goes on where it was drawn past the place at which it could switch', () => {
    const pieces = [line(0, 0, 10, 0.05), line(10, 0.05, 20, 0)];
    expect(
      walk(pieces, [
        [0, false],
        [1, false],
      ]),
    ).toEqual({ walked: [0, 0, 10, 0.05, 20, 0], movedMm: 0 });
  });

  // Drawn 0.06 above the place and 0.08 below it: both ends come to the place itself.
  test('bends both lines to the place where it switches', () => {
    const pieces = [line(0, 0, 10, 0.06), line(10, -0.08, 20, 0)];
    const there = walk(pieces, [
      [0, false],
      [1, false],
    ]);
    expect(there).toEqual({ walked: [0, 0, 10, 0, 20, 0], movedMm: 0.08 });
    expect(
      walk(pieces, [
        [1, true],
        [0, true],
      ]),
    ).toEqual({ walked: [20, 0, 10, 0, 0, 0], movedMm: 0.08 });
    // Its own ends stay where they were drawn.
    expect(walk([line(0, 0.05, 10, 0)], [[0, false]])).toEqual({ walked: [0, 0.05, 10, 0], movedMm: 0 });
  });

  // A point as near to the place as the end was drawn would make a hook of the bent end; the last point stays.
  test('leaves out what would make a hook', () => {
    const pieces = [line(0, 0, 9.95, 0.05, 10, 0.09), line(10, 0, 20, 0)];
    expect(
      walk(pieces, [
        [0, false],
        [1, false],
      ]).walked,
    ).toEqual([0, 0, 10, 0, 20, 0]);
    const clear = [line(0, 0, 9.9, 0.05, 10, 0.09), line(10, 0, 20, 0)];
    expect(
      walk(clear, [
        [0, false],
        [1, false],
      ]).walked,
    ).toEqual([0, 0, 9.9, 0.05, 10, 0, 20, 0]);
    const speck = [line(0, 0, 10, 0), line(10, 0.09, 10.01, 0.01, 10.02, 0.02)];
    expect(
      walk(speck, [
        [0, false],
        [1, false],
      ]).walked,
    ).toEqual([0, 0, 10, 0, 10.02, 0.02]);
  });

  test('takes what was drawn twice as it was drawn each time', () => {
    const twice = { ...pieceOf(0, 1, line(0, 0, 10, 0)), copy: line(0, 0, 5, 0.05, 10, 0) };
    const graph = { nodes, pieces: [twice] };
    const there = { piece: 0, back: false };
    const back = { piece: 0, back: true };
    expect([...walkedLine(graph, [there, back]).line]).toEqual([0, 0, 10, 0, 5, 0.05, 0, 0]);
    expect([...walkedLine(graph, [there]).line]).toEqual([0, 0, 10, 0]);
    // Stitched a third time it has no third drawing.
    expect([...walkedLine(graph, [there, back, there]).line]).toEqual([
      0, 0, 10, 0, 5, 0.05, 0, 0, 5, 0.05, 10, 0,
    ]);
  });
});

describe('a link', () => {
  const index = new SegmentIndex([line(50, -10, 50, 10), line(0, 0, 0, 30), line(100, -5, 100, 5)]);
  const clear = (ax: number, ay: number, bx: number, by: number) =>
    isClear(index, { x: ax, y: ay }, { x: bx, y: by });
  test('is clear where it crosses nothing', () => {
    expect(clear(0, 20, 100, 11)).toBe(true);
    expect(clear(0, 0, 100, 0)).toBe(false);
    expect(clear(100, 0, 0, 0)).toBe(false);
    expect(clear(40, 9.9, 60, 9.9)).toBe(false);
    expect(clear(40, 10.1, 60, 10.1)).toBe(true);
    expect(clear(40, -10.1, 60, -10.1)).toBe(true);
  });
  test('may touch what it starts and ends on, to a hundredth of a millimetre', () => {
    expect(clear(50, 0, 100, 0)).toBe(true);
    expect(clear(0, 0, 50, 0)).toBe(true);
    expect(clear(49.991, 0, 100, 0)).toBe(true);
    expect(clear(49.989, 0, 100, 0)).toBe(false);
    expect(clear(0, 0, 50.009, 0)).toBe(true);
    expect(clear(0, 0, 50.011, 0)).toBe(false);
    // Of a short one a quarter at either end.
    expect(clear(49.997, 0, 50.013, 0)).toBe(true);
    expect(clear(49.994, 0, 50.006, 0)).toBe(false);
    expect(clear(49.9945, 0, 50.0105, 0)).toBe(false);
  });
  test('is not where it lies on what is drawn, whichever of the two is longer', () => {
    // The post of 30 mm itself, a part of it, and one end of it and what is beyond.
    for (const [from, to] of [
      [0, 30],
      [5, 25],
      [-5, 10],
      [20, 40],
      [-5, 40],
    ]) {
      expect(clear(0, from, 0, to)).toBe(false);
      expect(clear(0, to, 0, from)).toBe(false);
    }
    expect(clear(0, 30, 0, 40)).toBe(true);
    expect(clear(0, -5, 0, 0)).toBe(true);
  });
  // Turned and moved, so that neither coordinate is small or the same for both ends.
  test('is as clear wherever it lies', () => {
    const put = (x: number, y: number) => ({ x: 200 + 0.6 * x - 0.8 * y, y: 100 + 0.8 * x + 0.6 * y });
    const at = (x: number, y: number) => [put(x, y).x, put(x, y).y];
    const turned = new SegmentIndex([
      line(...at(50, -10), ...at(50, 10)),
      line(...at(0, 0), ...at(0, 30), ...at(-40, 30)),
      line(...at(100, -5), ...at(100, 5)),
    ]);
    const isFree = (ax: number, ay: number, bx: number, by: number) =>
      isClear(turned, put(ax, ay), put(bx, by)) && isClear(turned, put(bx, by), put(ax, ay));
    expect(isFree(0, 20, 99, 11)).toBe(true);
    expect(isFree(0, 5, 0, 25)).toBe(false);
    expect(isFree(0, -5, 0, 10)).toBe(false);
    expect(isFree(1, 0, 99, 0)).toBe(false);
    expect(isFree(40, 9.9, 60, 9.9)).toBe(false);
    expect(isFree(40, 10.1, 60, 10.1)).toBe(true);
    expect(isFree(-20, 25, -20, 35)).toBe(false);
    expect(isFree(49.991, 0, 99, 0)).toBe(true);
    expect(isFree(49.989, 0, 99, 0)).toBe(false);
    expect(isFree(1, 0, 50.009, 0)).toBe(true);
    expect(isFree(1, 0, 50.011, 0)).toBe(false);
    expect(isFree(49.99, 0, 50.2, 0)).toBe(true);
    expect(isFree(49.985, 0, 50.2, 0)).toBe(false);
  });
});
