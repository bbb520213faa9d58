/**
 * Whole quilts: what lies on the top, against JTS and rows laid out anew from the definitions of the layouts; and plans
 * worked out by hand.
 */
import fc from 'fast-check';
import DiscreteHausdorffDistance from 'jsts/org/locationtech/jts/algorithm/distance/DiscreteHausdorffDistance.js';
import Coordinate from 'jsts/org/locationtech/jts/geom/Coordinate.js';
import GeometryFactory from 'jsts/org/locationtech/jts/geom/GeometryFactory.js';
import OverlayOp from 'jsts/org/locationtech/jts/operation/overlay/OverlayOp.js';
import { describe, expect, it, vi } from 'vitest';
import { layouts } from '../../shared/layout.js';
import type { Plan, PlanChoice, Quilt, Runs } from '../../shared/plan.js';
import type { Box, Polyline } from '../../shared/plane.js';
import { defaultSetup, type Setup } from '../../shared/setup.js';
import { boundsOf, lengthOf, polylineOf } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { planQuilt } from '../../src/plan/index.js';
import { layersOf } from '../../src/plan/line-layers.js';
import { motifOf } from '../../src/size/motif-of.js';
import { planOfLine, wantedOf } from './planned.js';

/** Hundreds of intersections in the reference library, on a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

type Place = readonly [number, number];
type Step = readonly [Place, Place];

const factory = new GeometryFactory();
const coordinates = (places: readonly Place[]) => places.map(([x, y]) => new Coordinate(x, y));

/** The parts of the steps in the closed box, as JTS cuts them, step by step: it would merge what lies on itself. */
function clipped(steps: readonly Step[], { minX, minY, maxX, maxY }: Box) {
  const corners: Place[] = [
    [minX, minY],
    [maxX, minY],
    [maxX, maxY],
    [minX, maxY],
    [minX, minY],
  ];
  const rectangle = factory.createPolygon(factory.createLinearRing(coordinates(corners)));
  const parts = steps
    .filter(([a, b]) => Math.max(a[0], b[0]) >= minX && Math.min(a[0], b[0]) <= maxX)
    .filter(([a, b]) => Math.max(a[1], b[1]) >= minY && Math.min(a[1], b[1]) <= maxY)
    .map((step) => OverlayOp.intersection(factory.createLineString(coordinates(step)), rectangle))
    .filter((part) => part.getLength() > 0);
  return { parts, lengthMm: parts.reduce((sum, part) => sum + part.getLength(), 0) };
}

function stepsOf(lines: readonly Polyline[]): Step[] {
  return lines.flatMap((line) => {
    const steps: Step[] = [];
    for (let i = 2; i < line.length; i += 2) {
      if (line[i] === line[i - 2] && line[i + 1] === line[i - 1]) continue;
      steps.push([
        [line[i - 2], line[i - 1]],
        [line[i], line[i + 1]],
      ]);
    }
    return steps;
  });
}

/** Row `index` of the stack under the definitions of the layouts, far enough to both sides. Row 0 begins at `firstMm`. */
function rowSteps(
  line: Polyline,
  { firstMm, spacingMm, layout }: PlanChoice,
  quilt: Quilt,
  index: number,
): Step[] {
  const { minX, minY, maxX, maxY } = boundsOf([line]);
  const repeatMm = line[line.length - 2] - line[0];
  const changed = index % 2 !== 0;
  const middleY = (minY + maxY) / 2;
  const middleX = line[0] + repeatMm / 2;
  const moved = ([x, y]: Place): Place => {
    if (!changed || layout === 'straight') return [x, y];
    if (layout === 'brick') return [x + repeatMm / 2, y];
    if (layout === 'mirrored') return [x + repeatMm / 2, 2 * middleY - y];
    return [2 * middleX - x, 2 * middleY - y];
  };
  const [dx, dy] = [firstMm[0] - line[0], firstMm[1] - line[1] + index * spacingMm];
  const reach = maxX - minX + repeatMm;
  const from = Math.floor((-quilt.marginMm - reach - firstMm[0]) / repeatMm) - 1;
  const to = Math.ceil((quilt.widthMm + quilt.marginMm + reach - firstMm[0]) / repeatMm) + 1;
  return Array.from({ length: to - from + 1 }, (_, i) => from + i).flatMap((repeat) =>
    stepsOf([line]).map((step): Step => {
      const [a, b] = step.map(moved);
      const right = dx + repeat * repeatMm;
      return [
        [a[0] + right, a[1] + dy],
        [b[0] + right, b[1] + dy],
      ];
    }),
  );
}

