/** Cases of the rules about the ends: where they lie, and how one repeat meets the next. */
import type { Box } from '../../../shared/plane.js';
import { boxOf } from '../drawing.js';
import { endMoved, part, sunk } from '../edits.js';
import { entities, type Flavour, inches, plain, points, prefixed, used } from '../flavours.js';
import { breakers } from '../motifs/breakers.js';
import { crates } from '../motifs/crates.js';
import { gullWing } from '../motifs/gull-wing.js';
import { hawser } from '../motifs/hawser.js';
import { kelp } from '../motifs/kelp.js';
import { net } from '../motifs/net.js';
import { pebbleBeach } from '../motifs/pebble-beach.js';
import { sail } from '../motifs/sail.js';
import { swell } from '../motifs/swell.js';
import { type Knot, through } from '../spline.js';
import { arcTo, at, endOf, lineTo, repeated, reversed, type Stroke, shifted, turned } from '../stroke.js';
import { box, type Case, caseOf, type Known, sketch } from './case.js';

interface Ends {
  readonly flavour?: Flavour;
  readonly title: string;
  readonly stroke: Stroke;
  readonly known?: Known;
}

/** A crest that hooks back over its own start. */
const returning = through([
  [0, 0, -20],
  [70, -30, 0],
  [160, -50, 40],
  [150, -10, 180],
  [70, -8],
  [20, 14, 180],
]);

/** It begins with a crest and ends with a whole ring, whose upper half is where the next repeat begins. */
const ringOverTheNext: Stroke = {
  from: at(0, 0),
  segments: [arcTo(20, true, 40, 0), lineTo(80, 0), arcTo(20, true, 120, 0), arcTo(20, true, 80, 0)],
};

/** A bay whose right-hand loop hangs `overMm` over the end; the left loop of the next repeat is in its way. */
function overhanging(overMm: number): Stroke {
  const width = 180;
  const round = (x: number): Knot[] => [
    [x + 20, -30, -90],
    [x, -50, 180],
    [x - 20, -30, 90],
  ];
  return through([
    [0, 0, 0],
    ...round(24),
    [60, 0, 0],
    ...round(90),
    [125, 0, 0],
    ...round(width + overMm - 20),
    [width, 0, 0],
  ]);
}

/**
 * A hook at each side: the right one bulges past the end to x = 182.5, the left one begins at `leftMm`. The middle of
 * the bulge is the place nearest to the next repeat.
 */
function hooks(leftMm: number): Stroke {
  return {
    from: at(0, 0),
    segments: [
      lineTo(leftMm, 0),
      lineTo(leftMm, -60),
      lineTo(90, -60),
      lineTo(90, 0),
      lineTo(120, 0),
      lineTo(120, -50),
      lineTo(162.5, -50),
      arcTo(20, true, 162.5, -10),
      lineTo(140, -10),
      lineTo(140, 0),
      lineTo(180, 0),
    ],
  };
}

const hill = (startDeg: number, endDeg: number) =>
  through([
    [0, 0, startDeg],
    [55, -38, 0],
    [100, 6, 0],
    [145, -38, 0],
    [200, 0, endDeg],
  ]);

const runningDown = turned(swell.stroke, 90, at(0, 0));
const scallop: Stroke = { from: at(0, 0), segments: [arcTo(22, true, 44, 0)] };
const raised = endMoved(swell.stroke, 0, -3.2);
const climbing = sunk(kelp.stroke, -12);
const sinking = reversed(sunk(gullWing.stroke, 1.5));
/** The last fin falls across the first one of the next repeat. */
const wings = through([
  [0, 0, -60],
  [16, -40],
  [2, -66, 180],
  [-14, -50],
  [20, -14],
  [90, 0, 0],
  [134, -66, 0],
  [168, -46, 70],
  [180, 0, -60],
]);
const [firstFin, lastFin] = [part(wings, 0, 5), part(wings, 5)];

/** What two boxes have in common. */
function shared(a: Stroke, b: Stroke): Box {
  const [one, other] = [boxOf([a]), boxOf([b])];
  return box(
    Math.max(one.minX, other.minX),
    Math.max(one.minY, other.minY),
    Math.min(one.maxX, other.maxX),
    Math.min(one.maxY, other.maxY),
  );
}

const startsInside = through([
  [40, 0, 180],
  [10, -26, -90],
  [45, -50, 0],
  [100, -10, 0],
  [140, -46, 0],
  [176, 0, 0],
]);

