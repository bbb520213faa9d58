/**
 * Tight curves against every stitch laid one by one, on lines whose corners are known since they were drawn so: straight
 * legs, corners between long legs, bends of every radius, and zigzags whose legs are shorter than a stitch.
 */
import { expect, test } from 'vitest';
import type { Point, Polyline } from '../../shared/plane.js';
import { distance } from '../../src/geometry/point.js';
import { polylineOf } from '../../src/geometry/polyline.js';
import { tightCurvesOf } from '../../src/measure/stitching/tight-curves.js';
import { walkedLines } from '../../src/measure/stitching/walked-line.js';
import { randomFrom } from './lines.js';
import { type Drawn, turtle } from './turtle.js';

const stitchMm = 25.4 / 11;
const limitMm = 0.4;
/** Stitches begin a sixteenth of a stitch apart: where the line turns back much hangs on where, elsewhere little. */
const slack = (cutMm: number) => (cutMm > stitchMm / 2 ? 0.15 : 0.05);

interface Place extends Point {
  readonly alongMm: number;
  readonly isCorner: boolean;
}

function placesAlong({ points, corners }: Drawn): Place[] {
  const places: Place[] = [{ ...points[0], alongMm: 0, isCorner: false }];
  let runMm = 0;
  for (let p = 1; p < points.length; p++) {
    const [a, b] = [points[p - 1], points[p]];
    const mm = distance(a, b);
    const steps = Math.ceil(mm / 0.04);
    for (let k = 1; k <= steps; k++)
      places.push({
        x: a.x + (k / steps) * (b.x - a.x),
        y: a.y + (k / steps) * (b.y - a.y),
        alongMm: runMm + (k / steps) * mm,
        isCorner: k === steps && corners.has(p),
      });
    runMm += mm;
  }
  return places;
}

/** What each stitch cuts off, by the definition: of every stretch of line on one side of it the farthest place. */
function cutsOf(places: readonly Place[]): { at: Place; cutMm: number }[] {
  const cuts: { at: Place; cutMm: number }[] = [];
  for (let from = 0; from + 1 < places.length; from++) {
    const start = places[from];
    let to = from + 1;
    const isWhole = () => distance(start, places[to]) >= stitchMm;
    while (
      to + 1 < places.length &&
      !places[to].isCorner &&
      !isWhole() &&
      places[to].alongMm < start.alongMm + 4 * stitchMm
    )
      to++;
    const end = places[to];
    if (!isWhole() && end.alongMm - start.alongMm < stitchMm) continue;
    const ux = end.x - start.x;
    const uy = end.y - start.y;
    const mm = Math.sqrt(ux * ux + uy * uy);
    let at = start;
    let cutMm = 0;
    let was = 0;
    for (let k = from + 1; k < to; k++) {
      const vx = places[k].x - start.x;
      const vy = places[k].y - start.y;
      const offMm = (ux * vy - uy * vx) / mm;
      const overMm = (ux * vx + uy * vy) / mm;
      const beyondMm = Math.max(-overMm, 0, overMm - mm);
      // Over the stitch, not past one of its ends, it comes to the other side.
      if (Math.sign(offMm) !== was && beyondMm === 0) {
        if (cutMm > limitMm) cuts.push({ at, cutMm });
        at = start;
        cutMm = 0;
      }
      was = Math.sign(offMm);
      const awayMm = Math.sqrt(offMm * offMm + beyondMm * beyondMm);
      if (awayMm <= cutMm) continue;
      at = places[k];
      cutMm = awayMm;
    }
    if (cutMm > limitMm) cuts.push({ at, cutMm });
  }
  return cuts;
}

function tightCurves(line: Polyline) {
  return tightCurvesOf(walkedLines([line], stitchMm), stitchMm, limitMm).places;
}

test.each([64, 65, 66, 67, 68, 69])(
  'every stitch that cuts off too much is one of a curve told, which has its worst, and there are no others: lines of seed %d',
  (seed) => {
    const random = randomFrom(seed);
    let found = 0;
    for (let round = 0; round < 5; round++) {
      const drawn = turtle(random, 7, 1, seed > 67);
      const curves = tightCurves(polylineOf(drawn.points));
      const cuts = cutsOf(placesAlong(drawn));
      const isOver = ({ cutMm }: { readonly cutMm: number }) => cutMm > limitMm + 0.05;
      const worst = (near: readonly { readonly cutMm: number }[]) =>
        near.reduce((most, { cutMm }) => Math.max(most, cutMm), 0);
      const untold = cuts.filter((cut) => {
        const near = curves.filter(({ at }) => distance(at, cut.at) < 1.5 * stitchMm);
        return isOver(cut) && worst(near) < cut.cutMm - slack(cut.cutMm);
      });
      expect(untold).toEqual([]);
      const unfounded = curves.filter((curve) => {
        const near = cuts.filter(({ at }) => distance(at, curve.at) < 0.2);
        return isOver(curve) && worst(near) < curve.cutMm - slack(curve.cutMm);
      });
      expect(unfounded).toEqual([]);
      found += curves.length;
    }
    expect(found).toBeGreaterThan(20);
  },
);
