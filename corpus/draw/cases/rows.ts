/** Cases of the rules about rows. */
import type { Flavour } from '../flavours.js';
import { inches, plain, points, polyline } from '../flavours.js';
import { net } from '../motifs/net.js';
import { swell } from '../motifs/swell.js';
import { through } from '../spline.js';
import { arcTo, at, joined, lineTo, polygonal, type Stroke } from '../stroke.js';
import { box, type Case, caseOf, type Known, sketch } from './case.js';

interface Rowed {
  readonly flavour?: Flavour;
  readonly title: string;
  readonly stroke: Stroke;
  readonly known?: Known;
}

/** A level line, 200 from edge to edge, that runs once around a ring standing on it. */
const buoy = (radiusMm: number): Stroke => ({
  from: at(0, 0),
  segments: [
    lineTo(100, 0),
    arcTo(radiusMm, false, 100, -2 * radiusMm),
    arcTo(radiusMm, false, 100, 0),
    lineTo(200, 0),
  ],
});

/** Blades of grass that lean to the right over a level line, so that each tip hangs over the line itself. */
const marram = (highMm: number): Stroke =>
  polygonal([
    [0, 0],
    ...[20, 80, 140].flatMap((x) => [[x, 0] as const, [x + 30, -highMm] as const, [x + 12, 0] as const]),
    [200, 0],
  ]);

/** The turning points of a frill, `deepMm` to and fro, along a wave that is much taller. */
const frill = (count: number, tallMm: number, deepMm: number): (readonly [number, number])[] =>
  Array.from({ length: 2 * count + 1 }, (_, i) => {
    const x = (i * 220) / (2 * count);
    const aside = i === 0 || i === 2 * count ? 0 : ((i % 2) - 0.5) * deepMm;
    return [x, (-tallMm / 2) * (1 - Math.cos((2 * Math.PI * x) / 220)) - aside];
  });

const sawtooth = polygonal([
  [0, 0],
  [50, -30],
  [150, 30],
  [200, 0],
]);

/** Bars of 60 by `highMm`, up and down from a middle line. */
const battlement = (highMm: number): Stroke =>
  joined(
    polygonal([
      [0, 0],
      [30, 0],
      [30, -highMm],
      [90, -highMm],
      [90, highMm],
      [150, highMm],
      [150, 0],
      [180, 0],
    ]),
  );

// Where nothing but a ring stands on a level line, the rings of the row below come up to the clearance of 3 mm, and
// midway between rings the circle between two such lines is as wide as they are apart: twice the radius and 3 mm.
/** Where the middle of that circle may lie: halfway between the lines, and clear of the rings of the row below. */
function clearOf(radiusMm: number) {
  const halfMm = radiusMm + 1.5;
  const asideMm = Math.sqrt((radiusMm + halfMm) ** 2 - 1.5 ** 2);
  return box(100 + asideMm, halfMm, 300 - asideMm, halfMm);
}

const cases: Readonly<Record<string, Readonly<Record<string, Rowed>>>> = {
  'row-nesting': {
    'pass-net': { title: 'Net', stroke: net.stroke },
    'pass-sawtooth': { flavour: polyline, title: 'Sawtooth', stroke: sawtooth },
    'pass-one-buoy': { flavour: inches, title: 'Buoy', stroke: buoy(24) },
    'fail-frill': {
      title: 'Frill',
      stroke: polygonal(frill(20, 80, 42)),
      known: { at: [], says: 'leave a band open' },
    },
    'fail-ripples-on-a-swell': {
      flavour: points,
      title: 'Ripples',
      stroke: through(frill(16, 100, 36)),
      known: { at: [], says: 'leave a band open' },
    },
  },
  'row-collision': {
    'pass-swell': { title: 'Swell', stroke: swell.stroke },
    'pass-tips-a-little-over-the-clearance': { flavour: inches, title: 'Marram', stroke: marram(86.9) },
    'fail-tips-that-nearly-touch': {
      title: 'Marram',
      stroke: marram(88.5),
      known: { measured: 1.5, at: [at(50, 0)] },
    },
    'fail-tips-that-cross': {
      flavour: polyline,
      title: 'Marram',
      stroke: marram(104),
      // A tip hangs 14 over the line of the row below: each of its two edges crosses that line.
      known: {
        within: [box(20 + (30 * 90) / 104, 0, 140 + 12 + (18 * 90) / 104, 0)],
        measured: 0,
      },
    },
    'fail-battlement': {
      flavour: points,
      title: 'Battlement',
      stroke: battlement(44),
      // The bottom of one bar is above the top of the next only where both have a corner.
      known: { within: [box(90, 44, 90, 46)], measured: 2 },
    },
  },
  'open-area': {
    'pass-small-buoy': { title: 'Buoy', stroke: buoy(15) },
    'pass-buoy-just-within': { flavour: inches, title: 'Buoy', stroke: buoy(23.8) },
    'fail-large-buoy': { title: 'Buoy', stroke: buoy(26), known: { within: [clearOf(26)], measured: 55 } },
    'fail-buoy-just-beyond': {
      flavour: points,
      title: 'Buoy',
      stroke: buoy(24.2),
      known: { within: [clearOf(24.2)], measured: 51.4 },
    },
  },
};

export const rowCases: readonly Case[] = Object.entries(cases).flatMap(([rule, named]) =>
  Object.entries(named).map(([name, { flavour = plain, title, stroke, known }]) =>
    caseOf(rule, name, flavour, sketch(title, stroke), known),
  ),
);

/** What these cases are judged under. */
export const rowSettings = {
  'row-collision': { spacing: '90mm' },
  'open-area': { batting: '2in' },
} as const;
