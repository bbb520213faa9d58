/** Cases of the rules about how the line stitches: curves, turns, crowding, thread, steps, size. */
import { boxOf } from '../drawing.js';
import { type Flavour, inches, nested, plain, points, polyline, prefixed, used } from '../flavours.js';
import { crates } from '../motifs/crates.js';
import { gullWing } from '../motifs/gull-wing.js';
import { kelp } from '../motifs/kelp.js';
import { lighthouse } from '../motifs/lighthouse.js';
import { musselBed } from '../motifs/mussel-bed.js';
import { net } from '../motifs/net.js';
import { ripples } from '../motifs/ripples.js';
import { ropeCoil } from '../motifs/rope-coil.js';
import { sail } from '../motifs/sail.js';
import { swell } from '../motifs/swell.js';
import { tideLines } from '../motifs/tide-lines.js';
import { type Knot, through } from '../spline.js';
import { at, joined, polygonal, type Stroke, scaled } from '../stroke.js';
import { box, type Case, caseOf, type Known, sketch } from './case.js';
import { comb, echoes, rosette } from './sketches.js';

interface Stitched {
  readonly flavour?: Flavour;
  readonly title: string;
  readonly stroke: Stroke;
  readonly known?: Known;
}

/** A loop above the line that crosses it at a shallow angle, so that the passes stay close for a long way. */
const shallowLoops = through([
  [0, 0, 0],
  ...[65, 165].flatMap((x): Knot[] => [
    [x, 0, -3],
    [x + 40, -14, -90],
    [x, -28, 180],
    [x - 40, -14, 90],
    [x, 0, 3],
    [x + 44, 4],
  ]),
  [250, 0, 0],
]);

const zigzag = (stepMm: number, highMm: number, count: number) =>
  polygonal(
    Array.from({ length: 2 * count + 1 }, (_, i) => [(i * stepMm) / 2, i % 2 === 0 ? 0 : -highMm] as const),
  );

const highMm = (stroke: Stroke) => boxOf([stroke]).maxY - boxOf([stroke]).minY;
const wideMm = (stroke: Stroke) => boxOf([stroke]).maxX - boxOf([stroke]).minX;

/** A level line, spikes on it, and a level line again. */
const spikes = joined(polygonal([[-30, 0], ...([[0, 0]] as const)]), zigzag(8, 46, 6), {
  from: at(48, 0),
  segments: [{ kind: 'line', to: at(160, 0) }],
});

const fins = joined(polygonal([[-20, 0], ...([[0, 0]] as const)]), zigzag(40, 46, 4), {
  from: at(160, 0),
  segments: [{ kind: 'line', to: at(180, 0) }],
});

/** A block a millimetre wide, filled by going up and down in it a thousand times. */
const filled = polygonal([
  [0, 0],
  ...Array.from({ length: 1000 }, (_, i) => {
    const x = 90 + i / 1000;
    return i % 2 === 0
      ? ([
          [x, 0],
          [x, -8],
        ] as const)
      : ([
          [x, -8],
          [x, 0],
        ] as const);
  }).flat(),
  [180, 0],
]);

/** Small round loops on a swelling line. */
const curls = (radiusMm: number) =>
  through([
    [0, 0, 0],
    ...[40, 90, 140].flatMap((x): Knot[] => [
      [x + radiusMm, -3 * radiusMm, -90],
      [x, -4 * radiusMm, 180],
      [x - radiusMm, -3 * radiusMm, 90],
    ]),
    [180, 0, 0],
  ]);

/** A wave in steps of `stepMm`, each point given `times` times. */
const stepped = (stepMm: number, times: number) => {
  const count = Math.round(180 / stepMm);
  const place = (i: number) => {
    const x = (i * 180) / count;
    return [x, 24 * Math.sin((4 * Math.PI * x) / 180)] as const;
  };
  return polygonal(
    Array.from({ length: count + 1 }, (_, i) => Array.from({ length: times }, () => place(i))).flat(),
  );
};

