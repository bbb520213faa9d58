/** Cases of the rules about the line itself: in one piece, drawn once, and drawn as a line. */
import type { Point } from '../../../shared/plane.js';
import { midpoint } from '../../../src/geometry/point.js';
import { boxOf } from '../drawing.js';
import { cut, halfwayOn, lengthOf, part, penOutline, shifted, startingLater, walkedAgain } from '../edits.js';
import { entities, filled, inches, nested, plain, points, prefixed, used } from '../flavours.js';
import { breakers } from '../motifs/breakers.js';
import { gullWing } from '../motifs/gull-wing.js';
import { hawser } from '../motifs/hawser.js';
import { kelp } from '../motifs/kelp.js';
import { net } from '../motifs/net.js';
import { ropeCoil } from '../motifs/rope-coil.js';
import { sail } from '../motifs/sail.js';
import { swell } from '../motifs/swell.js';
import { tideLines } from '../motifs/tide-lines.js';
import { through } from '../spline.js';
import { arcTo, at, endOf, joined, lineTo, reversed, type Stroke } from '../stroke.js';
import { type Case, caseOf, sketch } from './case.js';
import { comb, echoes, touchingLoops } from './sketches.js';

const outline = (stroke: Stroke, title: string, penMm: number) => sketch(title, penOutline(stroke, penMm));

const outlinedLine: readonly Case[] = [
  caseOf('outlined-line', 'pass-echo-lines', nested, sketch('Tide Lines', tideLines.stroke)),
  caseOf('outlined-line', 'pass-out-and-back', plain, sketch('Breakwater', comb(9, 3))),
  caseOf('outlined-line', 'pass-double-spiral', inches, sketch('Breakers', breakers.stroke)),
  caseOf('outlined-line', 'fail-pen-outline', plain, outline(swell.stroke, 'Swell', 1.2), {
    within: [boxOf([penOutline(swell.stroke, 1.2)])],
    measured: 1.2,
  }),
  caseOf('outlined-line', 'fail-filled-pen-outline', filled, outline(swell.stroke, 'Swell', 2), {
    within: [boxOf([penOutline(swell.stroke, 2)])],
    measured: 2,
  }),
  caseOf('outlined-line', 'fail-thin-pen-outline', used, outline(tideLines.stroke, 'Tide Lines', 0.8), {
    within: [boxOf([penOutline(tideLines.stroke, 0.8)])],
    measured: 0.8,
  }),
];

const [swellLeft, swellRight] = cut(swell.stroke, 4);
const wide = startingLater(swellRight, 12);
const [sailLeft, sailMiddle, sailRight] = cut(sail.stroke, 4, 12);
const laterMiddle = startingLater(sailMiddle, 6);
const laterRight = startingLater(sailRight, 9);

const ring: Stroke = {
  from: at(86, -50),
  segments: [arcTo(9, true, 104, -50), arcTo(9, true, 86, -50)],
};
const offRing = (end: Point) => Math.hypot(end.x - ring.from.x, end.y - ring.from.y);
const [nearerEnd] = [swell.stroke.from, endOf(swell.stroke)].sort((a, b) => offRing(a) - offRing(b));

const oneStroke: readonly Case[] = [
  caseOf('one-stroke', 'pass-one-piece', points, sketch('Kelp', kelp.stroke)),
  caseOf(
    'one-stroke',
    'pass-pieces-that-touch',
    plain,
    sketch('Sail', sailRight, reversed(sailLeft), sailMiddle),
  ),
  caseOf('one-stroke', 'fail-two-pieces', plain, sketch('Swell', swellLeft, wide), {
    at: [endOf(swellLeft), wide.from],
    measured: 12,
  }),
  caseOf('one-stroke', 'fail-three-pieces', prefixed, sketch('Sail', laterRight, laterMiddle, sailLeft), {
    at: [endOf(sailLeft), laterMiddle.from, endOf(sailMiddle), laterRight.from],
    measured: 9,
  }),
  caseOf(
    'one-stroke',
    'fail-buoy-apart',
    plain,
    sketch('Swell', swell.stroke, ring),
    // A ring has no end but the place where it was begun: as far from there as the nearer end of the swell.
    { at: [ring.from, nearerEnd], measured: offRing(nearerEnd) },
  ),
];

