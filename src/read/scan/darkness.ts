/**
 * How dark each place is beside the paper round it: 0 paper, 255 black, with the light evened out.
 *
 * The paper's brightness is what nine in ten pixels of a square stay under, from square to square, in between by
 * bilinear interpolation. A square much darker than the brightest paper is no paper (the dark beyond the sheet, or a
 * filled shape) and takes its neighbours' brightness. Then a blur by [1 2 1] both ways, against noise.
 */
import type { Picture } from './picture.js';

const squarePx = 48;
/** Of the brightest paper; darker squares are no paper. */
const paperShare = 0.5;

export function darknessOf({ width, height, grey }: Picture): Uint8Array {
  const columns = Math.ceil(width / squarePx);
  const rows = Math.ceil(height / squarePx);
  const paper = paperOf(grey, width, height, columns, rows);
  const out = new Uint8ClampedArray(width * height);
  const across = new Float32Array(columns);
  for (let y = 0; y < height; y++) {
    const v = Math.max(0, Math.min((y + 0.5) / squarePx - 0.5, rows - 1));
    const r = Math.min(Math.floor(v), Math.max(rows - 2, 0));
    const below = Math.min(r + 1, rows - 1);
    for (let c = 0; c < columns; c++)
      across[c] = paper[r * columns + c] + (v - r) * (paper[below * columns + c] - paper[r * columns + c]);
    // From the middle of one square to the middle of the next, and out to the edges.
    for (let c = -1; c < columns; c++) {
      const [left, right] = [across[Math.max(c, 0)], across[Math.min(c + 1, columns - 1)]];
      const from = Math.max(0, Math.ceil((c + 0.5) * squarePx - 0.5));
      const to = Math.min(width, Math.ceil((c + 1.5) * squarePx - 0.5));
      const rise = (right - left) / squarePx;
      let white = left + rise * (from + 0.5 - (c + 0.5) * squarePx);
      for (let i = y * width + from; i < y * width + to; i++, white += rise)
        out[i] = 255 - (255 * grey[i]) / white;
    }
  }
  return blurred(out, width, height);
}

function paperOf(
  grey: Uint8Array,
  width: number,
  height: number,
  columns: number,
  rows: number,
): Float32Array {
  const paper = new Float32Array(columns * rows);
  const counts = new Uint32Array(256);
  for (let r = 0; r < rows; r++)
    for (let c = 0; c < columns; c++) {
      counts.fill(0);
      let total = 0;
      const right = Math.min(width, (c + 1) * squarePx);
      const bottom = Math.min(height, (r + 1) * squarePx);
      for (let y = r * squarePx; y < bottom; y++)
        for (let i = y * width + c * squarePx; i < y * width + right; i++, total++) counts[grey[i]]++;
      let level = 255;
      for (let over = 0; level > 0; level--) {
        over += counts[level];
        if (over >= total / 10) break;
      }
      paper[r * columns + c] = Math.max(1, level);
    }
  const brightest = [...paper].sort((a, b) => b - a)[Math.floor(paper.length / 20)];
  return filledIn(paper, columns, rows, paperShare * brightest);
}

/** Squares under `least` take the mean of their nearest neighbours that are not. */
function filledIn(paper: Float32Array, columns: number, rows: number, least: number): Float32Array {
  let now = paper.map((level) => (level < least ? 0 : level));
  if (now.every((level) => level === 0)) return paper;
  while (now.includes(0)) {
    const before = now;
    now = before.map((level, i) => {
      if (level > 0) return level;
      const [c, r] = [i % columns, Math.floor(i / columns)];
      let [sum, count] = [0, 0];
      for (let y = Math.max(0, r - 1); y <= Math.min(rows - 1, r + 1); y++)
        for (let x = Math.max(0, c - 1); x <= Math.min(columns - 1, c + 1); x++) {
          if (before[y * columns + x] === 0) continue;
          sum += before[y * columns + x];
          count++;
        }
      return count > 0 ? sum / count : 0;
    });
  }
  return now;
}

