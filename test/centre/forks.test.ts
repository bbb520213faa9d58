/**
 * Where strokes meet: lines of which the distance, the angle or the radius is known, drawn by resvg at a scanner's
 * resolution. What is found is held against the lines drawn; distances are jsts's.
 */
import { describe, expect, test, vi } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { boundsOf, moved, polylineOf } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { scanned, type Wish } from '../read/scan/drawn.js';
import { distances, farthest } from './farthest.js';

vi.setConfig({ testTimeout: 60_000 });

async function traced([first, ...beside]: readonly Polyline[], wish: Wish) {
  const scan = scanned(first, { ...wish, beside });
  const artwork = await readArtwork(scan.bytes, 'drawn.png', { dpi: scan.dpi });
  const { minX, minY } = boundsOf(artwork.lines.map(({ coords }) => coords));
  const motif = toMotif(artwork, defaultSetup);
  return { motif, lines: scan.lines.map((line) => moved(line, -minX, -minY)), scan: artwork.scan! };
}

const crossings = (motif: Parameters<typeof studyOf>[0]) =>
  studyOf(motif, defaultSetup).crossings.places.length;

const arc = (x: number, y: number, radius: number, fromDeg: number, toDeg: number) =>
  polylineOf(
    Array.from({ length: 241 }, (_, i) => {
      const angle = ((fromDeg + ((toDeg - fromDeg) * i) / 240) * Math.PI) / 180;
      return { x: x + radius * Math.cos(angle), y: y + radius * Math.sin(angle) };
    }),
  );

const pens: readonly Wish[] = [
  { dpi: 200, penMm: 0.7 },
  { dpi: 300, penMm: 1.5 },
  { dpi: 200, penMm: 2.5 },
  { dpi: 210, penMm: 1, kind: 'noise' },
];

describe.each(pens)('a pen of $penMm mm at $dpi dots to the inch', (wish) => {
  const most = wish.kind === 'noise' ? 0.25 : 0.12;

  test('arcs whose ink touches do not cross', async () => {
    // Two arcs that bulge towards one another: their lines come within half a millimetre, less than any of the pens.
    const gapMm = 0.5;
    const { motif, lines } = await traced(
      [arc(0, -30 - gapMm / 2, 30, 160, 20), arc(0, 30 + gapMm / 2, 30, 200, 340)],
      wish,
    );
    expect(motif.strokes).toHaveLength(2);
    expect(farthest(motif.strokes, lines)).toBeLessThan(most);
    expect(crossings(motif)).toBe(0);
  });

  test('arcs that kiss in one place are found where they lie', async () => {
    const { motif, lines } = await traced([arc(0, -30, 30, 160, 20), arc(0, 30, 30, 200, 340)], wish);
    expect(motif.strokes).toHaveLength(2);
    expect(farthest(motif.strokes, lines)).toBeLessThan(most);
  });

  test.each([20, 30, 45, 60, 90])('lines that cross at %i degrees', async (deg) => {
    const half = (deg * Math.PI) / 360;
    const lines = [1, -1].map((sign) =>
      polylineOf([-50, 50].map((r) => ({ x: r * Math.cos(half), y: sign * r * Math.sin(half) }))),
    );
    const found = await traced(lines, wish);
    expect(found.motif.strokes).toHaveLength(2);
    expect(farthest(found.motif.strokes, found.lines)).toBeLessThan(most);
    const { places } = studyOf(found.motif, defaultSetup).crossings;
    expect(places).toHaveLength(1);
    // The angle is that of the two short segments that cross: a hundredth of a millimetre turns them by some degrees.
    expect(Math.abs(places[0].angleDeg - deg)).toBeLessThan(10);
  });

  test('a loop three pens across stays a loop', async () => {
    const radius = 1.5 * wish.penMm;
    // A straight line that turns once round and goes on.
    const loop = [...polylineLike(-40, 0, 0, 0), ...round(radius), ...polylineLike(0, 0, 40, 0)];
    const { motif, lines } = await traced([polylineOf(loop)], wish);
    expect(motif.strokes).toHaveLength(1);
    expect(crossings(motif)).toBe(1);
    expect(distances(motif.strokes, lines).at(-1)).toBeLessThan(most);
    expect(distances(lines, motif.strokes).at(-1)).toBeLessThan(most);
  });

  test('what is found is told to lie on the ink, and to cover it', async () => {
    const { scan } = await traced([arc(0, -30, 30, 160, 20), arc(0, -10, 30, 200, 340)], wish);
    expect([scan.uncovered, scan.offInk]).toEqual([[], []]);
    expect(scan.coveredShare).toBeGreaterThan(0.998);
    expect(scan.onInkShare).toBeGreaterThan(0.998);
    expect(Math.abs(scan.penMm / wish.penMm - 1)).toBeLessThan(0.06);
  });
});

const polylineLike = (x0: number, y0: number, x1: number, y1: number) =>
  Array.from({ length: 41 }, (_, i) => ({ x: x0 + ((x1 - x0) * i) / 40, y: y0 + ((y1 - y0) * i) / 40 }));

const round = (radius: number) =>
  Array.from({ length: 121 }, (_, i) => {
    const angle = (2 * Math.PI * i) / 120;
    return { x: radius * Math.sin(angle), y: -radius * (1 - Math.cos(angle)) };
  });

test('a pen that presses harder at the ends of a line, and half-way, is followed to the end', async () => {
  const line = polylineOf(polylineLike(0, 0, 100, 0));
  // On the page the line runs from (8, 8) to (108, 8).
  const harder = [
    [8, 15],
    [50, 62],
    [101, 108],
  ].map(
    ([from, to]) => `<path d="M${from} 8H${to}" stroke="#222" stroke-width="1.4" stroke-linecap="round"/>`,
  );
  const scan = scanned(line, { dpi: 300, penMm: 1, also: harder.join('') });
  const { lines } = await readArtwork(scan.bytes, 'hard.png', { dpi: scan.dpi });
  expect(lines).toHaveLength(1);
  const { coords } = lines[0];
  expect(coords[0]).toBeCloseTo(8, 0);
  expect(coords[coords.length - 2]).toBeCloseTo(108, 0);
  for (let i = 1; i < coords.length; i += 2) expect(Math.abs(coords[i] - 8)).toBeLessThan(0.1);
});
