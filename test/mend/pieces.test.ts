/** Motifs as they come out of a drawing program, in pieces: reshaped, they are one stroke that covers all that was drawn. */
import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { turnDeg } from '../../src/geometry/point.js';
import { polylineOf } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { findingsOf, motifIn } from '../checked.js';
import { circle, line } from './drawings.js';
import { hausdorff } from './hausdorff.js';

const folder = new URL('../../corpus/pieces/', import.meta.url).pathname;
const files = readdirSync(folder).filter((name) => name.endsWith('.svg'));

test('there are six and more', () => expect(files.length).toBeGreaterThanOrEqual(6));

describe.each(files)('%s', async (file) => {
  const motif = await motifIn(folder + file);

  test('is mended without an error left', () => {
    const { motif: mended } = mendMotif(motif, defaultSetup, { reshape: true });
    expect(mended.strokes.length).toBe(1);
    expect(findingsOf(mended).filter(({ severity }) => severity === 'error')).toEqual([]);
  });

  test('the route through it leaves nothing out', () => {
    const whole = mendMotif(motif, defaultSetup, { only: ['drop'] }).motif;
    const { motif: routed, accounts } = mendMotif(whole, defaultSetup, { only: ['route'] });
    const links = accounts.flatMap(({ added }) => added);
    // Links are new line; with them laid over the drawing, drawing and route are the same to the touch distance.
    expect(hausdorff([...whole.strokes, ...links], routed.strokes)).toBeLessThanOrEqual(0.1);
  });
});

test('hundreds of rings too small to look at one by one are routed too', () => {
  const rings = Array.from({ length: 400 }, (_, i) => circle(3 * (i % 40), 3 * Math.floor(i / 40), 1, i, 12));
  const { motif } = mendMotif(motifOf(rings), defaultSetup, { only: ['route'] });
  expect(motif.strokes.length).toBe(1);
});

test('loops a few millimetres apart get no spur', () => {
  // Closed loops have no dead end, so nothing of them need be gone out and back.
  const loops = [
    line(
      32.21,
      3,
      32.21,
      0.4,
      32.51,
      0,
      41.1,
      0,
      41.39,
      0.42,
      41.39,
      12.52,
      41.09,
      12.92,
      32.49,
      12.92,
      32.21,
      12.5,
      32.21,
      3,
    ),
    line(
      23.85,
      13.22,
      26.07,
      13.22,
      26.72,
      13.32,
      26.72,
      28.8,
      26.65,
      29.73,
      15.88,
      29.73,
      15.23,
      29.63,
      15.23,
      14.15,
      15.3,
      13.22,
      23.85,
      13.22,
    ),
    line(
      0,
      38.16,
      0,
      29.74,
      0.6,
      29.65,
      10.57,
      29.65,
      10.63,
      30.54,
      10.63,
      45.44,
      10.04,
      45.53,
      0.06,
      45.53,
      0,
      44.64,
      0,
      38.16,
    ),
  ];
  const { motif } = mendMotif(motifOf(loops), defaultSetup, { reshape: true });
  expect(motif.strokes.length).toBe(1);
  const [points] = motif.strokes;
  const turns = Array.from({ length: points.length / 2 - 2 }, (_, i) => {
    const [ax, ay, bx, by, cx, cy] = points.slice(2 * i, 2 * i + 6);
    return turnDeg(bx - ax, by - ay, cx - bx, cy - by);
  });
  expect(Math.max(...turns)).toBeLessThan(150);
});

// Three waves under one another go on in the next repeat, each in itself; so they do in the row of the line through them.
test.each([
  [1, 1],
  [-1, 1],
  [1, -1],
])(
  'echoed waves meet in the next repeat, and are not slanted, mirrored by %d and %d too',
  (acrossSign, downSign) => {
    const waves = [-14, 0, 14].map((down) =>
      polylineOf(
        Array.from({ length: 201 }, (_, i) => ({
          x: acrossSign * 1.05 * i,
          y: downSign * (down + 18 * Math.sin((2 * Math.PI * 3 * i) / 200)),
        })),
      ),
    );
    const { motif, accounts } = mendMotif(motifOf(waves), defaultSetup, { reshape: true });
    expect([motif.widthMm, motif.heightMm]).toEqual([210, 64]);
    expect(accounts.map(({ mend }) => mend)).toEqual(expect.not.arrayContaining(['reach']));
    const { repeat } = studyOf(motif, defaultSetup);
    expect([repeat.dx, repeat.dy]).toEqual([210, 0]);
    expect(findingsOf(motif).map(({ rule }) => rule)).not.toContain('repeat-collision');
    expect(mendMotif(motif, defaultSetup, { reshape: true }).accounts).toEqual([]);
  },
);
