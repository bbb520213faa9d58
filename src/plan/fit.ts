/** The ways to cover the quilt: every candidate size in every layout, at the spacings at which the rows come out well. */
import type { Layout } from '../../shared/layout.js';
import type { PlanChoice, Quilt } from '../../shared/plan.js';
import { scaled } from '../geometry/polyline.js';
import { nest, rowOf, rowsAt } from '../rows/index.js';
import { fieldOf } from './field.js';
import { type Laid, type LeveledRow, layOut } from './lay-out.js';
import { splitIntoPasses } from './passes.js';
import type { Machine } from './roll.js';
import { candidateSizes } from './sizes.js';

export interface FitWanted {
  readonly quilt: Quilt;
  readonly layouts: readonly Layout[];
  /** Null where none was asked for. */
  readonly spacingMm: number | null;
  readonly clearanceMm: number;
  readonly gapMm: number;
  readonly resize: number;
  readonly machine: Machine | null;
  readonly overhangingRepeats: number;
}

export interface Fitted extends PlanChoice {
  readonly leveled: LeveledRow;
  readonly laid: Laid;
  /** Times the motif's own size. */
  readonly size: number;
  /** The first row that does not fit the throat, from 1; null where all do. */
  readonly tooTallRow: number | null;
}

/** Above the even spacing by this much rows still look even. */
const aboveEven = 1.1;

/** No rows that look even lie farther apart: they leave the gap wanted, or the clearance, between motifs as high as that. */
export function widestSpacingMm(heightMm: number, gapMm: number): number {
  return aboveEven * (heightMm + gapMm);
}

/** Those that fit no throat are among them, and say from which row on. */
export function waysToFit(own: LeveledRow, wanted: FitWanted): Fitted[] {
  const { quilt, layouts, spacingMm } = wanted;
  const { row } = own;
  const field = fieldOf(quilt);
  const atSize = new Map<number, LeveledRow>([[1, own]]);
  return layouts.flatMap((layout) => {
    const sizes = candidateSizes({
      repeatMm: row.repeatMm,
      heightMm: row.heightMm,
      fieldWidthMm: field.maxX - field.minX,
      fieldHeightMm: field.maxY - field.minY,
      resize: wanted.resize,
      spacing:
        spacingMm === null
          ? { mm: spacingsAt(own, layout, 1, wanted).evenSpacingMm, isFixed: false }
          : { mm: spacingMm, isFixed: true },
    });
    return sizes.flatMap((size) => {
      const leveled = atSize.get(size) ?? resized(own, size, wanted.overhangingRepeats);
      atSize.set(size, leveled);
      return waysAtSize(own, leveled, size, layout, wanted);
    });
  });
}

function resized({ row, line }: LeveledRow, size: number, overhangingRepeats: number): LeveledRow {
  const bigger = scaled(line, size);
  return {
    line: bigger,
    row: rowOf([bigger], row.repeatMm * size, row.middleXMm * size, overhangingRepeats),
  };
}

/**
 * Closest and even spacing of the motif at a size: those of its own size at a clearance and a gap as much smaller, times
 * the size. So the open circles of many sizes are looked for in the same rows, once.
 */
function spacingsAt({ row }: LeveledRow, layout: Layout, size: number, { clearanceMm, gapMm }: FitWanted) {
  const { closestSpacingMm, even } = nest(row, layout, clearanceMm / size, gapMm / size);
  return { closestSpacingMm: size * closestSpacingMm, evenSpacingMm: size * even.spacingMm };
}

function waysAtSize(
  own: LeveledRow,
  leveled: LeveledRow,
  size: number,
  layout: Layout,
  wanted: FitWanted,
): Fitted[] {
  const { quilt, spacingMm: asked, machine } = wanted;
  const { row, line } = leveled;
  const field = fieldOf(quilt);
  const { closestSpacingMm, evenSpacingMm } = spacingsAt(own, layout, size, wanted);
  const down = field.maxY - field.minY - row.heightMm;
  const whole = wholeDownRows(down, row.heightMm, closestSpacingMm, evenSpacingMm, wanted);
  const plain = asked ?? evenSpacingMm;
  const ways = whole.map((rows) => ({ rows, spacingMm: rows > 1 ? down / (rows - 1) : plain }));
  const isPlainWhole = ways.some(({ spacingMm }) => Math.abs(spacingMm - plain) < sameMm);
  const all = isPlainWhole ? ways : [{ rows: null, spacingMm: plain }, ...ways];
  return all.map(({ rows, spacingMm }) => {
    const laid = layOut(leveled, layout, spacingMm, quilt, rows);
    const passes = splitIntoPasses(laid.rows, field.minY, machine);
    const { largestOpenMm, openness } = rowsAt(own.row, layout, spacingMm / size);
    const isTooTall = !Array.isArray(passes);
    return {
      heightMm: row.heightMm,
      layout,
      repeats: laid.repeats,
      rows: laid.rows.length,
      firstMm: [line[0] + laid.dx, line[1] + laid.dy] as const,
      spacingMm,
      closestSpacingMm,
      evenSpacingMm,
      largestOpenMm: size * largestOpenMm,
      evenness: openness,
      wholeAcross: Math.abs(laid.repeats * row.repeatMm - (field.maxX - field.minX)) < sameMm,
      wholeDown: rows !== null,
      passes: isTooTall ? 0 : passes.length,
      leveled,
      laid,
      size,
      tooTallRow: isTooTall ? passes.tooTall + 1 : null,
    };
  });
}

/** Lengths that files cannot tell apart, mm. */
const sameMm = 0.001;

/** Numbers of rows that come out whole, of the spacings allowed those next to the even one on either side. */
function wholeDownRows(
  downMm: number,
  heightMm: number,
  closestMm: number,
  evenMm: number,
  { spacingMm: asked, quilt }: FitWanted,
): number[] {
  if (downMm < -sameMm) return [];
  if (downMm < sameMm) return [1];
  const [least, most] = asked === null ? [closestMm, aboveEven * evenMm] : [asked, asked];
  const ideal = downMm / (asked ?? evenMm) + 1;
  return [...new Set([Math.floor(ideal + sameMm), Math.ceil(ideal - sameMm)])].filter((rows) => {
    const spacingMm = downMm / (rows - 1);
    return (
      rows > 1 &&
      spacingMm >= least - sameMm &&
      spacingMm <= most + sameMm &&
      heightMm - spacingMm <= quilt.marginMm + sameMm
    );
  });
}
