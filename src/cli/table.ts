/** A table in plain columns, no wider than the page where its numbers allow it. */
import stringWidth from 'fast-string-width';
import { columns, wrap } from './page.js';

export interface Column {
  readonly head: string;
  /** Stands to the right and is never cut. */
  readonly isNumber?: boolean;
}

const gap = '  ';
/** A first cell wider than this stands on a line of its own, so that one long name does not widen the whole table. */
const firstMost = 28;
/** Words are cut to no fewer signs than this while there is another way. */
const wordLeast = 8;

/**
 * The head and each row as text, in lines of 80 columns. Words are cut where the whole would be wider; where they would
 * have to be cut too short, every first cell stands on a line of its own.
 */
export function table(head: readonly Column[], rows: readonly (readonly string[])[]): string[] {
  const all = [head.map((column) => column.head), ...rows];
  const whole = head.map((_, i) => widest(all, i, i > 0 ? Infinity : firstMost));
  const beside = cut(whole, head, wordLeast);
  const widths = over(beside) > 0 ? cut([0, ...whole.slice(1)], head, 1) : beside;
  return all.map((row) => rowText(row, widths, head));
}

/** Of the cells of a column that are no wider than `most`. */
function widest(all: readonly (readonly string[])[], column: number, most: number): number {
  return all.reduce((width, row) => {
    const own = stringWidth(row[column]);
    return own > width && own <= most ? own : width;
  }, 0);
}

function over(widths: readonly number[]): number {
  return widths.reduce((sum, width) => sum + width, gap.length * (widths.length - 1)) - columns;
}

/** Takes from the widest column of words but the first until all fit, down to `least` each. */
function cut(whole: readonly number[], head: readonly Column[], least: number): number[] {
  const widths = [...whole];
  const mayShrink = widths.map((_, i) => i > 0 && !head[i].isNumber);
  for (let left = over(widths); left > 0; left--) {
    const most = Math.max(...widths.filter((_, i) => mayShrink[i]));
    if (most <= least) break;
    widths[widths.findLastIndex((width, i) => mayShrink[i] && width === most)]--;
  }
  return widths;
}

function rowText(row: readonly string[], widths: readonly number[], head: readonly Column[]): string {
  const [first, ...others] = row;
  if (stringWidth(first) > widths[0]) {
    const own = stringWidth(first) > columns ? wrap(first) : first.trimEnd();
    return `${own}\n${rowText(['', ...others], widths, head)}`;
  }
  return row
    .map((cell, i) => padded(cell, widths[i], head[i].isNumber ?? false))
    .join(gap)
    .trimEnd();
}

const signs = new Intl.Segmenter('en');

function padded(cell: string, width: number, toTheRight: boolean): string {
  let text = cell;
  if (stringWidth(cell) > width) {
    text = '';
    for (const { segment } of signs.segment(cell)) {
      if (stringWidth(text + segment) >= width) break;
      text += segment;
    }
    text += '…';
  }
  const space = ' '.repeat(width - stringWidth(text));
  return toTheRight ? space + text : text + space;
}
