/**
 * PNG (W3C Portable Network Graphics, third edition) to brightness, row by row: all colour types, depths, transparency
 * and interlacing. Unpacked by the platform's own inflate (`DecompressionStream`), in a browser as in Node, so that no
 * more than a row stands in memory beside the result, and a file that unpacks to more than its pixels is stopped.
 *
 * Check sums are not looked at: a picture with a wrong one is seen all the same.
 */
import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import { greyOf, mostPixels, type Picture, statedDpi } from './picture.js';

interface Head {
  readonly width: number;
  readonly height: number;
  readonly depth: number;
  readonly colour: number;
  readonly interlaced: boolean;
  readonly palette: Uint8Array | null;
  readonly transparent: Uint8Array | null;
}

const channelsOf: Readonly<Record<number, number>> = { 0: 1, 2: 3, 3: 1, 4: 2, 6: 4 };
const depthsOf: Readonly<Record<number, readonly number[]>> = {
  0: [1, 2, 4, 8, 16],
  2: [8, 16],
  3: [1, 2, 4, 8],
  4: [8, 16],
  6: [8, 16],
};

/** Start and step across and down of each pass. */
const adam7 = [
  [0, 0, 8, 8],
  [4, 0, 8, 8],
  [0, 4, 4, 8],
  [2, 0, 4, 4],
  [0, 2, 2, 4],
  [1, 0, 2, 2],
  [0, 1, 1, 2],
] as const;

export async function readPng(bytes: Uint8Array, file: string): Promise<Picture> {
  const broken = () =>
    new Refusal(`${file} is a PNG picture that breaks off or is damaged: save or scan it again.`);
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const parts: Uint8Array[] = [];
  let head = null as Head | null;
  let dpi: Picture['dpi'] = null;
  for (let at = 8; at + 12 <= bytes.length; ) {
    const length = view.getUint32(at);
    const name = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    const data = bytes.subarray(at + 8, at + 8 + length);
    if (name === 'IHDR' && length === 13) head = headOf(data, file, broken);
    else if (name === 'PLTE' && head) head = { ...head, palette: data };
    else if (name === 'tRNS' && head) head = { ...head, transparent: data };
    else if (name === 'pHYs' && length === 9 && data[8] === 1)
      dpi = statedDpi(view.getUint32(at + 8) * 0.0254, view.getUint32(at + 12) * 0.0254);
    else if (name === 'IDAT') parts.push(data);
    else if (name === 'IEND') break;
    at += 12 + length;
  }
  if (!head || parts.length === 0 || (head.colour === 3 && !head.palette)) throw broken();
  const { width, height } = head;
  const grey = new Uint8Array(width * height);
  const unpack = new Rows(head, grey);
  try {
    const stream = new Blob(parts as BlobPart[]).stream().pipeThrough(new DecompressionStream('deflate'));
    const reader = stream.getReader();
    for (let next = await reader.read(); !next.done && !unpack.isDone; next = await reader.read())
      unpack.take(next.value);
    await reader.cancel();
  } catch {
    throw broken();
  }
  if (!unpack.isDone) throw broken();
  return { width, height, grey, dpi };
}

function headOf(data: Uint8Array, file: string, broken: () => Refusal): Head {
  const view = new DataView(data.buffer, data.byteOffset, 13);
  const [width, height] = [view.getUint32(0), view.getUint32(4)];
  const [depth, colour, packing, filter, interlace] = data.subarray(8);
  if (!depthsOf[colour]?.includes(depth) || packing !== 0 || filter !== 0 || interlace > 1) throw broken();
  if (width === 0 || height === 0) throw broken();
  if (width * height > mostPixels)
    throw new Refusal(
      `${file} has ${grouped(width)} x ${grouped(height)} pixels; more than ${grouped(mostPixels)} are not read: scan it at 300 dots to the inch.`,
    );
  return { width, height, depth, colour, interlaced: interlace === 1, palette: null, transparent: null };
}

/** Takes the unpacked bytes as they come, and fills the picture row by row. */
class Rows {
  isDone = false;
  private readonly passes: readonly (readonly [number, number, number, number])[];
  private pass = -1;
  private row = 0;
  private columns = 0;
  private rows = 0;
  private line = new Uint8Array(0);
  private above = new Uint8Array(0);
  private filled = 0;
  private readonly bits: number;

  constructor(
    private readonly head: Head,
    private readonly grey: Uint8Array,
  ) {
    this.passes = head.interlaced ? adam7 : [[0, 0, 1, 1]];
    this.bits = channelsOf[head.colour] * head.depth;
    this.nextPass();
  }

  private nextPass(): void {
    const { width, height } = this.head;
    do {
      this.pass++;
      if (this.pass === this.passes.length) {
        this.isDone = true;
        return;
      }
      const [x, y, dx, dy] = this.passes[this.pass];
      this.columns = Math.max(0, Math.ceil((width - x) / dx));
      this.rows = Math.max(0, Math.ceil((height - y) / dy));
    } while (this.columns === 0 || this.rows === 0);
    this.row = 0;
    this.filled = 0;
    this.line = new Uint8Array(1 + Math.ceil((this.columns * this.bits) / 8));
    this.above = new Uint8Array(this.line.length);
  }

