/** Where a stitch might cut off too much, by the definition: on lines along a grid, whose turns can be counted. */
import { expect, test } from 'vitest';
import { suspectStretches } from '../../src/measure/stitching/suspects.js';
import { walkedLines } from '../../src/measure/stitching/walked-line.js';
import { randomFrom } from './lines.js';

const stitchMm = 2;
/** A line has to turn by 2 atan(2 s / c) for a cut s: one right angle for the first of these, two for the other. */
const cuts = [
  { cutMm: 0.8, rightAngles: 1 },
  { cutMm: 1.2, rightAngles: 2 },
];

/** A line in steps of 1 mm, and for each of its points how many right angles it turns there. */
function gridLine(seed: number, straight: number) {
  const random = randomFrom(seed);
  const at = [0, 0];
  const turns = [0];
  let quarter = 0;
  for (let n = 1; n < 120; n++) {
    at.push(at[2 * n - 2] + Math.round(Math.cos((quarter * Math.PI) / 2)));
    at.push(at[2 * n - 1] + Math.round(Math.sin((quarter * Math.PI) / 2)));
    turns.push(n === 119 || random() < straight ? 0 : 1);
    if (turns[n]) quarter += random() < 0.5 ? 1 : 3;
  }
  return { drawn: Float64Array.from(at), turns };
}

test('the suspects of a line and the line they need after them are found, by looking at each of its steps', () => {
  let [stretchesApart, clean] = [0, 0];
  for (let seed = 1; seed <= 120; seed++) {
    const { drawn, turns } = gridLine(seed, [0.5, 0.9, 0.97][seed % 3]);
    const [line] = walkedLines([drawn], stitchMm);
    if (line.closed) continue;
    const last = turns.length - 1;
    for (const { cutMm, rightAngles } of cuts) {
      const expected: { from: number; to: number; segments: number[] }[] = [];
      for (let p = 0; p < last; p++) {
        // One and a half stitches from the segment's end on.
        const turned = turns.slice(p + 1, p + 1 + 1.5 * stitchMm + 1).reduce((sum, turn) => sum + turn, 0);
        if (turned < rightAngles) continue;
        const to = Math.min(last, p + 1 + 7 * stitchMm);
        const before = expected.at(-1);
        if (before && p <= before.to) {
          before.segments.push(p);
          before.to = to;
        } else expected.push({ from: p, to, segments: [p] });
      }
      const found = suspectStretches(line, stitchMm, cutMm);
      expect(found).toEqual(
        expected.map(({ from, to, segments }) => ({
          line: {
            ...line,
            points: line.points.slice(2 * from, 2 * to + 2),
            runMm: line.runMm.slice(from, to + 1),
            turnedRad: line.turnedRad.slice(from, to + 1),
          },
          segments: segments.map((p) => p - from),
        })),
      );
      if (found.length > 1) stretchesApart++;
      if (found.length === 0) clean++;
    }
  }
  expect(Math.min(stretchesApart, clean)).toBeGreaterThan(5);
});
