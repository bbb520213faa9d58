/**
 * Where to change the bobbin: as late as can be, but never inside a row that one bobbin holds. A full bobbin that is
 * put in as late as it can be lasts longest, so no fewer changes would do.
 */

export interface BobbinUse {
  readonly needed: number;
  /** Numbers of rows, from 0, after which the bobbin is changed. */
  readonly changeAfter: readonly number[];
  /** Inside rows that need more than a bobbin: how much of the row's thread is used up by then. */
  readonly runsOut: readonly { readonly row: number; readonly after: number }[];
}

/** `rows` is the thread of each row and `full` that of a bobbin, in one unit. */
export function bobbinsFor(rows: readonly number[], full: number): BobbinUse {
  const changeAfter: number[] = [];
  const runsOut: { row: number; after: number }[] = [];
  let left = full;
  let needed = 1;
  rows.forEach((thread, row) => {
    if (thread > left && row > 0 && left < full) {
      changeAfter.push(row - 1);
      needed++;
      left = full;
    }
    let used = 0;
    while (thread - used > left) {
      used += left;
      runsOut.push({ row, after: used });
      needed++;
      left = full;
    }
    left -= thread - used;
  });
  return { needed, changeAfter, runsOut };
}