const cases: Readonly<Record<string, Readonly<Record<string, Ends>>>> = {
  'opposite-edges': {
    'pass-edge-to-edge': { flavour: points, title: 'Net', stroke: net.stroke },
    'pass-reversed': { title: 'Hawser', stroke: reversed(hawser.stroke) },
    'pass-loop-a-little-over': { title: 'Loops', stroke: overhanging(0.8) },
    'fail-returns-to-its-start': {
      title: 'Hook',
      stroke: returning,
      known: { at: [returning.from, endOf(returning)], measured: 20 },
    },
    'fail-runs-down': {
      flavour: prefixed,
      title: 'Swell',
      stroke: runningDown,
      known: { at: [endOf(runningDown), runningDown.from], measured: 0 },
    },
    'fail-inset-and-colliding': {
      title: 'Loops',
      stroke: overhanging(14),
      known: { at: [at(180, 0)], measured: 14, severity: 'warning' },
    },
    'fail-overhang-that-keeps-clear': {
      flavour: inches,
      title: 'Kelp',
      stroke: kelp.stroke,
      known: { at: [endOf(kelp.stroke)], severity: 'info' },
    },
    'fail-starts-inside': {
      title: 'Crest',
      stroke: startsInside,
      known: { at: [startsInside.from], severity: 'warning' },
    },
  },
  'level-ends': {
    'pass-level': { flavour: used, title: 'Sail', stroke: sail.stroke },
    'pass-third-of-a-millimetre': { title: 'Swell', stroke: endMoved(swell.stroke, 0, 0.3) },
    'fail-raised-end': { title: 'Swell', stroke: raised, known: { at: [endOf(raised)], measured: 3.2 } },
    'fail-climbing': {
      flavour: entities,
      title: 'Kelp',
      stroke: climbing,
      known: { at: [endOf(climbing)], measured: 12 },
    },
    'fail-sinking-backwards': {
      title: 'Gull Wing',
      stroke: sinking,
      known: { at: [sinking.from], measured: 1.5 },
    },
  },
  'runs-left-to-right': {
    'pass-swell': { title: 'Swell', stroke: swell.stroke },
    'pass-loops-leftwards': { flavour: points, title: 'Pebble Beach', stroke: pebbleBeach.stroke },
    'fail-reversed-sail': {
      title: 'Sail',
      stroke: reversed(sail.stroke),
      known: { at: [endOf(sail.stroke)] },
    },
    'fail-reversed-crates': {
      flavour: inches,
      title: 'Crates',
      stroke: reversed(crates.stroke),
      known: { at: [endOf(crates.stroke)] },
    },
  },
  'smooth-join': {
    'pass-level-join': { title: 'Swell', stroke: swell.stroke },
    'pass-steep-join': { flavour: points, title: 'Hawser', stroke: hawser.stroke },
    'pass-turn-of-forty': { title: 'Hills', stroke: hill(-20, 20) },
    'fail-turn-of-ninety': {
      title: 'Hills',
      stroke: hill(-45, 45),
      known: { at: [at(200, 0), at(0, 0)], measured: 90 },
    },
    'fail-scallops': {
      title: 'Scallops',
      stroke: repeated(scallop, 5, 44),
      known: { at: [at(220, 0), at(0, 0)], measured: 180 },
    },
  },
  'repeat-collision': {
    'pass-overhang-that-keeps-clear': { flavour: prefixed, title: 'Kelp', stroke: kelp.stroke },
    'pass-curling-crests': { title: 'Breakers', stroke: breakers.stroke },
    'pass-two-millimetres': { title: 'Hooks', stroke: hooks(4.5) },
    // Its last loop lies about x = 174, the first one of the next repeat about 204, both 20 wide to either side: they
    // cross once where they are round, and once below on their way to the line.
    'fail-loop-over-the-next': {
      title: 'Loops',
      stroke: overhanging(14),
      known: { within: [box(184, -50, 194, -30), box(184, -30, 194, 0)], measured: 0 },
    },
    'fail-half-a-millimetre': {
      title: 'Hooks',
      stroke: hooks(3),
      known: { at: [at(182.5, -30)], measured: 0.5 },
    },
    'fail-ring-on-the-next-crest': {
      title: 'Pebbles',
      stroke: ringOverTheNext,
      // The half of the ring that is the next one's crest.
      known: {
        within: [box(80, -20, 120, 0)],
        measured: 0,
        says: 'lies on the next',
      },
    },
    'fail-wings-that-cross': {
      flavour: entities,
      title: 'Wings',
      stroke: wings,
      known: { within: [shared(lastFin, shifted(firstFin, 180, 0))], measured: 0 },
    },
  },
};

export const endCases: readonly Case[] = Object.entries(cases).flatMap(([rule, named]) =>
  Object.entries(named).map(([name, { flavour = plain, title, stroke, known }]) =>
    caseOf(rule, name, flavour, sketch(title, stroke), known),
  ),
);
