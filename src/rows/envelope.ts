/**
 * The upper envelope of segments: at each x the highest one.
 *
 * Method: divide and conquer. The segments come in runs that are functions of x already, and two functions merge in
 * one pass from left to right. With r runs and n segments that is O(n log r); the envelope has at most a little more
 * than linearly many pieces (Sharir and Agarwal, Davenport-Schinzel Sequences and Their Geometric Applications, 1995,
 * chapters 1 and 6).
 *
 * Pieces name the segment they are cut from, so that heights are always read off the drawn points and no rounding
 * builds up from merge to merge. An upright segment is a piece without width, at its higher end.
 */

/** Segments from left to right, [x0, h0, x1, h1] each. */
export type Segments = Float64Array<ArrayBuffer>;

/** Pieces of segments, appended one by one: from which x to which, and of which segment. */
export class Pieces {
  count = 0;
  from: Float64Array;
  to: Float64Array;
  of: Int32Array;

  /** With room for so many at first. */
  constructor(room: number) {
    this.from = new Float64Array(room);
    this.to = new Float64Array(room);
    this.of = new Int32Array(room);
  }

  add(from: number, to: number, of: number): void {
    if (this.count === this.of.length) this.#grow();
    const i = this.count++;
    this.from[i] = from;
    this.to[i] = to;
    this.of[i] = of;
  }

  /** Adds a piece, or lengthens the last one where it goes on with the same segment; `begin` is the run's first. */
  goOn(begin: number, from: number, to: number, of: number): void {
    const last = this.count - 1;
    if (last >= begin && this.of[last] === of && this.to[last] === from) this.to[last] = to;
    else this.add(from, to, of);
  }

  /** Turns the order of the pieces from `begin` on. */
  reverseFrom(begin: number): void {
    if (this.count - begin < 2) return;
    for (const list of [this.from, this.to, this.of]) list.subarray(begin, this.count).reverse();
  }

  #grow(): void {
    const { from, to, of } = this;
    const room = 2 * of.length + 16;
    this.from = new Float64Array(room);
    this.to = new Float64Array(room);
    this.of = new Int32Array(room);
    this.from.set(from);
    this.to.set(to);
    this.of.set(of);
  }
}

/** The upper envelope of runs; run i holds the pieces from `begins[i]` to the next run's begin. */
export function upperEnvelope(runs: Pieces, begins: readonly number[], segments: Segments): Pieces {
  let { level, starts } = fromLeftToRight(runs, begins);
  let next = new Pieces(level.count + 16);
  while (starts.length > 2) {
    next.count = 0;
    const nextStarts: number[] = [];
    for (let i = 0; i + 1 < starts.length; i += 2) {
      nextStarts.push(next.count);
      const end = i + 2 < starts.length ? starts[i + 2] : starts[i + 1];
      merge(level, starts[i], starts[i + 1], end, segments, next);
    }
    nextStarts.push(next.count);
    [level, next] = [next, level];
    starts = nextStarts;
  }
  return level;
}

/** The runs about in the order in which they begin: those that hide one another then merge first, and little is left. */
function fromLeftToRight(runs: Pieces, begins: readonly number[]): { level: Pieces; starts: number[] } {
  const level = new Pieces(runs.count);
  const starts: number[] = [];
  for (const run of byPlace(begins.length, (i) => runs.from[begins[i]])) {
    starts.push(level.count);
    const end = run + 1 < begins.length ? begins[run + 1] : runs.count;
    for (let i = begins[run]; i < end; i++) level.add(runs.from[i], runs.to[i], runs.of[i]);
  }
  starts.push(level.count);
  return { level, starts };
}

/** The numbers 0 up to `count`, sorted into as many pigeonholes by their place. */
function byPlace(count: number, place: (i: number) => number): Uint32Array {
  let [least, most] = [Infinity, -Infinity];
  for (let i = 0; i < count; i++) {
    least = Math.min(least, place(i));
    most = Math.max(most, place(i));
  }
  const hole = (i: number) =>
    most > least ? Math.floor(((place(i) - least) / (most - least)) * (count - 1)) : 0;
  const ends = new Uint32Array(count);
  for (let i = 0; i < count; i++) ends[hole(i)]++;
  for (let h = 1; h < count; h++) ends[h] += ends[h - 1];
  const sorted = new Uint32Array(count);
  for (let i = count - 1; i >= 0; i--) sorted[--ends[hole(i)]] = i;
  return sorted;
}

/** Height of a segment at x, clamped to its ends. */
export function heightAt(segments: Segments, segment: number, x: number): number {
  const i = 4 * segment;
  const x0 = segments[i];
  const x1 = segments[i + 2];
  if (x0 === x1) return Math.max(segments[i + 1], segments[i + 3]);
  if (x <= x0) return segments[i + 1];
  if (x >= x1) return segments[i + 3];
  return segments[i + 1] + ((x - x0) / (x1 - x0)) * (segments[i + 3] - segments[i + 1]);
}

/** Appends to `out` the higher of two runs of `level`: pieces `i` up to `middle`, and `middle` up to `end`. */
function merge(level: Pieces, i: number, middle: number, end: number, segments: Segments, out: Pieces): void {
  const begin = out.count;
  const { from, to, of } = level;
  let j = middle;
  let startA = from[i];
  let startB = j < end ? from[j] : 0;
  while (i < middle && j < end) {
    const endA = to[i];
    const endB = to[j];
    if (endA < startB || (endA === startB && startA < endA)) {
      out.goOn(begin, startA, endA, of[i]);
      startA = from[++i];
    } else if (endB < startA || (endB === startA && startB < endB)) {
      out.goOn(begin, startB, endB, of[j]);
      startB = from[++j];
    } else if (startA < startB) {
      out.goOn(begin, startA, startB, of[i]);
      startA = startB;
    } else if (startB < startA) {
      out.goOn(begin, startB, startA, of[j]);
      startB = startA;
    } else {
      const stop = Math.min(endA, endB);
      addHigher(begin, startA, stop, of[i], of[j], segments, out);
      startA = endA === stop ? from[++i] : stop;
      startB = endB === stop ? from[++j] : stop;
    }
  }
  for (; i < middle; startA = from[++i]) out.goOn(begin, startA, to[i], of[i]);
  for (; j < end; startB = from[++j]) out.goOn(begin, startB, to[j], of[j]);
}

/** Appends the higher of segments a and b over a stretch that both cover. */
function addHigher(
  begin: number,
  from: number,
  to: number,
  a: number,
  b: number,
  segments: Segments,
  out: Pieces,
): void {
  const left = heightAt(segments, a, from) - heightAt(segments, b, from);
  const right = heightAt(segments, a, to) - heightAt(segments, b, to);
  if (left >= 0 && right >= 0) out.goOn(begin, from, to, a);
  else if (left <= 0 && right <= 0) out.goOn(begin, from, to, b);
  else {
    const meet = from + ((to - from) * left) / (left - right);
    out.goOn(begin, from, meet, left > 0 ? a : b);
    out.goOn(begin, meet, to, left > 0 ? b : a);
  }
}