/** By [1 2 1] both ways, against noise. */
export function blurred(dark: Uint8ClampedArray, width: number, height: number): Uint8Array {
  const row = new Uint16Array(width * 3);
  const out = new Uint8Array(dark.length);
  const fill = (y: number, slot: number) => {
    const from = Math.max(0, Math.min(y, height - 1)) * width;
    const to = slot * width;
    let [before, now] = [dark[from], dark[from]];
    for (let x = 0; x < width - 1; x++) {
      const after = dark[from + x + 1];
      row[to + x] = before + 2 * now + after;
      before = now;
      now = after;
    }
    row[to + width - 1] = before + 3 * now;
  };
  fill(-1, 0);
  fill(0, 1);
  for (let y = 0; y < height; y++) {
    const [a, b, c] = [(y % 3) * width, ((y + 1) % 3) * width, ((y + 2) % 3) * width];
    fill(y + 1, (y + 2) % 3);
    const at = y * width;
    for (let x = 0; x < width; x++) out[at + x] = (row[a + x] + 2 * row[b + x] + row[c + x] + 8) >> 4;
  }
  return out;
}

export interface Levels {
  /** Means of both classes. */
  readonly paper: number;
  readonly ink: number;
  /** Ink is what is darker. */
  readonly threshold: number;
  /** What is darker than this stands out from the paper and its grain. */
  readonly pale: number;
  /** Of the ink a tenth is darker than this: what lies away from its edges. */
  readonly full: number;
}

/**
 * Where ink begins: half-way between the means of paper and ink, classes after N. Otsu, "A threshold selection method
 * from gray-level histograms", IEEE Transactions on Systems, Man, and Cybernetics 9 (1979); with a share, that share
 * of the way. Null where there is no ink: the classes hardly differ.
 */
export function levelsOf(dark: Uint8Array, share = 0.5): Levels | null {
  const counts = new Float64Array(256);
  for (let i = 0; i < dark.length; i++) counts[dark[i]]++;
  const all = counts.reduce((sum, count, value) => sum + count * value, 0);
  let [under, sum, best, paper, ink] = [0, 0, -1, 0, 0];
  for (let level = 0; level < 255; level++) {
    under += counts[level];
    sum += counts[level] * level;
    const over = dark.length - under;
    if (under === 0 || over === 0) continue;
    const difference = sum / under - (all - sum) / over;
    const between = under * over * difference * difference;
    if (between <= best) continue;
    best = between;
    paper = sum / under;
    ink = (all - sum) / over;
  }
  if (ink - paper < 20) return null;
  const threshold = paper + share * (ink - paper);
  const pale = paleOf(counts, threshold) + paleShare * (ink - paper);
  return { paper, ink, threshold, pale, full: fullOf(counts, threshold) };
}

/** A mark is darker than the paper by this share of the way to ink, and by more than grain. */
const paleShare = 0.08;
/** Of the paper, in what stands for its standard deviation: once in three million pixels grain is so dark. */
const grainTimes = 5;

/** What grain reaches: told from the paler half of the paper, so that marks on it do not count. */
function paleOf(counts: Float64Array, threshold: number): number {
  const share = (part: number) => {
    const all = counts.reduce((sum, count, level) => (level <= threshold ? sum + count : sum), 0);
    let level = 0;
    for (let under = counts[0]; under < part * all; ) under += counts[++level];
    return level;
  };
  // Half of a normal distribution lies within 0.6745 standard deviations of its middle, a quarter on either side.
  const median = share(0.5);
  return median + (grainTimes * (median - share(0.25))) / 0.6745;
}

function fullOf(counts: Float64Array, threshold: number): number {
  const ink = counts.reduce((sum, count, level) => (level > threshold ? sum + count : sum), 0);
  let full = 255;
  for (let over = counts[full]; full > threshold && over < ink / 10; ) over += counts[--full];
  return full;
}
