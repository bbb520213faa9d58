/**
 * Outlines that jsts and a pen walked along both sides make of lines that are known: the mend `centre` finds the lines
 * again. Distances are jsts's. A place of a line and the nearest border point of its outline determine each other, so
 * the line asked for is the one the outline was made from, and nothing else.
 */
// @ts-nocheck jsts ships no types for its modules.
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import BufferOp from 'jsts/org/locationtech/jts/operation/buffer/BufferOp.js';
import BufferParameters from 'jsts/org/locationtech/jts/operation/buffer/BufferParameters.js';
import { describe, expect, test, vi } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { boundsOf, lengthOf, moved, pointsOf, polylineOf } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { motifIn } from '../checked.js';
import { bufferOutline, walkedOutline } from '../pen-outline.js';
import { farthest } from './farthest.js';

// Comparing by jsts takes a second or two, and longer beside other work.
vi.setConfig({ testTimeout: 60_000 });

const folder = new URL('../../corpus/motifs/', import.meta.url).pathname;

const atOrigin = (line: Polyline) => {
  const { minX, minY } = boundsOf([line]);
  return moved(line, -minX, -minY);
};

const centred = (outlines: readonly Polyline[]) =>
  mendMotif(motifOf(outlines), defaultSetup, { only: ['centre'] });

describe.each(['kelp', 'hawser', 'pebble-beach', 'swell', 'lighthouse', 'mussel-bed'])('%s', async (name) => {
  const line = atOrigin((await motifIn(`${folder}${name}.svg`)).strokes[0]);
  const crossings = studyOf(motifOf([line]), defaultSetup).crossings.places.length;
  test.each([0.8, 1.5, 2.5])('drawn with a pen of %f mm', (penMm) => {
    const { motif, accounts } = centred(bufferOutline(line, penMm));
    expect(motif.strokes).toHaveLength(1);
    expect(farthest(motif.strokes, [line])).toBeLessThan(Math.max(0.05, penMm / 50));
    expect(lengthOf(motif.strokes[0]) / lengthOf(line)).toBeCloseTo(1, 2);
    expect(studyOf(motif, defaultSetup).crossings.places).toHaveLength(crossings);
    expect(accounts[0].movedMm).toBeCloseTo(penMm / 2, 1);
    expect(mendMotif(motif, defaultSetup, { only: ['centre'] }).accounts).toEqual([]);
  });
  test('with an outline that is not united where it crosses itself', () => {
    const { motif } = centred([walkedOutline(line, 1.2)]);
    expect(motif.strokes).toHaveLength(1);
    expect(farthest(motif.strokes, [line])).toBeLessThan(0.05);
    expect(studyOf(motif, defaultSetup).crossings.places).toHaveLength(crossings);
  });
});

const wave = polylineOf(
  Array.from({ length: 301 }, (_, i) => ({ x: i / 2, y: 12 * Math.sin((i / 2) * 0.1) })),
);

test.each([
  ['round', BufferParameters.CAP_ROUND, 0],
  ['flat', BufferParameters.CAP_FLAT, 0],
  // A square end runs half a pen past the line: that is where the ink ends, and so does the line found.
  ['square', BufferParameters.CAP_SQUARE, 0.75],
] as const)('%s ends', (_name, cap, pastMm) => {
  const penMm = 1.5;
  const coordinates = [...pointsOf(wave)].map(({ x, y }) => new Coordinate(x, y));
  const ring = BufferOp.bufferOp(new GeometryFactory().createLineString(coordinates), penMm / 2, 16, cap);
  const outline = polylineOf(ring.getExteriorRing().getCoordinates());
  const { motif } = centred([outline]);
  expect(motif.strokes).toHaveLength(1);
  expect(Math.abs(lengthOf(motif.strokes[0]) - lengthOf(wave) - 2 * pastMm)).toBeLessThan(0.1);
});

test.each([15, 20, 30, 45, 60, 90])('lines that cross at %i degrees', (deg) => {
  const half = (deg * Math.PI) / 360;
  const ends = [-60, 60].map((r) => ({ x: r * Math.cos(half), y: r * Math.sin(half) }));
  const lines = [1, -1].map((sign) => polylineOf(ends.map(({ x, y }) => ({ x, y: sign * y }))));
  const string = ([a, b]: Polyline[]) =>
    [a, b].map((line) =>
      new GeometryFactory().createLineString([...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y))),
    );
  const all = new GeometryFactory().createMultiLineString(string(lines));
  const area = BufferOp.bufferOp(all, 0.75, 16);
  const { motif } = centred([polylineOf(area.getExteriorRing().getCoordinates())]);
  expect(motif.strokes).toHaveLength(2);
  const shift = boundsOf(lines);
  expect(
    farthest(
      motif.strokes,
      lines.map((line) => moved(line, -shift.minX, -shift.minY)),
    ),
  ).toBeLessThan(0.05);
  const { places } = studyOf(motif, defaultSetup).crossings;
  expect(places).toHaveLength(1);
  expect(Math.abs(places[0].angleDeg - deg)).toBeLessThan(5);
});

test('a filled shape beside an outline is left as it is, and said', () => {
  const heart = polylineOf(
    Array.from({ length: 121 }, (_, i) => {
      const t = (i * Math.PI) / 60;
      return {
        x: 75 + 16 * Math.sin(t) ** 3,
        y: 40 - 13 * Math.cos(t) + 5 * Math.cos(2 * t) + 2 * Math.cos(3 * t) + Math.cos(4 * t),
      };
    }),
  );
  const { motif, accounts } = centred([...bufferOutline(wave, 1.5), heart]);
  expect(motif.strokes).toHaveLength(2);
  expect(lengthOf(motif.strokes[1])).toBeCloseTo(lengthOf(heart), 1);
  expect(accounts[0].message).toContain('no pen stroke');
});
