/** Where a line is shaky, and where it is not: a wave of which the second half was drawn by a trembling hand. */
import { expect, test } from 'vitest';
import { placeAlong, reversed, runningLengths } from '../../src/geometry/polyline.js';
import { isShakyAt } from '../../src/measure/stitching/shaky.js';
import { curve, line } from './lines.js';

const wave = curve(1600, (t) => {
  const tremor = t > 0.5 ? 0.3 * Math.sin(2 * Math.PI * 160 * t) : 0;
  return [400 * t, 40 * Math.sin(4 * Math.PI * t) + tremor];
});
const onWave = (share: number) => {
  const run = runningLengths(wave);
  return placeAlong(wave, run, share * run[run.length - 1]);
};

test.each([
  ['as it is', [wave]],
  ['from its other end', [reversed(wave)]],
  ['beside others', [line(0, 200, 400, 200), wave, line(0, -200, 400, -200)]],
])('only the half of it that trembles is shaky: %s', (_, strokes) => {
  expect(isShakyAt(strokes, onWave(0.8), 0.8)).toBe(true);
  expect(isShakyAt(strokes, onWave(0.2), 0.8)).toBe(false);
});

test('a tremor wider than nothing may move is none to take out', () => {
  expect(isShakyAt([wave], onWave(0.8), 0.02)).toBe(false);
});
