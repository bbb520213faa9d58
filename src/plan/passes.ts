/**
 * Which rows are stitched together: as many as the usable depth holds, from the top down. That gives the fewest
 * passes: a pass that begins lower never ends higher, as the roll takes less depth than the quilt is rolled on.
 */
import { type Machine, usableDepthMm } from './roll.js';

/** Where a row lies, trimmed to the field. */
export interface Extent {
  readonly topMm: number;
  readonly bottomMm: number;
}

export interface Split {
  /** Of the first row and after the last one, counted from 0. */
  readonly from: number;
  readonly to: number;
  readonly usableMm: number;
}

/** Rows that fit to the thousandth of a millimetre fit. */
const roundingMm = 0.001;

/** The passes, or the first row (from 0) that does not fit the throat when its turn comes. `fieldTopMm` is where the roll begins. */
export function splitIntoPasses(
  rows: readonly Extent[],
  fieldTopMm: number,
  machine: Machine | null,
): Split[] | { readonly tooTall: number } {
  const passes: Split[] = [];
  let from = 0;
  while (from < rows.length) {
    const { topMm } = rows[from];
    const usableMm = usableDepthMm(topMm - fieldTopMm, machine);
    let to = from;
    while (to < rows.length && rows[to].bottomMm - topMm <= usableMm + roundingMm) to++;
    if (to === from) return { tooTall: from };
    passes.push({ from, to, usableMm });
    from = to;
  }
  return passes;
}