  take(bytes: Uint8Array): void {
    let at = 0;
    while (at < bytes.length && !this.isDone) {
      const part = bytes.subarray(at, at + this.line.length - this.filled);
      this.line.set(part, this.filled);
      this.filled += part.length;
      at += part.length;
      if (this.filled === this.line.length) this.finish();
    }
  }

  private finish(): void {
    unfilter(this.line, this.above, Math.max(1, this.bits >> 3));
    const [x, y, dx, dy] = this.passes[this.pass];
    const start = (y + this.row * dy) * this.head.width + x;
    if (!this.takeBytes(start, dx))
      for (let i = 0; i < this.columns; i++) this.grey[start + i * dx] = this.pixel(i);
    [this.line, this.above] = [this.above, this.line];
    this.filled = 0;
    if (++this.row === this.rows) this.nextPass();
  }

  /** The everyday kinds in one go: a byte a channel, grey or in colour, nothing transparent. */
  private takeBytes(start: number, step: number): boolean {
    const { colour, depth, transparent } = this.head;
    const { line, grey, columns } = this;
    if (depth !== 8 || transparent !== null || (colour !== 0 && colour !== 2)) return false;
    for (let i = 0, to = start, at = 1; i < columns; i++, to += step) {
      if (colour === 0) grey[to] = line[at++];
      else {
        grey[to] = greyOf(line[at], line[at + 1], line[at + 2], 255);
        at += 3;
      }
    }
    return true;
  }

  private pixel(i: number): number {
    const { colour, depth, palette, transparent } = this.head;
    const { line } = this;
    if (depth < 8) {
      const bit = i * depth;
      const value = (line[1 + (bit >> 3)] >> (8 - depth - (bit & 7))) & ((1 << depth) - 1);
      if (colour === 3) return fromPalette(palette!, transparent, value);
      const clear = transparent !== null && transparent[1] === value;
      return clear ? 255 : Math.round((value * 255) / ((1 << depth) - 1));
    }
    const bytes = depth >> 3;
    const at = 1 + i * channelsOf[colour] * bytes;
    if (colour === 3) return fromPalette(palette!, transparent, line[at]);
    if (colour === 4) return greyOf(line[at], line[at], line[at], line[at + bytes]);
    if (colour === 6) return greyOf(line[at], line[at + bytes], line[at + 2 * bytes], line[at + 3 * bytes]);
    const isClear = transparent !== null && isSame(line, at, transparent, depth);
    if (isClear) return 255;
    return colour === 0 ? line[at] : greyOf(line[at], line[at + bytes], line[at + 2 * bytes], 255);
  }
}

/** Whether a sample is the colour that stands for nothing: two bytes a channel, whatever the depth. */
function isSame(line: Uint8Array, at: number, colour: Uint8Array, depth: number): boolean {
  for (let channel = 0; 2 * channel + 1 < colour.length; channel++) {
    const value =
      depth === 16 ? line[at + 2 * channel] * 256 + line[at + 2 * channel + 1] : line[at + channel];
    if (value !== colour[2 * channel] * 256 + colour[2 * channel + 1]) return false;
  }
  return colour.length >= 2;
}

function fromPalette(palette: Uint8Array, transparent: Uint8Array | null, index: number): number {
  const at = 3 * index;
  return greyOf(palette[at] ?? 0, palette[at + 1] ?? 0, palette[at + 2] ?? 0, transparent?.[index] ?? 255);
}

function unfilter(line: Uint8Array, above: Uint8Array, step: number): void {
  const { length } = line;
  // The first pixel has nothing to its left: beyond it are zeros.
  const second = Math.min(length, 1 + step);
  switch (line[0]) {
    case 0:
      return;
    case 1:
      for (let i = second; i < length; i++) line[i] += line[i - step];
      return;
    case 2:
      for (let i = 1; i < length; i++) line[i] += above[i];
      return;
    case 3:
      for (let i = 1; i < second; i++) line[i] += above[i] >> 1;
      for (let i = second; i < length; i++) line[i] += (line[i - step] + above[i]) >> 1;
      return;
    case 4:
      for (let i = 1; i < second; i++) line[i] += above[i];
      for (let i = second; i < length; i++) line[i] += paeth(line[i - step], above[i], above[i - step]);
      return;
    default:
      throw new RangeError('filter');
  }
}

function paeth(left: number, up: number, corner: number): number {
  const toLeft = Math.abs(up - corner);
  const toUp = Math.abs(left - corner);
  const toCorner = Math.abs(left + up - 2 * corner);
  if (toLeft <= toUp && toLeft <= toCorner) return left;
  return toUp <= toCorner ? up : corner;
}
