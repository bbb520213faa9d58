/**
 * What the motifs of the corpus promise, asked of the files as the reader sees them: one stroke from edge to edge,
 * level, smooth where repeats meet, clear of the neighbouring repeats. Distances are the `jsts` package's.
 */
import { readdirSync, readFileSync } from 'node:fs';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import DistanceOp from 'jsts/org/locationtech/jts/operation/distance/DistanceOp.js';
import { describe, expect, it } from 'vitest';
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { Op, type Subpath } from '../../shared/subpath.js';
import { turnDeg } from '../../src/geometry/point.js';
import { firstPoint, lastPoint, moved, pointsOf, runningLengths } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { findingsOf, flawsOf } from '../checked.js';

const folder = new URL('../../corpus/motifs/', import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith('.svg'));

const artworkOf = (file: string) => readArtwork(readFileSync(new URL(file, folder)), file, defaultSetup);
const motifOf = async (file: string): Promise<Motif> => toMotif(await artworkOf(file), defaultSetup);

const factory = new GeometryFactory();
const lineString = (line: Polyline) =>
  factory.createLineString([...pointsOf(line)].map(({ x, y }) => new Coordinate(x, y)));

/** The points at least `mm` along the line from its start, or from its end. */
function without(line: Polyline, side: 'start' | 'end', mm: number): Polyline {
  const run = runningLengths(line);
  const total = run[run.length - 1];
  const first = run.findIndex((along) => along >= mm);
  const last = run.findLastIndex((along) => along <= total - mm);
  return side === 'start' ? line.subarray(2 * first) : line.subarray(0, 2 * last + 2);
}

/** The direction in which a curve leaves its start, and that in which it arrives at its end, from its own numbers. */
function directions({ ops, coords }: Subpath) {
  const between = (from: number, to: number) => [
    coords[to] - coords[from],
    coords[to + 1] - coords[from + 1],
  ];
  const round = (at: number, angle: number) => {
    const [ux, uy, vx, vy] = coords.subarray(at + 2, at + 6);
    const forwards = Math.sign(coords[at + 7]);
    return [
      forwards * (Math.cos(angle) * vx - Math.sin(angle) * ux),
      forwards * (Math.cos(angle) * vy - Math.sin(angle) * uy),
    ];
  };
  const arc = coords.length - 10;
  return {
    leaving: ops[0] === Op.arc ? round(2, coords[8]) : between(0, 2),
    arriving:
      ops[ops.length - 1] === Op.arc
        ? round(arc, coords[arc + 6] + coords[arc + 7])
        : between(coords.length - 4, coords.length - 2),
  };
}

describe('the motifs of the corpus', () => {
  it('are at least fourteen', () => {
    expect(files.length).toBeGreaterThanOrEqual(14);
  });

  describe.each(files)('%s', (file) => {
    it('is one stroke, 150 to 300 mm wide, of a stated size', async () => {
      const motif = await motifOf(file);
      expect(motif.strokes.length).toBe(1);
      expect(motif.assumedSize).toBe(false);
      expect(motif.widthMm).toBeGreaterThan(150);
      expect(motif.widthMm).toBeLessThan(300);
    });

    it('names its title, its maker and its rights', async () => {
      const { credit } = await motifOf(file);
      expect(credit.title?.toLowerCase().replaceAll(' ', '-')).toBe(file.replace('.svg', ''));
      expect(credit.creator).toMatch(/^(Wilhelmina Quayside|Barnaby Tidewater|Pearl Driftwood)$/);
      expect(credit.rights).toContain('Harbour Studio');
    });

    it('runs level from left to right', async () => {
      const [line] = (await motifOf(file)).strokes;
      const [start, end] = [firstPoint(line), lastPoint(line)];
      expect(Math.abs(end.y - start.y)).toBeLessThanOrEqual(0.001);
      expect(end.x - start.x).toBeGreaterThan(150);
    });

    it('goes on in the same direction where the next repeat begins', async () => {
      const [line] = (await artworkOf(file)).lines;
      const { leaving, arriving } = directions(line);
      // Coordinates have three or four decimals, and the shortest handle is over 3 mm long.
      expect(turnDeg(arriving[0], arriving[1], leaving[0], leaving[1])).toBeLessThan(0.1);
    });

    it('keeps 2 mm clear of the neighbouring repeats beyond 12 mm from the join', async () => {
      const [line] = (await motifOf(file)).strokes;
      const dx = lastPoint(line).x - firstPoint(line).x;
      const next = moved(line, dx, 0);
      const least = Math.min(
        DistanceOp.distance(lineString(without(line, 'end', 12)), lineString(next)),
        DistanceOp.distance(lineString(line), lineString(without(next, 'start', 12))),
        DistanceOp.distance(lineString(line), lineString(moved(line, 2 * dx, 0))),
      );
      expect(least).toBeGreaterThan(2);
    });

    it('is clean', async () => {
      const findings = findingsOf(await motifOf(file));
      expect(flawsOf(file, findings)).toEqual([]);
    });
  });

  it('hold crossings, overhangs and deep nesting', async () => {
    const studies = await Promise.all(files.map(async (file) => studyOf(await motifOf(file), defaultSetup)));
    const crossing = studies.filter(({ crossings }) => crossings.places.length > 0);
    const overhanging = studies.filter(({ start, end }) => start.leftMm > 2 || end.rightMm > 2);
    const nesting = studies.filter((study) => {
      const { closestSpacingMm } = study.nesting('straight');
      return closestSpacingMm < 0.8 * study.heightMm;
    });
    expect(crossing.length).toBeGreaterThanOrEqual(6);
    expect(overhanging.length).toBeGreaterThanOrEqual(3);
    expect(nesting.length).toBeGreaterThanOrEqual(3);
  });
});

/** Each of these ways of writing an SVG must stand in one motif at least. */
const flavours: readonly (readonly [string, RegExp])[] = [
  ['inches', /<svg[^>]*\swidth="[\d.]+in"/],
  ['millimetres', /<(svg:)?svg[^>]*\swidth="[\d.]+mm"/],
  ['centimetres', /<svg[^>]*\swidth="[\d.]+cm"/],
  ['points', /<svg[^>]*\swidth="[\d.]+pt"/],
  ['picas', /<svg[^>]*\swidth="[\d.]+pc"/],
  ['groups with transforms', /<g [^>]*transform="translate\(/],
  ['a matrix', /transform="matrix\(/],
  ['a style element with classes', /<style[^>]*>\s*\.st0\{/],
  ['a child selector', /g\.motif > use \{/],
  ['style attributes', / style="[^"]*stroke:/],
  ['a use of a definition', /<use xlink:href="#/],
  ['entities', /<!ENTITY ns_svg /],
  ['prefixed elements', /<svg:path /],
  ['a nested svg', /<svg x="5"/],
  ['a polyline', /<polyline /],
  ['cubics, absolute', / d="[^"]*C /],
  ['cubics, relative', / d="[^"]*c/],
  ['smooth cubics', / d="[^"]*s/i],
  ['quadratics', / d="[^"]*Q /],
  ['smooth quadratics', / d="[^"]*T /],
  ['arcs', / d="[^"]*A /],
  ['lines', / d="[^"]*l/i],
];

it.each(flavours)('the motifs are written with %s among them', (_, pattern) => {
  const texts = files.map((file) => readFileSync(new URL(file, folder), 'utf8'));
  expect(texts.some((text) => pattern.test(text))).toBe(true);
});