/** Random motifs on a coarse grid, so that lines run along borders, touch them and pass through corners; they overhang. */
const motifs = fc
  .tuple(
    fc.array(fc.tuple(fc.integer({ min: -2, max: 7 }), fc.integer({ min: 0, max: 5 })), {
      minLength: 1,
      maxLength: 7,
    }),
    fc.integer({ min: 0, max: 5 }),
    fc.integer({ min: 3, max: 6 }),
  )
  .map(([inner, y, repeat]) => {
    const points: Place[] = [[0, y], ...inner, [repeat, y]];
    const apart = points.filter(
      ([px, py], i) => i === 0 || px !== points[i - 1][0] || py !== points[i - 1][1],
    );
    return polylineOf(apart.map(([px, py]) => ({ x: 10 * px, y: 10 * py })));
  })
  // One stroke whose end lies more than half the width to the right of its start.
  .filter((line) => {
    const { minX, maxX, minY, maxY } = boundsOf([line]);
    return line[line.length - 2] - line[0] > (maxX - minX) / 2 && maxY > minY;
  });

const cases = fc.record({
  line: motifs,
  widthMm: fc.integer({ min: 3, max: 24 }).map((n) => 10 * n),
  heightMm: fc.integer({ min: 3, max: 24 }).map((n) => 10 * n),
  marginMm: fc.constantFrom(0, 5, 10),
  layout: fc.constantFrom(...layouts),
  spacingMm: fc.integer({ min: 2, max: 7 }).map((n) => 10 * n),
  runs: fc.constantFrom<Runs>('back-and-forth', 'one-way'),
  throatMm: fc.constantFrom(null, 100, 150),
});

type Case = typeof cases extends fc.Arbitrary<infer T> ? T : never;

function planned({
  line,
  widthMm,
  heightMm,
  marginMm,
  layout,
  spacingMm,
  runs,
  throatMm,
}: Case): Plan | null {
  const setup: Setup = { ...defaultSetup, layout, spacingMm, throatMm };
  fc.pre(2 * marginMm <= Math.min(widthMm, heightMm));
  const wanted = { ...wantedOf(widthMm, heightMm, marginMm), runs };
  return planQuilt(studyOf(motifOf([line]), setup), 'case', wanted).plan;
}

describe('a planned quilt', () => {
  it('has on its top exactly the periodic rows, and nothing outside its field', () => {
    let stitched = 0;
    fc.assert(
      fc.property(cases, (given) => {
        const plan = planned(given);
        if (plan === null) return;
        const { quilt, passes } = plan;
        const choice = plan.choices[plan.chosen - 1];
        const origin = boundsOf([given.line]);
        const line = given.line.map((value, i) => value - (i % 2 === 0 ? origin.minX : origin.minY));
        // A micrometre less all round: a row that only runs along the edge of the top does not enter it.
        const top = {
          minX: 0.001,
          minY: 0.001,
          maxX: quilt.widthMm - 0.001,
          maxY: quilt.heightMm - 0.001,
        };
        const { marginMm } = quilt;
        const field = {
          minX: -marginMm,
          minY: -marginMm,
          maxX: quilt.widthMm + marginMm,
          maxY: quilt.heightMm + marginMm,
        };
        // Above row 1 nothing reaches into the top where a whole repeat is beside it.
        const from = quilt.widthMm >= line[line.length - 2] - line[0] ? -8 : 0;
        const expected = Array.from({ length: 24 - from }, (_, i) => from + i).map((index) =>
          clipped(rowSteps(line, choice, quilt, index), top),
        );
        const layers = passes.map(({ strokes, links }) => layersOf(strokes, links));
        const own = layers.flatMap(({ stitch }) => stitch);
        const links = layers.flatMap(({ link }) => link);
        const found = clipped(stepsOf(own), top);
        const lengthMm = expected.reduce((sum, row) => sum + row.lengthMm, 0);
        expect(found.lengthMm).toBeCloseTo(lengthMm, 5);
        const parts = expected.flatMap((row) => row.parts);
        if (parts.length > 0) {
          const [a, b] = [found.parts, parts].map((all) => factory.createGeometryCollection(all));
          expect(DiscreteHausdorffDistance.distance(a, b)).toBeLessThan(1e-6);
          stitched++;
        }
        expect(expected.filter((row) => row.lengthMm > 1e-6)).toHaveLength(plan.totals.rows);
        // Nothing outside the field, links on its border and so, with a margin, off the top.
        const box = boundsOf(passes.flatMap(({ strokes }) => strokes));
        expect(box.minX >= field.minX && box.maxX <= field.maxX).toBe(true);
        expect(box.minY >= field.minY && box.maxY <= field.maxY).toBe(true);
        for (const [[ax, ay], [bx, by]] of stepsOf(links)) {
          const isUpright = ax === bx && (ax === field.minX || ax === field.maxX);
          const isLevel = ay === by && (ay === field.minY || ay === field.maxY);
          expect(isUpright || isLevel).toBe(true);
        }
        // The shorter way round.
        const around = 2 * (field.maxX - field.minX + field.maxY - field.minY);
        for (const link of links) expect(lengthOf(link)).toBeLessThanOrEqual(around / 2 + 1e-9);
        // A stroke a pass, or a row.
        for (const { strokes, rows } of passes)
          expect(strokes).toHaveLength(given.runs === 'one-way' ? rows.length : 1);
        const total = passes.reduce(
          (sum, pass) => sum + pass.strokes.reduce((length, stroke) => length + lengthOf(stroke), 0),
          0,
        );
        expect(total).toBeCloseTo(plan.totals.lengthMm, 6);
        // The choices are measured another way than the line is drawn.
        expect(choice.lengthMm).toBeCloseTo(total, 6);
        expect(choice.linkMm).toBeCloseTo(plan.totals.linkMm, 6);
        expect([choice.rows, choice.passes]).toEqual([plan.totals.rows, passes.length]);
        expect(links.reduce((sum, link) => sum + lengthOf(link), 0)).toBeCloseTo(plan.totals.linkMm, 6);
      }),
      {
        numRuns: 100,
        // A row that only runs along the edges of the top, and is none.
        examples: [
          [
            {
              line: Float64Array.from([0, 40, 0, 0, 0, 40, 30, 40]),
              widthMm: 30,
              heightMm: 30,
              marginMm: 0,
              layout: 'straight',
              spacingMm: 40,
              runs: 'back-and-forth',
              throatMm: null,
            },
          ],
        ],
      },
    );
    expect(stitched).toBeGreaterThan(50);
  });
});

