/** Which squares a segment runs through, by walking it, and which segments lie near a place, by trying all. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pointToSegment } from '../../src/geometry/segment.js';
import { SegmentIndex } from '../../src/near/segment-index.js';
import { Squares } from '../../src/near/squares.js';
import { squaresEntered } from '../../src/near/squares-entered.js';
import { line, scribble } from '../measure/lines.js';

// Halves lie on edges and in corners of squares, thirds do not.
const number = fc.oneof(
  fc.integer({ min: -12, max: 12 }).map((n) => n / 2),
  fc.integer({ min: -20, max: 20 }).map((n) => n / 3),
  fc.double({ min: -6, max: 6, noNaN: true }),
);

test('a segment comes from square to neighbouring square, through all that it runs through and no others', () => {
  fc.assert(
    fc.property(number, number, number, number, (x, y, endX, endY) => {
      const squares = [[Math.floor(x), Math.floor(y)]];
      squaresEntered(x, y, endX, endY, (column, row) => squares.push([column, row]));
      expect(String(squares[squares.length - 1])).toBe(String([Math.floor(endX), Math.floor(endY)]));
      squares.forEach(([column, row], k) => {
        const before = squares[k - 1] ?? [column + 1, row];
        expect(Math.abs(column - before[0]) + Math.abs(row - before[1])).toBe(1);
        // Of each square the segment has a place, its edges among them.
        const [from, to] = [0, 1].map((axis) => {
          const [start, end, low] = axis ? [y, endY, row] : [x, endX, column];
          if (start === end) return start >= low - 1e-9 && start <= low + 1 + 1e-9 ? [0, 1] : [1, 0];
          return [(low - start) / (end - start), (low + 1 - start) / (end - start)].sort((a, b) => a - b);
        });
        expect(Math.max(from[0], to[0], 0)).toBeLessThanOrEqual(Math.min(from[1], to[1], 1) + 1e-9);
      });
      const names = new Set(squares.map(String));
      const missed = Array.from({ length: 101 }, (_, step) => [
        x + (step / 100) * (endX - x),
        y + (step / 100) * (endY - y),
      ]).filter(
        (at) => at.every((v) => Math.abs(v - Math.round(v)) > 1e-9) && !names.has(String(at.map(Math.floor))),
      );
      expect(missed).toEqual([]);
    }),
    { seed: 3, numRuns: 300 },
  );
});

test('all segments near a place are visited, and of one square each once, in the order of the line', () => {
  for (const sideMm of [0.7, 3, 50]) {
    const strokes = [scribble(4, 30), line(7, 7, 7, 7, 8, 7), scribble(5, 20, -60, -60)];
    const index = new SegmentIndex(strokes);
    const squares = new Squares(index, sideMm);
    expect(squares.sideMm).toBe(sideMm);
    const segments = Array.from(index.strokeOf.keys()).filter(
      (p) => index.strokeOf[p] === index.strokeOf[p + 1],
    );
    for (let k = 0; k < 300; k++) {
      const [x, y, within] = [((37 * k) % 260) - 60, ((53 * k) % 160) - 60, (k % 7) / 2];
      const visited = new Set<number>();
      squares.visitNear(x, y, within, (s) => visited.add(s));
      for (const s of segments) {
        const [ax, ay, bx, by] = index.points.subarray(2 * s, 2 * s + 4);
        if (pointToSegment(x, y, ax, ay, bx, by) <= within) expect(visited.has(s)).toBe(true);
      }
      // What lies farther off than across all squares looked at is there only for sharing a place in the table.
      const place = squares.placeOf(Math.floor(x / sideMm), Math.floor(y / sideMm));
      const here = Array.from(squares.segments.subarray(squares.starts[place], squares.starts[place + 1]));
      expect(here).toEqual([...here].sort((a, b) => a - b));
    }
    // Few share a place: there are more places than segments run into squares.
    expect(squares.segments.length).toBeLessThan(squares.starts.length);
  }
});
