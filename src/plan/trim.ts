/**
 * Trims a row to the field. The row is walked repeat by repeat; each step is cut by the border as Liang and Barsky do
 * (ACM Transactions on Graphics 3, 1984), the border's own coordinate taken over exactly. A step that only touches the
 * field is nothing; one that runs along the border is in it. Repeats wholly inside are copied. Linear in the points of
 * the repeats that meet the field.
 */
import type { Box, Polyline } from '../../shared/plane.js';
import { boundsOf } from '../geometry/polyline.js';

/**
 * The pieces of the row in the field that enter the top, in the order of the walk. `unit` is one repeat that starts on
 * the left; the next starts `repeatMm` to the right of it.
 */
export function trimmedRow(unit: Polyline, repeatMm: number, field: Box, top: Box): Polyline[] {
  const box = boundsOf([unit]);
  if (box.maxY < field.minY || box.minY > field.maxY) return [];
  const first = Math.ceil((field.minX - box.maxX) / repeatMm);
  const last = Math.floor((field.maxX - box.minX) / repeatMm);
  const isDownInside = box.minY >= field.minY && box.maxY <= field.maxY;
  const walk = new TrimmingWalk(field, top);
  for (let repeat = first; repeat <= last; repeat++) {
    const dx = repeat * repeatMm;
    const isInside = isDownInside && box.minX + dx >= field.minX && box.maxX + dx <= field.maxX;
    if (isInside) walk.copy(unit, dx);
    else for (let i = 0; i < unit.length; i += 2) walk.to(unit[i] + dx, unit[i + 1]);
  }
  return walk.pieces();
}

/** Steps shorter than this come of rounding where repeats meet, mm. */
const noStepMm = 1e-9;

class TrimmingWalk {
  private readonly done: Polyline[] = [];
  private line = new Float64Array(256);
  private n = 0;
  private enters = false;
  private x = Number.NaN;
  private y = Number.NaN;

  constructor(
    private readonly field: Box,
    private readonly top: Box,
  ) {}

  pieces(): Polyline[] {
    this.close();
    return this.done;
  }

  /** All of the unit lies in the field. */
  copy(unit: Polyline, dx: number): void {
    this.to(unit[0] + dx, unit[1]);
    if (this.n === 0) this.add(this.x, this.y);
    this.makeRoom(unit.length);
    for (let i = 2; i < unit.length; i += 2) {
      const x = unit[i] + dx;
      const y = unit[i + 1];
      if (!this.enters && runsThrough(this.top, this.x, this.y, x, y)) this.enters = true;
      this.line[this.n++] = x;
      this.line[this.n++] = y;
      this.x = x;
      this.y = y;
    }
  }

  to(x: number, y: number): void {
    const [fromX, fromY] = [this.x, this.y];
    const stepMm = Math.abs(x - fromX) + Math.abs(y - fromY);
    if (stepMm <= noStepMm) return;
    this.x = x;
    this.y = y;
    // The first point of all.
    if (!(stepMm > 0)) return;
    const inside = shareInside(this.field, fromX, fromY, x, y);
    if (inside === null) {
      this.close();
      return;
    }
    if (inside.from > 0) this.close();
    if (this.n === 0) this.add(inside.x0, inside.y0);
    this.add(inside.x1, inside.y1);
    if (!this.enters && runsThrough(this.top, fromX, fromY, x, y)) this.enters = true;
    if (inside.to < 1) this.close();
  }

  private add(x: number, y: number): void {
    this.makeRoom(2);
    this.line[this.n++] = x;
    this.line[this.n++] = y;
  }

  private makeRoom(numbers: number): void {
    if (this.n + numbers <= this.line.length) return;
    const roomier = new Float64Array(Math.max(2 * this.line.length, this.n + numbers));
    roomier.set(this.line.subarray(0, this.n));
    this.line = roomier;
  }

  private close(): void {
    if (this.n > 2 && this.enters) this.done.push(this.line.slice(0, this.n));
    this.n = 0;
    this.enters = false;
  }
}

/** Whether a step comes inside the box, not only along its border. */
function runsThrough(box: Box, ax: number, ay: number, bx: number, by: number): boolean {
  const inside = shareInside(box, ax, ay, bx, by);
  if (inside === null) return false;
  const [x, y] = [(inside.x0 + inside.x1) / 2, (inside.y0 + inside.y1) / 2];
  return x > box.minX && x < box.maxX && y > box.minY && y < box.maxY;
}

interface Inside {
  /** Shares of the step. */
  readonly from: number;
  readonly to: number;
  readonly x0: number;
  readonly y0: number;
  readonly x1: number;
  readonly y1: number;
}

/** The part of a step in the closed box, or null where that is no more than a point. */
export function shareInside(box: Box, ax: number, ay: number, bx: number, by: number): Inside | null {
  let from = 0;
  let to = 1;
  let [x0, y0, x1, y1] = [ax, ay, bx, by];
  const [dx, dy] = [bx - ax, by - ay];
  const sides = [
    { ahead: dx, room: box.minX - ax, upright: true, at: box.minX },
    { ahead: -dx, room: ax - box.maxX, upright: true, at: box.maxX },
    { ahead: dy, room: box.minY - ay, upright: false, at: box.minY },
    { ahead: -dy, room: ay - box.maxY, upright: false, at: box.maxY },
  ];
  for (const { ahead, room, upright, at } of sides) {
    if (ahead === 0) {
      if (room > 0) return null;
      continue;
    }
    const share = room / ahead;
    if (ahead > 0 && share > from) {
      from = share;
      x0 = upright ? at : ax + share * dx;
      y0 = upright ? ay + share * dy : at;
    } else if (ahead < 0 && share < to) {
      to = share;
      x1 = upright ? at : ax + share * dx;
      y1 = upright ? ay + share * dy : at;
    }
    if (from >= to) return null;
  }
  // The coordinate that is worked out along the step can leave the box by a rounding beside a corner.
  return {
    from,
    to,
    x0: within(x0, box.minX, box.maxX),
    y0: within(y0, box.minY, box.maxY),
    x1: within(x1, box.minX, box.maxX),
    y1: within(y1, box.minY, box.maxY),
  };
}

function within(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}