const inch = 25.4;
/** (0, h/2), up to the crest at a quarter, down to the trough at three quarters, and back: two legs of the height. */
const wave = (widthIn: number, heightIn: number) =>
  polylineOf(
    [
      [0, heightIn / 2],
      [widthIn / 4, 0],
      [(3 * widthIn) / 4, heightIn],
      [widthIn, heightIn / 2],
    ].map(([x, y]) => ({ x: x * inch, y: y * inch })),
  );
const straightRows: Pick<Setup, 'layout' | 'spacingMm'> = { layout: 'straight', spacingMm: 6 * inch };

describe('by hand', () => {
  it('a 12 x 6 in wave on a 48 x 60 in top, edge to edge: whole across and down', () => {
    // No margin. Across 48 = 4 x 12. Down at 6 in: 60 = 6 + 9 x 6, so 10 rows. A repeat is sqrt(3^2 + 3^2) twice and
    // sqrt(6^2 + 6^2) once: 16.9706 in; 40 of them. Rows begin and end at half their height, so each of the 9 links
    // goes 6 in down the side.
    const plan = planOfLine(wave(12, 6), wantedOf(48 * inch, 60 * inch, 0), {
      ...defaultSetup,
      ...straightRows,
    });
    const [choice] = plan.choices;
    expect(choice).toMatchObject({ wholeAcross: true, wholeDown: true, repeats: 4, rows: 10, passes: 1 });
    expect(choice.firstMm).toEqual([expect.closeTo(0, 9), expect.closeTo(3 * inch, 9)]);
    expect(choice.spacingMm).toBeCloseTo(6 * inch, 9);
    expect(plan.totals.linkMm).toBeCloseTo(54 * inch, 6);
    expect(plan.totals.lengthMm).toBeCloseTo((40 * (2 * Math.sqrt(18) + Math.sqrt(72)) + 54) * inch, 6);
    // Rows to and fro: the tenth comes back.
    expect(plan.passes[0].startMm).toEqual([expect.closeTo(0, 9), expect.closeTo(3 * inch, 9)]);
    expect(plan.passes[0].endMm).toEqual([expect.closeTo(0, 9), expect.closeTo(57 * inch, 9)]);
  });

  it('brick rows of an 8 x 4 in wave on a 30 x 20 in top: every second one trimmed at both sides', () => {
    // The field is 32 x 22 in: 4 repeats across, and 22 = 4 + 3 x 6 are 4 rows. Rows 2 and 4 begin half a repeat, 4 in,
    // before the field and are cut on its border, in the middle of their long leg: at half the height, where whole rows
    // begin as well. So all rows are as long, and links go 6 in.
    const plan = planOfLine(wave(8, 4), wantedOf(30 * inch, 20 * inch), {
      ...defaultSetup,
      layout: 'brick',
      spacingMm: 6 * inch,
    });
    expect(plan.choices[0]).toMatchObject({ repeats: 4, rows: 4, wholeAcross: true, wholeDown: true });
    const repeatIn = 2 * Math.sqrt(8) + Math.sqrt(32);
    expect(plan.totals.lengthMm).toBeCloseTo((16 * repeatIn + 18) * inch, 6);
    const [{ strokes, links }] = plan.passes;
    const rows = layersOf(strokes, links).stitch;
    expect(rows).toHaveLength(4);
    // Row 2 runs to the left, from the right border to the left one, at 6 + 2 - 1 in down; its first vertex is the crest
    // or trough two inches on.
    const inches = [...rows[1]].map((mm) => mm / inch);
    expect(inches.slice(0, 4)).toEqual([31, 7, 29, 5].map((value) => expect.closeTo(value, 9)));
    expect(inches.slice(-2)).toEqual([-1, 7].map((value) => expect.closeTo(value, 9)));
  });

  it('a throat that loses a row half-way down', () => {
    // Rows 4 in deep and 6 in apart: three are 16 in deep, two 10. A throat of 16 1/2 in holds three while the roll's
    // diameter has grown by no more than 1/2 in: r up to 31.75 + 6.35 = 38.1 mm, that is
    // pi (38.1^2 - 31.75^2) / 3 = 464.5 mm or 18.3 in of a quilt 3 mm thick. Pass 2 begins 18 in from the border of the
    // field, pass 3 at 36 in: from there on two.
    const plan = planOfLine(wave(8, 4), wantedOf(30 * inch, 56 * inch), {
      ...defaultSetup,
      ...straightRows,
      throatMm: 16.5 * inch,
      rollerMm: 2.5 * inch,
      quiltThicknessMm: 3,
    });
    expect(plan.passes.map(({ rows }) => rows)).toEqual([
      [1, 2, 3],
      [4, 5, 6],
      [7, 8],
      [9, 10],
    ]);
    expect(plan.passes.map(({ advanceMm }) => advanceMm / inch)).toEqual(
      [0, 18, 18, 12].map((each) => expect.closeTo(each, 9)),
    );
    for (const { topMm, bottomMm, usableMm, checkMm, pass } of plan.passes) {
      expect(bottomMm - topMm).toBeLessThanOrEqual(usableMm!);
      // With three rows 16 of 16 1/2 in deep the row before, 2 in above, is out of reach.
      if (pass < 3) expect(checkMm).toBeNull();
      else {
        // On the last row before, reachable, and as far apart as the field is wide.
        for (const [, y] of checkMm!) {
          expect(y).toBeGreaterThanOrEqual(bottomMm - usableMm! - 1e-9);
          expect(y).toBeLessThan(topMm);
        }
        expect(checkMm![1][0] - checkMm![0][0]).toBeGreaterThan(28 * inch);
      }
    }
  });

  it('time, price and thread', () => {
    const setup: Setup = { ...defaultSetup, ...straightRows, speed: 1500, price: 0.02, stitchesPerInch: 10 };
    const plan = planOfLine(wave(12, 6), wantedOf(48 * inch, 60 * inch, 0), setup);
    const { totals } = plan;
    expect(totals.minutes).toBeCloseTo(totals.stitches / 1500, 9);
    expect(totals.price).toBeCloseTo(48 * 60 * 0.02, 9);
    // Needle and bobbin together 2 + 2 T S a unit of seam, T = 3 mm, S = 10 in 25.4 mm; half each, 10 % for waste.
    expect(totals.needleThreadM).toBeCloseTo((totals.lengthMm / 1000) * (1 + 30 / 25.4) * 1.1, 6);
    // Ten stitches an inch at most; at corners a stitch cuts across.
    expect(totals.stitches).toBeLessThanOrEqual(Math.ceil((totals.lengthMm / inch) * 10));
    expect(totals.stitches).toBeGreaterThan((totals.lengthMm / inch) * 10 * 0.97);
    const inMetres = planOfLine(wave(12, 6), wantedOf(2000, 1500, 0), { ...setup, unit: 'mm', price: 12 });
    expect(inMetres.totals.price).toBeCloseTo(3 * 12, 9);
  });
});
