/**
 * The pen: takes moves, lines and curves in user units and lays them down as subpaths in millimetres. One pen
 * serves a whole file, so its buffers are made once.
 */

import { grouped } from '../../../shared/grouped.js';
import type { Point } from '../../../shared/plane.js';
import { Refusal } from '../../../shared/refusal.js';
import { Op, opSize, type Subpath } from '../../../shared/subpath.js';
import { roomier } from '../../geometry/growing.js';
import { identity, type Matrix } from '../../geometry/matrix.js';
import { mapCoords } from '../../geometry/subpath.js';

/** What one shape came to. */
export interface Drawn {
  readonly lines: readonly Subpath[];
  /** Subpaths of one point. */
  readonly dots: readonly Point[];
  /** The last point read where the data breaks off. */
  readonly brokenAt: Point | null;
}

/** The numbers of short lines share arrays of this length: an array buffer each takes several times what they do. */
const sharedLength = 8192;
const mostShared = 64;

export class Pen {
  /** Where the pen stands, user units. */
  x = 0;
  y = 0;
  private startX = 0;
  private startY = 0;
  private ops = new Uint8Array(32);
  private coords = new Float64Array(64);
  private opCount = 0;
  private coordCount = 0;
  private ctm: Matrix = identity;
  private lines: Subpath[] = [];
  private dots: Point[] = [];
  private stray: Point | null = null;
  private brokenAt: Point | null = null;
  private segments = 0;
  private drawn = 0;
  private readonly shortOps = new Map<number, Uint8Array>();
  private shared = new Float64Array(0);
  private sharedUsed = 0;

  /** `most` bounds what is drawn in all; `file` is named in the Refusal. */
  constructor(
    private readonly most: { readonly points: number; readonly lines: number },
    private readonly file: string,
  ) {}

  /** Begins a shape whose user units `ctm` maps to millimetres. */
  begin(ctm: Matrix): void {
    this.ctm = ctm;
    this.lines = [];
    this.dots = [];
    this.stray = this.brokenAt = null;
    this.opCount = this.coordCount = 0;
    this.x = this.y = this.startX = this.startY = 0;
  }

  end(): Drawn {
    this.finish(false);
    const { lines, dots, stray, brokenAt } = this;
    // A move alone draws nothing beside real lines, but a path that is nothing else was meant as a dot.
    if (stray && lines.length === 0 && dots.length === 0) dots.push(stray);
    return { lines, dots, brokenAt: lines.length + dots.length > 0 ? brokenAt : null };
  }

  /** The data cannot be read beyond the place where the pen stands. */
  breakOff(): void {
    this.brokenAt = this.placeOf(this.x, this.y);
  }

  moveTo(x: number, y: number): void {
    this.finish(false);
    this.x = this.startX = this.coords[0] = x;
    this.y = this.startY = this.coords[1] = y;
    this.coordCount = 2;
  }

  lineTo(x: number, y: number): void {
    const at = this.room(Op.line);
    this.coords[at] = this.x = x;
    this.coords[at + 1] = this.y = y;
  }

  quadraticTo(x1: number, y1: number, x: number, y: number): void {
    const at = this.room(Op.quadratic);
    const { coords } = this;
    coords[at] = x1;
    coords[at + 1] = y1;
    coords[at + 2] = this.x = x;
    coords[at + 3] = this.y = y;
  }

  cubicTo(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void {
    const at = this.room(Op.cubic);
    const { coords } = this;
    coords[at] = x1;
    coords[at + 1] = y1;
    coords[at + 2] = x2;
    coords[at + 3] = y2;
    coords[at + 4] = this.x = x;
    coords[at + 5] = this.y = y;
  }

  /** An arc about (cx, cy) with conjugate half axes u and v, from angle `start` over `sweep`, ending at (x, y). */
  arc(
    cx: number,
    cy: number,
    ux: number,
    uy: number,
    vx: number,
    vy: number,
    start: number,
    sweep: number,
    x: number,
    y: number,
  ): void {
    const at = this.room(Op.arc);
    const { coords } = this;
    coords[at] = cx;
    coords[at + 1] = cy;
    coords[at + 2] = ux;
    coords[at + 3] = uy;
    coords[at + 4] = vx;
    coords[at + 5] = vy;
    coords[at + 6] = start;
    coords[at + 7] = sweep;
    coords[at + 8] = this.x = x;
    coords[at + 9] = this.y = y;
  }

  close(): void {
    if (this.coordCount === 0) return;
    if (this.x !== this.startX || this.y !== this.startY) this.lineTo(this.startX, this.startY);
    this.finish(true);
  }

  /** Makes room for one segment, beginning a subpath at the last start where none is open; returns its index. */
  private room(op: number): number {
    if (this.coordCount === 0) {
      this.coords[0] = this.x;
      this.coords[1] = this.y;
      this.coordCount = 2;
    }
    if (++this.segments > this.most.points) throw this.tooMany('points', this.most.points);
    if (this.opCount === this.ops.length) this.ops = roomier(this.ops);
    const at = this.coordCount;
    this.coordCount += opSize[op];
    if (this.coordCount > this.coords.length) this.coords = roomier(this.coords);
    this.ops[this.opCount++] = op;
    return at;
  }

  private finish(closed: boolean): void {
    const { opCount, coordCount } = this;
    if (coordCount === 0) return;
    this.opCount = this.coordCount = 0;
    if (this.isOnePoint(coordCount)) {
      const place = this.placeOf(this.coords[0], this.coords[1]);
      if (opCount > 0 || closed) this.dots.push(place);
      else this.stray ??= place;
      return;
    }
    if (++this.drawn > this.most.lines) throw this.tooMany('separate lines', this.most.lines);
    const coords = this.arrayOf(coordCount);
    mapCoords(this.ops, opCount, this.coords, this.ctm, coords);
    this.lines.push({ ops: this.opsOf(opCount), coords, closed });
  }

  private tooMany(what: string, most: number): Refusal {
    return new Refusal(`${this.file}: the drawing has more than ${grouped(most)} ${what}, the limit.`);
  }

  private arrayOf(length: number): Float64Array {
    if (length > mostShared) return new Float64Array(length);
    if (this.sharedUsed + length > this.shared.length) {
      this.shared = new Float64Array(sharedLength);
      this.sharedUsed = 0;
    }
    const from = this.sharedUsed;
    this.sharedUsed += length;
    return this.shared.subarray(from, this.sharedUsed);
  }

  /** The codes of the subpath just drawn. Those of short ones are shared: a million straight lines need them once. */
  private opsOf(opCount: number): Uint8Array {
    if (opCount > 8) return this.ops.slice(0, opCount);
    let key = 1;
    for (let n = 0; n < opCount; n++) key = 4 * key + this.ops[n];
    let ops = this.shortOps.get(key);
    if (!ops) {
      ops = this.ops.slice(0, opCount);
      this.shortOps.set(key, ops);
    }
    return ops;
  }

  private placeOf(x: number, y: number): Point {
    const [a, b, c, d, e, f] = this.ctm;
    return { x: a * x + c * y + e, y: b * x + d * y + f };
  }

  private isOnePoint(coordCount: number): boolean {
    const { coords } = this;
    for (let i = 2; i < coordCount; i += 2) {
      if (coords[i] !== coords[0] || coords[i + 1] !== coords[1]) return false;
    }
    return true;
  }
}
