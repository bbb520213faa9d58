/** Marks on the line: arrow heads along it, a triangle where a row starts, an open square where it ends. */
import type { Point, Polyline } from '../../shared/plane.js';
import type { Study } from '../../shared/study.js';
import { firstPoint, lastPoint, placeAlong, runningLengths } from '../geometry/polyline.js';
import type { Placement } from '../rows/layout.js';
import type { PlacedRow } from './lay-out.js';

/** From one arrow head to the next, mm; farther apart on lines so long that there would be more than `mostArrows`. */
const arrowEveryMm = 60;
const mostArrows = 20_000;
/** A stroke shorter than this needs none, mm. */
const shortMm = 10;
const arrowMm = 3.6;
const tries = [0, -1, 1, -2, 2, -3, 3];

/** The corners of each head. They stand where the line runs straightest near their place. */
export function arrowHeads(strokes: readonly Polyline[]): Point[][] {
  const runs = strokes.map(runningLengths);
  const lengthMm = runs.reduce((sum, run) => sum + run[run.length - 1], 0);
  const everyMm = Math.max(arrowEveryMm, lengthMm / mostArrows);
  return strokes.flatMap((line, i) => {
    const run = runs[i];
    const ownMm = run[run.length - 1];
    if (ownMm < shortMm) return [];
    const count = Math.max(1, Math.round(ownMm / everyMm));
    return Array.from({ length: count }, (_, k) => {
      const middleMm = ((k + 0.5) * ownMm) / count;
      const stepMm = ownMm / count / 12;
      const shafts = tries.map((step) => shaftAt(line, run, middleMm + step * stepMm));
      return headOn(shafts.reduce((best, each) => (each.lengthMm > best.lengthMm + 0.01 ? each : best)));
    });
  });
}

interface Shaft {
  readonly from: Point;
  readonly to: Point;
  readonly lengthMm: number;
}

function shaftAt(line: Polyline, run: Float64Array, alongMm: number): Shaft {
  const from = placeAlong(line, run, alongMm - arrowMm / 2);
  const to = placeAlong(line, run, alongMm + arrowMm / 2);
  return { from, to, lengthMm: Math.hypot(to.x - from.x, to.y - from.y) };
}

function headOn({ from, to, lengthMm }: Shaft): Point[] {
  const [ux, uy] = [(to.x - from.x) / (lengthMm || 1), (to.y - from.y) / (lengthMm || 1)];
  const half = arrowMm * 0.42;
  const tip = { x: from.x + arrowMm * ux, y: from.y + arrowMm * uy };
  return [
    tip,
    { x: from.x - half * uy, y: from.y + half * ux },
    { x: from.x + 0.25 * arrowMm * ux, y: from.y + 0.25 * arrowMm * uy },
    { x: from.x + half * uy, y: from.y - half * ux },
  ];
}

export interface EndMark {
  readonly kind: 'start' | 'end';
  readonly at: Point;
  /** Along the line, of length 1. */
  readonly dx: number;
  readonly dy: number;
}

/**
 * Where a row starts and ends, or, where its repeats do not join, each repeat. Of a motif in pieces there is no one start
 * and end.
 */
export function endMarks(study: Study, { repeats }: PlacedRow): EndMark[] {
  const { strokes, repeat, start, end, runsLeft, setup } = study;
  if (strokes.length !== 1) return [];
  const walked = runsLeft ? [...repeats].reverse() : repeats;
  const mark = (
    kind: EndMark['kind'],
    at: Point,
    { dx, dy }: { dx: number; dy: number },
    placed: Placement,
  ) => ({
    kind,
    at: { x: placed.signX * at.x + placed.dx, y: placed.signY * at.y + placed.dy },
    dx: placed.signX * dx,
    dy: placed.signY * dy,
  });
  const isApart = repeat.assumed || Math.abs(repeat.dy) > setup.joinToleranceMm;
  const starts = isApart ? walked : walked.slice(0, 1);
  const ends = isApart ? walked : walked.slice(-1);
  return [
    ...starts.map((placed) => mark('start', firstPoint(strokes[0]), start, placed)),
    ...ends.map((placed) => mark('end', lastPoint(strokes[0]), end, placed)),
  ];
}
