/** A table in plain columns, no wider than the page where its numbers allow it. */
import stringWidth from 'fast-string-width';
import { columns } from './page.js';

const gap = '  ';
/** A first cell wider than this stands on a line of its own, so that one long name does not widen the whole table. */
const firstMost = 28;

/** Words are cut where the whole would be wider than the page, but for the first column; numbers stand to the right. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [head, ...rows];
  const widths = head.map((_, i) =>
    Math.max(...all.map((row) => stringWidth(row[i])).filter((width) => i > 0 || width <= firstMost)),
  );
  const isNumber = head.map((_, i) => rows.every((row) => /^[-\d]/.test(row[i])));
  const mayShrink = isNumber.map((is, i) => i > 0 && !is);
  shrink(widths, mayShrink, columns - gap.length * (head.length - 1));
  return all.map((row) => rowText(row, widths, isNumber)).join('\n');
}

function rowText(row: readonly string[], widths: readonly number[], isNumber: readonly boolean[]): string {
  if (stringWidth(row[0]) > widths[0])
    return `${row[0]}\n${rowText(['', ...row.slice(1)], widths, isNumber)}`;
  return row
    .map((cell, i) => padded(cell, widths[i], isNumber[i]))
    .join(gap)
    .trimEnd();
}

/** Takes from the widest column of those that may until all fit, down to eight signs each. */
function shrink(widths: number[], may: readonly boolean[], room: number): void {
  for (let over = widths.reduce((sum, width) => sum + width, 0) - room; over > 0; over--) {
    const widest = Math.max(...widths.filter((_, i) => may[i]));
    if (widest <= 8) return;
    widths[widths.findLastIndex((width, i) => may[i] && width === widest)]--;
  }
}

function padded(cell: string, width: number, toTheRight: boolean): string {
  let text = cell;
  if (stringWidth(text) > width) {
    while (stringWidth(text) >= width) text = [...text].slice(0, -1).join('');
    text += '…';
  }
  const space = ' '.repeat(width - stringWidth(text));
  return toTheRight ? space + text : text + space;
}
