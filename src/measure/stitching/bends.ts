/**
 * How a line bends at a place: which way it turns, whether it goes on turning that way, and how far a bend reaches.
 * All are read over lengths of the line, so that how densely it is drawn does not matter.
 */
import { PlaceFinder, type WalkedLine } from './walked-line.js';

/** Of all turning, so much is the one way where a line goes on turning that way. */
const oneWayShare = 0.8;
/** Where the line turns back by more than this within half a stitch, it is past the bend. */
const turnsBackRad = Math.PI / 12;
/** A bend that turns by this much is measured over that much of it. */
const bendRad = 0.5 * Math.PI;
/** The bend's stretch is looked for in steps of this share of a stitch. */
const stretchStep = 1 / 64;

/** Whether the line turns left (-1) or right (1), read over a stretch to either side of a place. */
export class WayOfTurn {
  private readonly finders: PlaceFinder[];

  constructor(
    line: WalkedLine,
    private readonly legMm: number,
  ) {
    this.finders = Array.from({ length: 3 }, () => new PlaceFinder(line));
  }

  at(alongMm: number): number {
    const [a, b, c] = this.finders;
    a.goTo(alongMm - this.legMm);
    b.goTo(alongMm);
    c.goTo(alongMm + this.legMm);
    return Math.sign((b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x));
  }
}

/** Does the line go on turning the same way, on the whole, from one place to another? */
export function turnsOneWay(line: WalkedLine, fromMm: number, toMm: number): boolean {
  const { turn, turned } = turnBetween(line, fromMm, toMm);
  return Math.abs(turn) >= oneWayShare * turned;
}

/** By how much the line turns from one place to another, radians: left against right, and either way. */
function turnBetween(line: WalkedLine, fromMm: number, toMm: number): { turn: number; turned: number } {
  const { points, runMm } = line;
  let turn = 0;
  let turned = 0;
  for (let p = Math.max(1, firstFrom(runMm, fromMm)); p + 1 < runMm.length && runMm[p] <= toMm; p++) {
    const i = 2 * p;
    const ux = points[i] - points[i - 2];
    const uy = points[i + 1] - points[i - 1];
    const vx = points[i + 2] - points[i];
    const vy = points[i + 3] - points[i + 1];
    const here = Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy);
    turn += here;
    turned += Math.abs(here);
  }
  return { turn, turned };
}

/** Number of the first point at least so far along. */
function firstFrom(runMm: Float64Array, alongMm: number): number {
  let low = 0;
  let high = runMm.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (runMm[middle] < alongMm) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * How far the bend at a place reaches to either side, mm: up to where the line has turned by a quarter of a circle, or turns
 * back; at most half a stitch.
 */
export function bendMm(line: WalkedLine, alongMm: number, stitchMm: number): number {
  const stepMm = stretchStep * stitchMm;
  let most = 0;
  let atMm = stepMm;
  for (let mm = stepMm; mm <= stitchMm / 2; mm += stepMm) {
    const turn = Math.abs(turnBetween(line, alongMm - mm, alongMm + mm).turn);
    if (turn >= bendRad) return mm;
    if (turn < most - Math.max(turnsBackRad, most / 2)) return atMm;
    if (turn > most + turnsBackRad) [most, atMm] = [turn, mm];
  }
  return stitchMm / 2;
}
