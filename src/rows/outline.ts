/**
 * The outline of a row, seen from below or from above: what can be in the way of the next row when both come from afar.
 *
 * Method: one repeat is halved again and again. Of the segments that run through a whole stretch, the one that lies
 * farthest out in its middle hides whatever lies behind it at both its ends there. What is left is halved on, until there
 * are few. Where many lie over one another, most are found hidden in narrow columns before. O(n log n) for drawings.
 * Nothing that is seen is lost; of what is hidden a little may be left among the rest.
 */
import { Growing } from '../geometry/growing.js';
import { perRowAnd, type Row } from './row.js';
import { type SegmentTree, treeOf } from './segment-tree.js';

/** So few segments of a stretch are taken as they are. */
const few = 32;
/** Narrower stretches are not halved, mm: thousands of lines may meet in a point. */
const narrowestMm = 1e-9;

/** Seen from below (1) or from above (-1), over one repeat from x = 0 on. */
export const outlineFrom = perRowAnd((row, side: number): SegmentTree => {
  const sight = new Sight(outermost(foldedIntoRepeat(row, side), row.repeatMm));
  sight.look(0, 0, row.repeatMm);
  const seen = sight.seen.taken();
  for (let i = 1; i < seen.length; i += 2) seen[i] *= side;
  return treeOf(seen);
});

/** x and height outwards of the segments' ends, from left to right, in each repeat from x = 0 on that they reach into. */
function foldedIntoRepeat({ strokes, repeatMm }: Row, side: number): Float64Array {
  const folded = new Growing(new Float64Array(1024));
  for (const line of strokes) {
    for (let i = 2; i < line.length; i += 2) {
      const left = line[i] < line[i - 2] ? i : i - 2;
      const right = 2 * i - 2 - left;
      const first = Math.floor(line[left] / repeatMm);
      const last = Math.max(first, Math.ceil(line[right] / repeatMm) - 1);
      for (let k = first; k <= last; k++) {
        folded.push(line[left] - k * repeatMm);
        folded.push(side * line[left + 1]);
        folded.push(line[right] - k * repeatMm);
        folded.push(side * line[right + 1]);
      }
    }
  }
  return folded.taken();
}

/** The segments without those that lie behind others, as far as columns of half the width of one tell. */
function outermost(segments: Float64Array, widthMm: number): Float64Array {
  let acrossMm = 0;
  for (let i = 0; i < segments.length; i += 4)
    acrossMm += Math.min(widthMm, segments[i + 2]) - Math.max(0, segments[i]);
  if (acrossMm < few * widthMm) return segments;
  const perMm = segments.length / 2 / acrossMm;
  const last = Math.ceil(perMm * widthMm) - 1;
  /** For each column how far out lies at least what runs through all of it. */
  const hides = new Float64Array(last + 1).fill(Number.NEGATIVE_INFINITY);
  for (let i = 0; i < segments.length; i += 4) {
    const height = Math.min(segments[i + 1], segments[i + 3]);
    const beyond = Math.min(last + 1, Math.floor(segments[i + 2] * perMm));
    for (let c = Math.max(0, Math.ceil(segments[i] * perMm)); c < beyond; c++)
      if (height > hides[c]) hides[c] = height;
  }
  let n = 0;
  for (let i = 0; i < segments.length; i += 4) {
    const height = Math.max(segments[i + 1], segments[i + 3]);
    const end = Math.min(last, Math.floor(segments[i + 2] * perMm));
    let c = Math.min(last, Math.max(0, Math.floor(segments[i] * perMm)));
    while (c < end && height < hides[c]) c++;
    if (height < hides[c]) continue;
    segments.copyWithin(n, i, i + 4);
    n += 4;
  }
  return segments.subarray(0, n);
}

class Sight {
  /** Stretches of segments that are seen, [x0, h0, x1, h1] each. */
  readonly seen = new Growing(new Float64Array(1024));
  /** The segments of each stretch that is being halved, by where they begin, one stretch after the other. */
  readonly #here: Growing<Uint32Array<ArrayBuffer>>;

  constructor(private readonly segments: Float64Array) {
    this.#here = new Growing(new Uint32Array(segments.length));
    for (let i = 0; i < segments.length; i += 4) this.#here.push(i);
  }

  /** Adds what is seen, between two x, of the segments noted last, from number `begin` of the notes on, and strikes these. */
  look(begin: number, from: number, to: number): void {
    const { segments: s } = this;
    const here = this.#here;
    this.#strikeHidden(begin, from, to);
    const end = here.length;
    if (end - begin > few && to - from > narrowestMm) {
      const middle = (from + to) / 2;
      for (let n = begin; n < end; n++) {
        const i = here.array[n];
        if (s[i] < middle || s[i + 2] <= middle) here.push(i);
      }
      this.look(end, from, middle);
      for (let n = begin; n < end; n++) if (s[here.array[n] + 2] > middle) here.push(here.array[n]);
      this.look(end, middle, to);
    } else {
      for (let n = begin; n < end; n++) {
        const i = here.array[n];
        this.#add(i, Math.max(from, s[i]));
        this.#add(i, Math.min(to, s[i + 2]));
      }
    }
    here.length = begin;
  }

  #strikeHidden(begin: number, from: number, to: number): void {
    const { segments: s } = this;
    const here = this.#here;
    let front = -1;
    let most = -Infinity;
    for (let n = begin; n < here.length; n++) {
      const i = here.array[n];
      if (s[i] > from || s[i + 2] < to) continue;
      const height = this.#heightAt(i, (from + to) / 2);
      if (!(height > most)) continue;
      front = i;
      most = height;
    }
    if (front < 0) return;
    let left = begin;
    for (let n = begin; n < here.length; n++) {
      const i = here.array[n];
      if (
        i === front ||
        this.#isBefore(i, front, Math.max(from, s[i])) ||
        this.#isBefore(i, front, Math.min(to, s[i + 2]))
      )
        here.array[left++] = i;
    }
    here.length = left;
  }

  #add(i: number, x: number): void {
    this.seen.push(x);
    this.seen.push(this.#heightAt(i, x));
  }

  #isBefore(i: number, other: number, x: number): boolean {
    return this.#heightAt(i, x) > this.#heightAt(other, x);
  }

  /** Height of a segment at an x between its ends; of an upright one that of its outer end. */
  #heightAt(i: number, x: number): number {
    const { segments: s } = this;
    if (s[i] === s[i + 2]) return Math.max(s[i + 1], s[i + 3]);
    const share = Math.max(0, Math.min((x - s[i]) / (s[i + 2] - s[i]), 1));
    return s[i + 1] + share * (s[i + 3] - s[i + 1]);
  }
}
