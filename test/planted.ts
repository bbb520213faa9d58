/**
 * Defects planted one at a time into a sound motif: what a check must find, where and how much.
 *
 * Sound means one stroke from edge to edge, level and smooth at the join. Each defect changes only the stretch it
 * needs, at a place where the line runs alone, so that the numbers are known beforehand.
 */
import type { Motif } from '../shared/motif.js';
import type { Point, Polyline } from '../shared/plane.js';
import { distance } from '../src/geometry/point.js';
import {
  boundsOf,
  chained,
  firstPoint,
  lastPoint,
  lengthOf,
  moved,
  placeAlong,
  pointsOf,
  polylineOf,
  reversed,
  runningLengths,
  stretchOf,
} from '../src/geometry/polyline.js';
import { motifOf } from '../src/size/motif-of.js';
import { bufferOutline, walkedOutline } from './pen-outline.js';

export interface Planted {
  readonly name: string;
  readonly motif: Motif;
  /** The rule that must fire, or null where nothing may. */
  readonly rule: string | null;
  /** Each of these is found, and nothing elsewhere: dots (lines of one point) or stretches, in the planted motif. */
  readonly where: readonly Polyline[];
  readonly measured: number | null;
}

interface Defect {
  readonly strokes: readonly Polyline[];
  readonly where: readonly Polyline[];
  readonly measured: number | null;
  readonly rule: string | null;
}

/** Width of the pen whose outline is planted, mm. */
const penMm = 1;
const insetMm = 8;
const liftMm = 6;

/** The motif with every kind of defect, one each. */
export function planted(motif: Motif): Planted[] {
  if (motif.strokes.length !== 1) throw new Error(`${motif.name} is not one stroke`);
  const line = new Line(motif.strokes[0]);
  const defects: Record<string, Defect> = {
    'a cut without a gap': gap(line, 0),
    'a gap of 0.3 mm': gap(line, 0.3),
    'a gap of 5 mm': gap(line, 5),
    'an exact duplicate': duplicate(line),
    'a duplicate of a piece, backwards': duplicatePiece(line),
    'a 20 mm retrace': retrace(line, 20),
    'a raised end': raisedEnd(line),
    'an inset start': insetStart(line),
    'a reversed line': {
      strokes: [reversed(line.points)],
      rule: 'runs-left-to-right',
      where: [dot(lastPoint(line.points))],
      measured: null,
    },
    'reversed and shuffled pieces that touch': shuffled(line, 0),
    'reversed and shuffled pieces 0.3 mm apart': shuffled(line, 0.3),
    'a stray dot': strayDot(line),
    'a pen outline, merged': outline(bufferOutline(line.points, penMm)),
    'a pen outline, walked': outline([walkedOutline(line.points, penMm)]),
    'a 90 degree join': cornerAtJoin(line),
  };
  return Object.entries(defects).map(([name, { strokes, where, measured, rule }]) => {
    const { minX, minY } = boundsOf(strokes);
    return {
      name,
      rule,
      measured,
      where: where.map((stretch) => moved(stretch, -minX, -minY)),
      motif: motifOf(strokes, { name: motif.name, flattenMm: motif.flattenMm }),
    };
  });
}

/** A polyline with its lengths at hand. */
class Line {
  readonly run: Float64Array;
  readonly length: number;

  constructor(readonly points: Polyline) {
    this.run = runningLengths(points);
    this.length = this.run[this.run.length - 1];
  }

  at(alongMm: number): Point {
    return placeAlong(this.points, this.run, alongMm);
  }

  stretch(fromMm: number, toMm: number): Polyline {
    return stretchOf(this.points, this.run, fromMm, toMm);
  }

