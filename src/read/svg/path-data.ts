/**
 * Path data: the grammar of SVG 2, section 9.3.9, read straight into the pen.
 *
 * Reading stops at the first error and keeps every segment before it (9.5.4). Why not a library's parser: those we
 * measured read `00` as two numbers everywhere and run numbers after a `z` into later ones, which would be a wrong
 * motif without a word; they also cannot say at which character reading stopped.
 */

import type { Pen } from '../intake/pen.js';
import { arcTo } from './arc.js';
import { NumberScanner } from './number-scanner.js';

/** How many numbers a command takes at a time, by its lower-case letter. */
const argumentCount: Readonly<Record<string, number>> = {
  m: 2,
  l: 2,
  h: 1,
  v: 1,
  c: 6,
  s: 4,
  q: 4,
  t: 2,
  a: 7,
};

/** Draws `data` with `pen`. Returns 0, or the character, counted from 1, at which the data breaks off. */
export function drawPathData(data: string, pen: Pen): number {
  if (data === 'none') return 0;
  return new PathReader(data, pen).read();
}

class PathReader {
  private readonly scan: NumberScanner;
  /** The arguments of the segment being read. */
  private readonly args = [0, 0, 0, 0, 0, 0, 0];
  /** The control point that a smooth curve of the same kind mirrors. */
  private controlX = 0;
  private controlY = 0;
  private controlOf = '';

  constructor(
    data: string,
    private readonly pen: Pen,
  ) {
    this.scan = new NumberScanner(data);
  }

  read(): number {
    const { scan } = this;
    scan.skipSpaces();
    let first = true;
    while (!scan.atEnd) {
      const letter = scan.text[scan.at];
      const kind = letter.toLowerCase();
      if (first && kind !== 'm') return this.stopped();
      first = false;
      if (kind === 'z') {
        scan.at++;
        this.pen.close();
        this.controlOf = '';
        scan.skipSpaces();
        continue;
      }
      if (argumentCount[kind] === undefined) return this.stopped();
      scan.at++;
      scan.skipSpaces();
      if (!this.readSegments(kind, letter === kind)) return this.stopped();
    }
    return 0;
  }

  private stopped(): number {
    this.pen.breakOff();
    return Math.min(this.scan.at + 1, this.scan.text.length);
  }

  /** All segments of one command; false where one of them is broken. */
  private readSegments(kind: string, relative: boolean): boolean {
    const { scan } = this;
    let drawn = kind;
    do {
      if (!this.readArguments(kind)) return false;
      this.draw(drawn, relative);
      // Further pairs after a move are lines.
      if (drawn === 'm') drawn = 'l';
      if (scan.skipSeparator()) {
        if (!scan.beforeNumber) return false;
      }
    } while (scan.beforeNumber);
    return true;
  }

  private readArguments(kind: string): boolean {
    const { scan, args } = this;
    const size = argumentCount[kind];
    for (let i = 0; i < size; i++) {
      if (i > 0) scan.skipSeparator();
      const value = kind === 'a' && (i === 3 || i === 4) ? scan.flag() : scan.number();
      if (Number.isNaN(value)) return false;
      args[i] = value;
    }
    return true;
  }

  private draw(kind: string, relative: boolean): void {
    const { pen, args } = this;
    const fromX = relative ? pen.x : 0;
    const fromY = relative ? pen.y : 0;
    switch (kind) {
      case 'm':
        pen.moveTo(fromX + args[0], fromY + args[1]);
        break;
      case 'l':
        pen.lineTo(fromX + args[0], fromY + args[1]);
        break;
      case 'h':
        pen.lineTo(fromX + args[0], pen.y);
        break;
      case 'v':
        pen.lineTo(pen.x, fromY + args[0]);
        break;
      case 'c':
        this.cubic(
          fromX + args[0],
          fromY + args[1],
          fromX + args[2],
          fromY + args[3],
          fromX + args[4],
          fromY + args[5],
        );
        return;
      case 's': {
        const [x1, y1] = this.mirrored('c');
        this.cubic(x1, y1, fromX + args[0], fromY + args[1], fromX + args[2], fromY + args[3]);
        return;
      }
      case 'q':
        this.quadratic(fromX + args[0], fromY + args[1], fromX + args[2], fromY + args[3]);
        return;
      case 't': {
        const [x1, y1] = this.mirrored('q');
        this.quadratic(x1, y1, fromX + args[0], fromY + args[1]);
        return;
      }
      default:
        arcTo(pen, args[0], args[1], args[2], args[3] === 1, args[4] === 1, fromX + args[5], fromY + args[6]);
    }
    this.controlOf = '';
  }

  private cubic(x1: number, y1: number, x2: number, y2: number, x: number, y: number): void {
    this.pen.cubicTo(x1, y1, x2, y2, x, y);
    this.controlX = x2;
    this.controlY = y2;
    this.controlOf = 'c';
  }

  private quadratic(x1: number, y1: number, x: number, y: number): void {
    this.pen.quadraticTo(x1, y1, x, y);
    this.controlX = x1;
    this.controlY = y1;
    this.controlOf = 'q';
  }

  /** The last curve's control point mirrored at the pen, or the pen's place where the last was no such curve. */
  private mirrored(curve: string): [number, number] {
    const { pen } = this;
    if (this.controlOf !== curve) return [pen.x, pen.y];
    return [2 * pen.x - this.controlX, 2 * pen.y - this.controlY];
  }
}
