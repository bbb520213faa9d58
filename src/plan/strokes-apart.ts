/**
 * Takes the strokes out of the JSON text of a plan. Millions of points are no tree: read as one they would take ten
 * times their room. So every value of a key `strokes` is read into polylines straight from the bytes, and a short
 * stand-in that names them, `[[[3,0],[0,0]]]`, is left in the text for an ordinary reader. One walk over the bytes.
 */
import type { Polyline } from '../../shared/plane.js';
import { roomier } from '../geometry/growing.js';

export interface StrokesApart {
  /** JSON as it was, but for the strokes. */
  readonly rest: Uint8Array;
  /** By the number in the stand-in. */
  readonly strokes: readonly (readonly Polyline[])[];
}

/** Thrown inside, where what should be a list of strokes is none. */
class Damage extends Error {}

const [quote, backslash, colon, comma, open, close] = [0x22, 0x5c, 0x3a, 0x2c, 0x5b, 0x5d];
const key = new TextEncoder().encode('"strokes"');

/** Null where a value of `strokes` is no list of lists of two points or more. */
export function strokesApart(bytes: Uint8Array): StrokesApart | null {
  const kept: Uint8Array[] = [];
  const strokes: Polyline[][] = [];
  let from = 0;
  let at = 0;
  try {
    while (at < bytes.length) {
      if (bytes[at] !== quote) {
        at++;
        continue;
      }
      const begun = at;
      at = afterString(bytes, at);
      if (!isKey(bytes, begun, at)) continue;
      const after = afterSpace(bytes, at);
      if (bytes[after] !== colon) continue;
      const reader = new StrokesReader(bytes, afterSpace(bytes, after + 1));
      strokes.push(reader.strokes());
      kept.push(bytes.subarray(from, after + 1), standIn(strokes.length - 1));
      at = reader.at;
      from = at;
    }
  } catch (error) {
    if (error instanceof Damage) return null;
    throw error;
  }
  kept.push(bytes.subarray(from));
  return { rest: joined(kept), strokes };
}

function standIn(index: number): Uint8Array {
  return new TextEncoder().encode(`[[[${index},0],[0,0]]]`);
}

/** What the value that stands in for the strokes names, if it is one. */
export function strokesFor(value: unknown, { strokes }: StrokesApart): readonly Polyline[] | undefined {
  return strokes[(value as number[][][])[0][0][0]];
}

function isKey(bytes: Uint8Array, from: number, to: number): boolean {
  return to - from === key.length && key.every((byte, i) => bytes[from + i] === byte);
}

function afterString(bytes: Uint8Array, at: number): number {
  let i = at + 1;
  while (i < bytes.length && bytes[i] !== quote) i += bytes[i] === backslash ? 2 : 1;
  return i + 1;
}

function afterSpace(bytes: Uint8Array, at: number): number {
  let i = at;
  while (bytes[i] === 0x20 || bytes[i] === 0x0a || bytes[i] === 0x0d || bytes[i] === 0x09) i++;
  return i;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const out = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let n = 0;
  for (const part of parts) {
    out.set(part, n);
    n += part.length;
  }
  return out;
}

class StrokesReader {
  private line = new Float64Array(1024);

  constructor(
    private readonly bytes: Uint8Array,
    public at: number,
  ) {}

  strokes(): Polyline[] {
    const all: Polyline[] = [];
    this.list(() => {
      let n = 0;
      this.list(() => {
        if (n + 2 > this.line.length) this.line = roomier(this.line);
        this.expect(open);
        this.line[n++] = this.number();
        this.expect(comma);
        this.line[n++] = this.number();
        this.expect(close);
      });
      if (n < 4) throw new Damage();
      all.push(this.line.slice(0, n));
    });
    if (all.length === 0) throw new Damage();
    return all;
  }

  private list(item: () => void): void {
    this.expect(open);
    this.at = afterSpace(this.bytes, this.at);
    if (this.bytes[this.at] === close) {
      this.at++;
      return;
    }
    for (;;) {
      item();
      this.at = afterSpace(this.bytes, this.at);
      const sign = this.bytes[this.at++];
      if (sign === close) return;
      if (sign !== comma) throw new Damage();
    }
  }

  private expect(sign: number): void {
    this.at = afterSpace(this.bytes, this.at);
    if (this.bytes[this.at++] !== sign) throw new Damage();
  }

  /** Up to fifteen digits and no exponent, as they are written here, are worked out on the spot, and exactly. */
  private number(): number {
    const { bytes } = this;
    this.at = afterSpace(bytes, this.at);
    const begun = this.at;
    let i = begun;
    const isNegative = bytes[i] === 0x2d;
    if (isNegative) i++;
    let [digits, value, afterPoint, hasPoint] = [0, 0, 0, false];
    for (; i < bytes.length; i++) {
      const digit = bytes[i] - 0x30;
      if (digit >= 0 && digit <= 9) {
        value = 10 * value + digit;
        digits++;
        if (hasPoint) afterPoint++;
      } else if (bytes[i] === 0x2e && !hasPoint) hasPoint = true;
      else break;
    }
    const isPlain = digits > 0 && digits <= 15 && bytes[i] !== 0x65 && bytes[i] !== 0x45;
    if (isPlain && !(hasPoint && afterPoint === 0)) {
      this.at = i;
      return (isNegative ? -value : value) / 10 ** afterPoint;
    }
    return this.anyNumber(begun);
  }

  private anyNumber(begun: number): number {
    let end = begun;
    while (
      end < this.bytes.length &&
      end - begun < 400 &&
      /[-+.\deE]/.test(String.fromCharCode(this.bytes[end]))
    )
      end++;
    const text = String.fromCharCode(...this.bytes.subarray(begun, end));
    const value = /^-?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?$/.test(text) ? Number(text) : Number.NaN;
    if (!Number.isFinite(value)) throw new Damage();
    this.at = end;
    return value;
  }
}