const placesOf = ({ from, segments }: Stroke) => [from, ...segments.map(({ to }) => to)];

const cases: Readonly<Record<string, Readonly<Record<string, Stitched>>>> = {
  'tight-curve': {
    'pass-wide-curves': { title: 'Swell', stroke: swell.stroke },
    'pass-key-pattern': { flavour: polyline, title: 'Crates', stroke: crates.stroke },
    'pass-corners-and-arcs': { flavour: points, title: 'Lighthouse', stroke: lighthouse.stroke },
    // A loop of radius 1.3, on which a stitch of 25.4 / 11 cuts off 1.3 - sqrt(1.3^2 - (25.4 / 22)^2).
    'fail-small-curls': {
      title: 'Curls',
      stroke: curls(1.3),
      known: { at: [40, 90, 140].map((x) => at(x, -5.2)), measured: 0.702 },
    },
    // Ends of 2.2 across: their radius is 1.1. On the quarter circles at their feet, too, a stitch laid across cuts off
    // half its length less the corner that is rounded already: 25.4 / 22 - 1.1 (sqrt(2) - 1) = 0.70.
    'fail-round-ended-comb': {
      title: 'Breakwater',
      stroke: comb(7, 2.2),
      known: {
        at: Array.from({ length: 7 }, (_, i) => {
          const [left, right] = [12 + 22 * i, 12 + 22 * i + 2.2];
          const foot = 1.1 * (1 - Math.SQRT1_2);
          return [at(left - foot, -foot), at(left + 1.1, -61.1), at(right + foot, -foot)];
        }).flat(),
        says: 'of radius 1/32 in (1.1 mm)',
      },
    },
    'fail-drawn-too-small': {
      flavour: used,
      title: 'Ripples',
      stroke: scaled(ripples.stroke, 0.2),
      // The two half circles in the middle of each spiral, of radius 1; on the next ones, of radius 3, a stitch cuts off
      // 3 - sqrt(3^2 - (25.4 / 22)^2) = 0.23.
      known: {
        within: [0, 16, 32].flatMap((x) => [box(x - 1, -1, x + 1, 0), box(x + 1, 0, x + 3, 1)]),
        says: '6 curves too tight',
      },
    },
  },
  'sharp-turn': {
    'pass-fins': { title: 'Fins', stroke: fins },
    'pass-sails': { flavour: inches, title: 'Sail', stroke: sail.stroke },
    'pass-round-ends': { title: 'Breakwater', stroke: comb(8, 5) },
    'fail-spikes': {
      title: 'Spikes',
      stroke: spikes,
      // Six tips and the five bottoms between them.
      known: {
        at: Array.from({ length: 11 }, (_, i) => at(4 * (i + 1), i % 2 === 0 ? -46 : 0)),
        measured: 11,
      },
    },
    'fail-one-thorn': {
      title: 'Thorn',
      stroke: joined(
        through([
          [0, 0, 0],
          [60, -60, -88],
        ]),
        through([
          [60, -60, 80],
          [120, 0, 0],
          [160, -24, 0],
          [200, 0, 0],
        ]),
      ),
      known: { at: [at(60, -60)], measured: 1 },
    },
  },
  'crowded-lines': {
    'pass-shallow-crossings': { title: 'Loops', stroke: shallowLoops },
    'pass-echo-lines': { flavour: nested, title: 'Tide Lines', stroke: tideLines.stroke },
    'pass-close-echo-lines': { title: 'Sand', stroke: echoes(1.2) },
    // The middle pass runs beside one above and one below it.
    'fail-half-a-millimetre': {
      title: 'Sand',
      stroke: echoes(0.5),
      known: { within: [box(60, -0.5, 140, 0), box(60, 0, 140, 0.5)], measured: 0.5 },
    },
    'fail-short-stretch': {
      title: 'Sand',
      stroke: echoes(0.6, 14),
      known: { within: [box(60, -0.6, 74, 0), box(60, 0, 74, 0.6)], measured: 0.6 },
    },
    'fail-narrow-fingers': {
      title: 'Breakwater',
      stroke: comb(6, 0.7),
      known: {
        within: Array.from({ length: 6 }, (_, i) => box(12 + 22 * i, -60, 12.7 + 22 * i, 0)),
        measured: 0.7,
      },
    },
  },
  'thread-pile': {
    'pass-knots': { flavour: prefixed, title: 'Net', stroke: net.stroke },
    'pass-shells': { title: 'Mussel Bed', stroke: musselBed.stroke },
    'pass-two-petals': { title: 'Bow', stroke: rosette(2) },
    'fail-four-petals': {
      title: 'Rosette',
      stroke: rosette(4),
      known: { at: [at(90, 0)], measured: 5 },
    },
    'fail-six-petals': {
      flavour: points,
      title: 'Rosette',
      stroke: rosette(6),
      known: { at: [at(90, 0)], measured: 7 },
    },
    // Uprights a micrometre apart: where they turn, two are one pass, below that there are a thousand in a millimetre.
    'fail-filled-solid': {
      flavour: points,
      title: 'Weight',
      stroke: filled,
      known: { at: [at(90.5, -6.5)], measured: 1000, severity: 'error' },
    },
  },
  'short-steps': {
    'pass-straight-lines': { flavour: polyline, title: 'Crates', stroke: crates.stroke },
    'pass-tenth-of-a-millimetre': { title: 'Wave', stroke: stepped(0.1, 1) },
    'fail-repeated-points': {
      title: 'Wave',
      stroke: stepped(1, 2),
      known: { at: placesOf(stepped(1, 1)), measured: 181 },
    },
    // The first thousand steps are listed.
    'fail-traced-by-hand': {
      title: 'Wave',
      stroke: stepped(0.025, 1),
      known: { within: [box(0, 0, 25, 24)], measured: 180 / 0.025 },
    },
  },
  'fits-throat': {
    'pass-low': { title: 'Rope Coil', stroke: ropeCoil.stroke },
    'pass-just-fits': { title: 'Kelp', stroke: tallerTo(202.5, kelp.stroke, 130.549) },
    'fail-tall-kelp': {
      flavour: inches,
      title: 'Kelp',
      stroke: scaled(kelp.stroke, 2),
      known: { at: [], measured: 2 * highMm(kelp.stroke) },
    },
    'fail-tall-gull': {
      title: 'Gull Wing',
      stroke: scaled(gullWing.stroke, 3.2),
      known: { at: [], measured: 3.2 * highMm(gullWing.stroke) },
    },
  },
  'plausible-size': {
    'pass-narrow-border': { title: 'Swell', stroke: scaled(swell.stroke, 0.17) },
    'pass-wall-hanging': { title: 'Kelp', stroke: scaled(kelp.stroke, 12) },
    'fail-stamp': {
      title: 'Tide Lines',
      stroke: scaled(tideLines.stroke, 0.12),
      known: { at: [], measured: 0.12 * highMm(tideLines.stroke), says: 'lower than 13/32 in (10 mm)' },
    },
    'fail-centimetres-for-millimetres': {
      flavour: prefixed,
      title: 'Kelp',
      stroke: scaled(kelp.stroke, 25.4),
      known: { at: [], measured: 25.4 * wideMm(kelp.stroke), says: 'wider than 118 1/8 in (3000 mm)' },
    },
  },
};

function tallerTo(heightMm: number, stroke: Stroke, fromMm: number): Stroke {
  return scaled(stroke, heightMm / fromMm);
}

export const stitchCases: readonly Case[] = Object.entries(cases).flatMap(([rule, named]) =>
  Object.entries(named).map(([name, { flavour = plain, title, stroke, known }]) =>
    caseOf(rule, name, flavour, sketch(title, stroke), known),
  ),
);
