/** What `rows` says: a table of the layouts, what to choose, and how the spacing asked for fares. */
import stringWidth from 'fast-string-width';
import type { ChosenRows, Nesting } from '../../shared/rows.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { inches, millimetres } from '../../shared/units.js';
import { adviceOn, howItLies } from '../rows/index.js';
import type { Page } from './page.js';

/** A spacing of the user's own, or one stored with the motif, in one layout. */
export interface Judged extends ChosenRows {
  readonly spacingMm: number;
  readonly leastMm: number;
  readonly largestOpenMm: number;
  readonly clear: boolean;
}

export function rowsReport(
  file: string,
  study: Study,
  nestings: readonly Nesting[],
  recommended: Nesting,
  judged: readonly Judged[],
  page: Page,
): string {
  const { setup, widthMm, heightMm } = study;
  const say = sayIn(setup.unit);
  const heading = `${page.paint.bold(page.plain(file))}: rows of a motif ${say.size(widthMm, heightMm)}, for a clearance of ${say.length(nestings[0].clearanceMm)}`;
  const advice = [
    ...judged.map((each) => judgement(each, say)),
    adviceOn(recommended, setup.battingMm, say),
    ...nestings.flatMap((nesting) => interlockWords(nesting, say)),
    ...howItLies(study, say),
  ];
  return [
    page.wrap(heading, '', '  '),
    '',
    ...layoutTable(nestings, recommended, say, page),
    '',
    page.paint.dim(page.wrap(legend, '  ')),
    '',
    ...advice.map((each) => page.wrap(each, '  ', '    ')),
  ].join('\n');
}

const head = ['', 'closest', 'even', 'nesting by', 'inner', 'seam', 'uneven'];
const legend =
  'inner, seam: the largest open circles at the even spacing, inside the motif and between two rows; uneven: 1.00 is as even as lines can lie, 1.2 is good, 2 is clumped; * recommended';

/** Each layout in two lines, the user's unit above. */
function layoutTable(nestings: readonly Nesting[], recommended: Nesting, say: Say, page: Page): string[] {
  const isInches = say.short(25.4).endsWith('in');
  const [first, second] = isInches ? [inches, millimetres] : [millimetres, inches];
  const lines: string[][] = [head];
  for (const nesting of nestings) {
    const { closestSpacingMm, evenSpacingMm, nestingOffsetMm, even } = nesting;
    const name = `${nesting === recommended ? '*' : ' '} ${nesting.layout}`;
    const numbers = (text: (mm: number, leastMm?: number) => string) => [
      text(closestSpacingMm, closestSpacingMm),
      text(evenSpacingMm, closestSpacingMm),
      nestingOffsetMm < 0 ? `apart ${text(-nestingOffsetMm)}` : text(nestingOffsetMm),
      even.inner ? text(even.inner.diameterMm) : '',
      even.seam ? text(even.seam.diameterMm) : '',
    ];
    const [above, below] = [numbers(first), numbers(second)];
    if (!even.inner) above[3] = 'none';
    if (!even.seam) above[4] = 'none';
    lines.push([name, ...above, even.unevenness.toFixed(2)], ['', ...below, '']);
  }
  const widths = head.map((_, i) => Math.max(...lines.map((line) => stringWidth(line[i]))));
  return lines.map((line, row) => {
    const text = line
      .map((cell, i) => (i === 0 ? cell.padEnd(widths[i]) : cell.padStart(widths[i])))
      .join('  ')
      .trimEnd();
    return row > 0 && row % 2 === 0 ? page.paint.dim(text) : text;
  });
}

function judgement(
  { layout, spacingMm, clearanceMm, leastMm, largestOpenMm, clear }: Judged,
  say: Say,
): string {
  const open = `the largest open circle is ${say.length(largestOpenMm)}`;
  const at = `At ${say.length(spacingMm)}, ${layout} rows`;
  if (leastMm === 0) return `${at} cross; ${open}.`;
  const near = `${say.length(leastMm)} apart at the nearest`;
  if (clear) return `${at} keep clear of each other, ${near}; ${open}.`;
  return `${at} come too near to each other, ${near}, where the clearance is ${say.length(clearanceMm)}; ${open}.`;
}

/** More of them are no help at the machine; `--json` has them all. */
const mostTold = 2;

/** The widest ones, which leave most room when the machine is set. */
function interlockWords({ layout, interlocksMm }: Nesting, say: Say): string[] {
  if (interlocksMm.length === 0) return [];
  const widest = [...interlocksMm].sort((a, b) => b[1] - b[0] - (a[1] - a[0])).slice(0, mostTold);
  const told = interlocksMm.filter((each) => widest.includes(each));
  const stretches = told.map(([from, to]) => `from ${say.spacing(from, from)} to ${say.length(to)}`);
  const others = interlocksMm.length - told.length;
  const more =
    others > 0 ? `, and at ${say.count(others, 'narrower stretch', 'narrower stretches')} of spacings` : '';
  return [`Hooked into one another, ${layout} rows also keep clear ${say.list(stretches)}${more}.`];
}
