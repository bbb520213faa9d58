/**
 * The outline of a row, seen from below or from above: what can be in the way of the next row when both come from afar.
 *
 * Method: the upper envelope of the segments by halves (M. J. Atallah, Some dynamic computational geometry problems,
 * 1985). Runs of the line that go one way across are envelopes already; two envelopes are merged from left to right.
 * O(n log r) of n segments in r runs. Exact but for rounding where two segments cross: what is cut there still lies on
 * its own segment.
 */
import { Growing } from '../geometry/growing.js';
import { perRowAnd, type Row } from './row.js';
import { type SegmentTree, treeOf } from './segment-tree.js';

/** Pieces of segments that are seen, from left to right: [number of the segment's first value, from x, to x] each. */
type Envelope = Float64Array;

/** Seen from below (1) or from above (-1), over one repeat from x = 0 on. */
export const outlineFrom = perRowAnd((row, side: number): SegmentTree => {
  const sight = new Sight(foldedIntoRepeat(row, side), row.repeatMm);
  const seen = sight.ofRuns(0, sight.runs.length - 1);
  const segments = new Float64Array((4 / 3) * seen.length);
  for (let i = 0, n = 0; i < seen.length; i += 3) {
    for (const x of [seen[i + 1], seen[i + 2]]) {
      segments[n++] = x;
      segments[n++] = side * sight.heightAt(seen[i], x);
    }
  }
  return treeOf(segments);
});

/**
 * x and height outwards of the segments' ends, from left to right, in each repeat from x = 0 on that they reach into;
 * without those that lie behind others as far as columns of half the width of one tell: most, where loose lines lie thick.
 */
function foldedIntoRepeat(row: Row, side: number): Float64Array {
  let count = 0;
  let acrossMm = 0;
  visitFolded(row, side, (left, _, right) => {
    count++;
    acrossMm += right - left;
  });
  const perMm = (2 * count) / Math.max(acrossMm, row.repeatMm);
  /** For each column how far out lies at least what runs through all of it. */
  const hides = new Float64Array(Math.ceil(perMm * row.repeatMm) + 1).fill(Number.NEGATIVE_INFINITY);
  const columnOf = (x: number) => Math.max(0, Math.min(perMm * x, hides.length - 1));
  visitFolded(row, side, (left, height, right, rightHeight) => {
    const least = Math.min(height, rightHeight);
    const end = Math.floor(columnOf(right));
    for (let c = Math.ceil(columnOf(left)); c < end; c++) if (least > hides[c]) hides[c] = least;
  });
  const folded = new Float64Array(4 * count);
  let n = 0;
  visitFolded(row, side, (left, height, right, rightHeight) => {
    const most = Math.max(height, rightHeight);
    const end = Math.floor(columnOf(right));
    let c = Math.floor(columnOf(left));
    while (c < end && most < hides[c]) c++;
    if (most < hides[c]) return;
    folded[n++] = left;
    folded[n++] = height;
    folded[n++] = right;
    folded[n++] = rightHeight;
  });
  return folded.subarray(0, n);
}

function visitFolded(
  { strokes, repeatMm }: Row,
  side: number,
  visit: (left: number, height: number, right: number, rightHeight: number) => void,
): void {
  for (const line of strokes) {
    for (let i = 2; i < line.length; i += 2) {
      const left = line[i] < line[i - 2] ? i : i - 2;
      const right = 2 * i - 2 - left;
      const first = Math.floor(line[left] / repeatMm);
      const last = Math.max(first, Math.ceil(line[right] / repeatMm) - 1);
      for (let k = first; k <= last; k++)
        visit(
          line[left] - k * repeatMm,
          side * line[left + 1],
          line[right] - k * repeatMm,
          side * line[right + 1],
        );
    }
  }
}

class Sight {
  /** Where each run begins of segments that lie one beside the other, from left to right or from right to left; and the end. */
  readonly runs: number[] = [];
  readonly #merged = new Growing(new Float64Array(1024));

  constructor(
    private readonly segments: Float64Array,
    private readonly widthMm: number,
  ) {
    const s = segments;
    let way = 0;
    for (let i = 0; i < s.length; i += 4) {
      // The first lies beside none: no number is before it.
      const next = Number(s[i] >= s[i - 2]) - Number(s[i + 2] <= s[i - 4]);
      const goesOn = next !== 0 && next * way >= 0;
      if (!goesOn) this.runs.push(i);
      way = goesOn ? next : 0;
    }
    this.runs.push(s.length);
  }

  /** What is seen of the runs from number `first` up to `beyond`. */
  ofRuns(first: number, beyond: number): Envelope {
    if (beyond - first === 1) return this.#run(this.runs[first], this.runs[beyond]);
    const middle = (first + beyond) >> 1;
    return this.#merge(this.ofRuns(first, middle), this.ofRuns(middle, beyond));
  }

  #run(begin: number, end: number): Envelope {
    const { segments: s, widthMm } = this;
    const pieces = new Float64Array((3 / 4) * (end - begin));
    const isLeftwards = s[end - 2] <= s[begin];
    for (let i = begin, n = 0; i < end; i += 4) {
      const segment = isLeftwards ? begin + end - 4 - i : i;
      pieces[n++] = segment;
      pieces[n++] = Math.max(0, Math.min(s[segment], widthMm));
      pieces[n++] = Math.max(0, Math.min(s[segment + 2], widthMm));
    }
    return pieces;
  }

  #merge(one: Envelope, other: Envelope): Envelope {
    this.#merged.length = 0;
    let x = 0;
    let i = 0;
    let j = 0;
    while (i < one.length || j < other.length) {
      const from = i < one.length ? Math.max(x, one[i + 1]) : Infinity;
      const fromOther = j < other.length ? Math.max(x, other[j + 1]) : Infinity;
      // Where only one of them lies, up to where the other begins.
      const to = from <= fromOther ? one[i + 2] : from;
      const toOther = fromOther <= from ? other[j + 2] : fromOther;
      x = Math.min(to, toOther);
      if (from < fromOther) this.#add(one[i], from, x);
      else if (fromOther < from) this.#add(other[j], fromOther, x);
      else this.#addHigher(one[i], other[j], from, x);
      if (from <= fromOther && to === x) i += 3;
      if (fromOther <= from && toOther === x) j += 3;
    }
    return this.#merged.taken();
  }

  #addHigher(one: number, other: number, from: number, to: number): void {
    const before = this.heightAt(one, from) - this.heightAt(other, from);
    const after = this.heightAt(one, to) - this.heightAt(other, to);
    if (before * after < 0) {
      const crossing = from + ((to - from) * before) / (before - after);
      this.#add(before > 0 ? one : other, from, crossing);
      this.#add(before > 0 ? other : one, crossing, to);
    } else this.#add(before + after >= 0 ? one : other, from, to);
  }

  /** Adds a piece, or lengthens the last one by it. */
  #add(segment: number, from: number, to: number): void {
    const { array, length } = this.#merged;
    if (length > 0 && array[length - 3] === segment && array[length - 1] === from) {
      array[length - 1] = to;
      return;
    }
    this.#merged.push(segment);
    this.#merged.push(from);
    this.#merged.push(to);
  }

  /** Height of a segment at an x between its ends; of an upright one that of its outer end. */
  heightAt(i: number, x: number): number {
    const { segments: s } = this;
    if (s[i] === s[i + 2]) return Math.max(s[i + 1], s[i + 3]);
    const share = Math.max(0, Math.min((x - s[i]) / (s[i + 2] - s[i]), 1));
    return s[i + 1] + share * (s[i + 3] - s[i + 1]);
  }
}