/** The pieces of a stroke, each after the first starting so much later. */
const gaping = (stroke: Stroke, places: readonly number[], gapsMm: readonly number[]) =>
  cut(stroke, ...places).map((piece, i) => (i === 0 ? piece : startingLater(piece, gapsMm[i - 1])));
const gapsOf = (pieces: readonly Stroke[]) =>
  pieces.slice(1).map((piece, i) => midpoint(endOf(pieces[i]), piece.from));

const oneGap = gaping(swell.stroke, [3], [0.3]);
const fourGaps = gaping(kelp.stroke, [5, 11, 18, 25], [0.2, 0.8, 0.4, 0.6]);
const reversedGap = gaping(gullWing.stroke, [7], [0.5]);

const nearGap: readonly Case[] = [
  caseOf('near-gap', 'pass-one-piece', used, sketch('Rope Coil', ropeCoil.stroke)),
  caseOf('near-gap', 'pass-pieces-that-touch', plain, sketch('Swell', swellRight, swellLeft)),
  caseOf('near-gap', 'pass-touching-loops', plain, sketch('Pebbles', touchingLoops)),
  caseOf('near-gap', 'fail-third-of-a-millimetre', plain, sketch('Swell', ...oneGap), {
    at: gapsOf(oneGap),
    measured: 0.3,
  }),
  caseOf('near-gap', 'fail-four-gaps', entities, sketch('Kelp', ...fourGaps), {
    at: gapsOf(fourGaps),
    measured: 0.8,
  }),
  caseOf(
    'near-gap',
    'fail-reversed-piece',
    inches,
    sketch('Gull Wing', reversed(reversedGap[1]), reversedGap[0]),
    { at: gapsOf(reversedGap), measured: 0.5 },
  ),
];

const twig: Stroke = { from: at(60, -64), segments: [lineTo(78, -88)] };
const [beforeTwig, afterTwig] = cut(swell.stroke, 2);
const twice = part(swell.stroke, 2, 4);

/** 20 mm of straight line, walked three times. */
const plank: Stroke = {
  from: at(0, 0),
  segments: [
    ...through([
      [0, 0, -30],
      [40, -30, 0],
    ]).segments,
    lineTo(60, -30),
    ...through([
      [60, -30, 0],
      [100, 0, -30],
      [150, -40],
      [200, 0, -30],
    ]).segments,
  ],
};

const repeatedLine: readonly Case[] = [
  caseOf('repeated-line', 'pass-crossings', points, sketch('Hawser', hawser.stroke)),
  caseOf('repeated-line', 'pass-knots', plain, sketch('Net', net.stroke)),
  caseOf('repeated-line', 'pass-touching-loops', plain, sketch('Pebbles', touchingLoops)),
  caseOf('repeated-line', 'pass-dense-echo-lines', plain, sketch('Sand', echoes(1.6))),
  // The 40 mm that are too much turn round in their middle, where the plank begins.
  caseOf('repeated-line', 'fail-stretch-three-times', plain, sketch('Plank', walkedAgain(plank, 1)), {
    at: [at(40, -30)],
    measured: 40,
  }),
  caseOf('repeated-line', 'fail-copy-on-top', plain, sketch('Swell', swell.stroke, reversed(twice)), {
    at: [halfwayOn(twice)],
    measured: lengthOf(twice),
    also: ['one-stroke'],
  }),
  caseOf(
    'repeated-line',
    'fail-copy-a-little-off',
    plain,
    sketch('Swell', swell.stroke, shifted(swell.stroke, 0.3, 0.2)),
    {
      at: [halfwayOn(shifted(swell.stroke, 0.3, 0.2))],
      measured: lengthOf(swell.stroke),
      also: ['near-gap'],
    },
  ),
  caseOf('repeated-line', 'fail-whole-line-twice', used, sketch('Sail', sail.stroke, sail.stroke), {
    at: [halfwayOn(sail.stroke)],
    measured: lengthOf(sail.stroke),
  }),
  caseOf(
    'repeated-line',
    'fail-twig',
    plain,
    sketch('Swell', joined(beforeTwig, twig, reversed(twig), afterTwig)),
    { at: [midpoint(twig.from, endOf(twig))], measured: lengthOf(twig) },
  ),
];

export const lineCases: readonly Case[] = [...outlinedLine, ...oneStroke, ...nearGap, ...repeatedLine];
