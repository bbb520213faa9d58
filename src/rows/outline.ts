/** The outline of a row, seen from below or from above: at each x the line that lies lowest (or highest). */
import { roomier } from '../geometry/growing.js';
import { pointCount } from '../geometry/polyline.js';
import { heightAt, Pieces, type Segments, upperEnvelope } from './envelope.js';
import { perRow, type Row } from './row.js';

/**
 * Straight pieces from left to right over one repeat, at most end to end. `h` is the height measured outwards: y for
 * the outline seen from below, -y for the one seen from above.
 */
export interface Outline {
  readonly count: number;
  /** Left and right end of each piece, mm. */
  readonly x0: Float64Array;
  readonly x1: Float64Array;
  /** Height there. */
  readonly h0: Float64Array;
  readonly h1: Float64Array;
}

export const outlineFromBelow = perRow((row) => outline(row, 1));
export const outlineFromAbove = perRow((row) => outline(row, -1));

export function emptyOutline(count: number): Outline {
  const numbers = () => new Float64Array(count);
  return { count, x0: numbers(), x1: numbers(), h0: numbers(), h1: numbers() };
}

/** The outline mirrored left to right or not, then moved right by `dx` and outwards by `dh`. */
export function movedOutline(outline: Outline, dx: number, dh: number, signX: 1 | -1 = 1): Outline {
  const { count } = outline;
  const out = emptyOutline(count);
  for (let i = 0; i < count; i++) {
    const to = signX === 1 ? i : count - 1 - i;
    const [x0, x1] = [dx + signX * outline.x0[i], dx + signX * outline.x1[i]];
    const [h0, h1] = [dh + outline.h0[i], dh + outline.h1[i]];
    out.x0[to] = Math.min(x0, x1);
    out.x1[to] = Math.max(x0, x1);
    out.h0[to] = signX === 1 ? h0 : h1;
    out.h1[to] = signX === 1 ? h1 : h0;
  }
  return out;
}

function outline(row: Row, sign: 1 | -1): Outline {
  const all = runsOf(row, sign);
  const { segments, runs, begins } = all.begins.length < many ? all : inSight(all, row.repeatMm);
  const { count, from, to, of } = upperEnvelope(runs, begins, segments);
  const out = emptyOutline(count);
  for (let i = 0; i < count; i++) {
    out.x0[i] = from[i];
    out.x1[i] = to[i];
    out.h0[i] = heightAt(segments, of[i], from[i]);
    out.h1[i] = heightAt(segments, of[i], to[i]);
  }
  return out;
}

interface Runs {
  readonly segments: Segments;
  readonly runs: Pieces;
  /** Where each run begins among the pieces. */
  readonly begins: readonly number[];
}

/** Of so many runs most are hidden behind others. */
const many = 1000;

/**
 * The runs without pieces that cannot be in the outline: in columns about half as wide as a piece some pieces cover all of
 * a column, and what lies lower than the lowest end of such a one wherever it goes is hidden.
 */
function inSight({ segments, runs, begins }: Runs, repeatMm: number): Runs {
  const { count, from, to, of } = runs;
  let width = 0;
  for (let i = 0; i < count; i++) width += to[i] - from[i];
  const columns = Math.min(count, Math.floor((2 * repeatMm * count) / width));
  const columnOf = (x: number) => (x / repeatMm) * columns;
  const covered = new Float64Array(columns).fill(-Infinity);
  for (let i = 0; i < count; i++) {
    const least = Math.min(heightAt(segments, of[i], from[i]), heightAt(segments, of[i], to[i]));
    const end = Math.floor(columnOf(to[i]));
    for (let c = Math.ceil(columnOf(from[i])); c < end; c++) covered[c] = Math.max(covered[c], least);
  }
  const kept = new Pieces(1024);
  const keptBegins: number[] = [];
  for (let run = 0; run < begins.length; run++) {
    const begin = kept.count;
    const end = run + 1 < begins.length ? begins[run + 1] : count;
    for (let i = begins[run]; i < end; i++) {
      const most = Math.max(heightAt(segments, of[i], from[i]), heightAt(segments, of[i], to[i]));
      const last = Math.min(columns - 1, Math.floor(columnOf(to[i])));
      let c = Math.min(columns - 1, Math.floor(columnOf(from[i])));
      while (c <= last && most < covered[c]) c++;
      if (c <= last) kept.add(from[i], to[i], of[i]);
    }
    if (kept.count > begin) keptBegins.push(begin);
  }
  return { segments, runs: kept, begins: keptBegins };
}

/**
 * The strokes folded into one repeat, 0 to `repeatMm`, as runs that go one way in x: cut where a stroke turns back and
 * where it passes from one repeat into the next.
 */
function runsOf(row: Row, sign: 1 | -1): Runs {
  const repeat = row.repeatMm;
  const points = row.strokes.reduce((sum, stroke) => sum + pointCount(stroke), 0);
  let segments: Segments = new Float64Array(4 * (points + 64));
  const runs = new Pieces(points + 64);
  const begins: number[] = [];
  let begin = 0;
  let way = 0;
  let fold = 0;
  const close = () => {
    if (runs.count > begin) begins.push(begin);
    if (way < 0) runs.reverseFrom(begin);
    begin = runs.count;
    way = 0;
  };
  const add = (x0: number, h0: number, x1: number, h1: number, k: number, step: number) => {
    if (k !== fold || way * step < 0) close();
    fold = k;
    if (step !== 0) way = step;
    const shift = k * repeat;
    const at = 4 * runs.count;
    if (at === segments.length) segments = roomier(segments);
    segments[at] = x0 - shift;
    segments[at + 1] = h0;
    segments[at + 2] = x1 - shift;
    segments[at + 3] = h1;
    runs.add(Math.max(0, x0 - shift), Math.min(repeat, x1 - shift), runs.count);
  };
  for (const stroke of row.strokes) {
    for (let i = 2; i < stroke.length; i += 2) {
      const ax = stroke[i - 2];
      const bx = stroke[i];
      const ah = sign * stroke[i - 1];
      const bh = sign * stroke[i + 1];
      const first = Math.floor(Math.min(ax, bx) / repeat);
      const last = Math.max(first, Math.ceil(Math.max(ax, bx) / repeat) - 1);
      if (bx >= ax) for (let k = first; k <= last; k++) add(ax, ah, bx, bh, k, bx > ax ? 1 : 0);
      else for (let k = last; k >= first; k--) add(bx, bh, ax, ah, k, -1);
    }
    close();
  }
  return { segments, runs, begins };
}
