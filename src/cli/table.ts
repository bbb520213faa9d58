/** A table in plain columns, no wider than the page where its longest words allow it. */
import stringWidth from 'fast-string-width';
import { columns } from './page.js';

const gap = '  ';

/** Columns shrink where the whole would be wider than the page, the first one last; numbers stand to the right. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [head, ...rows];
  const widths = head.map((_, i) => Math.max(...all.map((row) => stringWidth(row[i]))));
  shrink(widths, columns - gap.length * (head.length - 1));
  const isNumber = head.map((_, i) => rows.every((row) => /^[-\d]/.test(row[i])));
  return all
    .map((row) =>
      row
        .map((cell, i) => padded(cell, widths[i], isNumber[i]))
        .join(gap)
        .trimEnd(),
    )
    .join('\n');
}

/** Takes from the widest column until all fit, down to eight signs each; from the first, by which rows go, last. */
function shrink(widths: number[], room: number): void {
  for (let over = widths.reduce((sum, width) => sum + width, 0) - room; over > 0; over--) {
    const widest = widths.lastIndexOf(Math.max(...widths.slice(1)));
    const from = widths[widest] > 8 ? widest : 0;
    if (widths[from] <= 8) return;
    widths[from]--;
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