  /** Unit vector along the line over the millimetre round this place. */
  direction(alongMm: number): Point {
    const a = this.at(alongMm - 0.5);
    const b = this.at(alongMm + 0.5);
    const length = distance(a, b);
    return { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
  }

  /** The place between two shares of the length where the line runs straightest and farthest from the rest of it. */
  quietPlace(fromShare: number, toShare: number): number {
    const others = Array.from({ length: Math.ceil(this.length) }, (_, mm) => ({ mm, at: this.at(mm) }));
    let best = 0;
    let bestScore = -1;
    for (let along = fromShare * this.length; along <= toShare * this.length; along += 2) {
      const here = this.at(along);
      let clear = 6;
      for (const { mm, at } of others) {
        if (Math.abs(mm - along) > 15) clear = Math.min(clear, distance(here, at));
      }
      const score = clear * (distance(this.at(along - 5), this.at(along + 5)) / 10) ** 2;
      if (score > bestScore) [best, bestScore] = [along, score];
    }
    return best;
  }
}

function gap(line: Line, gapMm: number): Defect {
  const along = line.quietPlace(0.3, 0.7);
  const strokes = [line.stretch(0, along - gapMm / 2), line.stretch(along + gapMm / 2, line.length)];
  return {
    strokes,
    rule: gapMm === 0 ? null : gapMm <= 1 ? 'near-gap' : 'one-stroke',
    // A gap that may be joined is told where it is, a wide one where the machine stops and starts again.
    where:
      gapMm === 0
        ? []
        : gapMm <= 1
          ? [dot(line.at(along))]
          : [dot(lastPoint(strokes[0])), dot(firstPoint(strokes[1]))],
    measured: gapMm === 0 ? null : distance(lastPoint(strokes[0]), firstPoint(strokes[1])),
  };
}

function duplicate({ points, length }: Line): Defect {
  return { strokes: [points, points.slice()], rule: 'repeated-line', where: [points], measured: length };
}

function duplicatePiece(line: Line): Defect {
  const cuts = [0, line.quietPlace(0.2, 0.4), line.quietPlace(0.6, 0.8), line.length];
  const pieces = cuts.slice(1).map((to, i) => line.stretch(cuts[i], to));
  const copy = reversed(pieces[1]);
  return { strokes: [...pieces, copy], rule: 'repeated-line', where: [copy], measured: lengthOf(copy) };
}

/** On, back and on again: the stretch is stitched three times, so twice over what is needed. */
function retrace(line: Line, lengthMm: number): Defect {
  const along = line.quietPlace(0.3, 0.7);
  const stretch = line.stretch(along, along + lengthMm);
  const stroke = chained([
    line.stretch(0, along + lengthMm),
    reversed(stretch),
    line.stretch(along, line.length),
  ]);
  return { strokes: [stroke], rule: 'repeated-line', where: [stretch], measured: 2 * lengthMm };
}

/** The last quarter climbs, gently at both its ends. */
function raisedEnd({ points, run, length }: Line): Defect {
  const stroke = points.slice();
  run.forEach((along, i) => {
    const share = Math.max(0, (along / length - 0.75) / 0.25);
    stroke[2 * i + 1] -= liftMm * share * share * (3 - 2 * share);
  });
  return { strokes: [stroke], rule: 'level-ends', where: [dot(lastPoint(stroke))], measured: liftMm };
}

/** The first stretch starts farther in, level with where it started, and hooks back towards the edge. */
function insetStart(line: Line): Defect {
  const taken = 15;
  const { x, y } = line.at(0);
  const start = { x: x + insetMm, y };
  const up = line.at(taken).y < y ? 1 : -1;
  const hook = cubic(start, { x: -14, y: 7 * up }, line.at(taken), line.direction(taken), 10);
  const stroke = chained([hook, line.stretch(taken, line.length)]);
  const { minX, maxX } = boundsOf([stroke]);
  const end = lastPoint(stroke);
  const insets = [start.x - minX, maxX - end.x];
  return {
    strokes: [stroke],
    rule: 'opposite-edges',
    // The motif may overhang its other end, and soundly.
    where: [dot(start), ...(insets[1] > 1 ? [dot(end)] : [])],
    measured: Math.max(...insets),
  };
}

/** Five pieces, some backwards, in no order. */
function shuffled(line: Line, gapMm: number): Defect {
  const cuts = [0.2, 0.4, 0.6, 0.8].map((share) => line.quietPlace(share - 0.06, share + 0.06));
  const from = [0, ...cuts.map((cut) => cut + gapMm / 2)];
  const to = [...cuts.map((cut) => cut - gapMm / 2), line.length];
  const pieces = from.map((start, i) => line.stretch(start, to[i]));
  return {
    strokes: [pieces[3], reversed(pieces[0]), pieces[4], reversed(pieces[2]), reversed(pieces[1])],
    rule: gapMm === 0 ? null : 'near-gap',
    where: gapMm === 0 ? [] : cuts.map((cut) => dot(line.at(cut))),
    measured: gapMm === 0 ? null : gapMm,
  };
}

/** A ring 0.3 mm across, where there is most room for it. */
function strayDot({ points }: Line): Defect {
  const box = boundsOf([points]);
  let centre = { x: 0, y: 0 };
  let most = -1;
  for (let i = 1; i < 40; i++) {
    for (let j = 1; j < 20; j++) {
      const spot = {
        x: box.minX + (i / 40) * (box.maxX - box.minX),
        y: box.minY + (j / 20) * (box.maxY - box.minY),
      };
      let room = Infinity;
      for (const place of pointsOf(points)) room = Math.min(room, distance(spot, place));
      if (room > most) [centre, most] = [spot, room];
    }
  }
  const ring = polylineOf(
    Array.from({ length: 9 }, (_, i) => ({
      x: centre.x + 0.15 * Math.cos((i % 8) * (Math.PI / 4)),
      y: centre.y + 0.15 * Math.sin((i % 8) * (Math.PI / 4)),
    })),
  );
  return { strokes: [points, ring], rule: 'stray-artwork', where: [dot(centre)], measured: 1 };
}

function outline(strokes: readonly Polyline[]): Defect {
  return { strokes, rule: 'outlined-line', where: strokes, measured: penMm };
}

/** The line arrives straight down at its end, and leaves straight to the right at its start. */
function cornerAtJoin(line: Line): Defect {
  const taken = 15;
  const straight = 4;
  const [start, end] = [line.at(0), line.at(line.length)];
  const lead = { x: start.x + straight, y: start.y };
  const drop = { x: end.x, y: end.y - straight };
  const first = cubic(lead, { x: 4, y: 0 }, line.at(taken), line.direction(taken), 4);
  const last = cubic(
    line.at(line.length - taken),
    scaledBy(line.direction(line.length - taken), 6),
    drop,
    { x: 0, y: 1 },
    6,
  );
  const stroke = chained([
    polylineOf([start, lead]),
    first,
    line.stretch(taken, line.length - taken),
    last,
    polylineOf([drop, end]),
  ]);
  return { strokes: [stroke], rule: 'smooth-join', where: [dot(start), dot(end)], measured: 90 };
}

/** A cubic Bézier curve that leaves `from` along `leave` and comes into `to` along `arrive`, a unit vector. */
function cubic(from: Point, leave: Point, to: Point, arrive: Point, reach: number): Polyline {
  const a = { x: from.x + leave.x, y: from.y + leave.y };
  const b = { x: to.x - reach * arrive.x, y: to.y - reach * arrive.y };
  const steps = 60;
  return polylineOf(
    Array.from({ length: steps + 1 }, (_, i) => {
      const t = i / steps;
      const [p, q, r, s] = [(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3];
      return { x: p * from.x + q * a.x + r * b.x + s * to.x, y: p * from.y + q * a.y + r * b.y + s * to.y };
    }),
  );
}

function scaledBy({ x, y }: Point, factor: number): Point {
  return { x: factor * x, y: factor * y };
}

function dot(at: Point): Polyline {
  return polylineOf([at]);
}
