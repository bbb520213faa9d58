/** What `rows` says: a table of the layouts, what to choose, and how the spacing asked for fares. */
import type { Nesting } from '../../shared/rows.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { inches, millimetres } from '../../shared/units.js';
import {
  adviceOn,
  battingWords,
  howItLies,
  type JudgedRows,
  judgementWords,
  throatWords,
} from '../rows/index.js';
import { assumedSizeWords } from '../tasks/assumed-size.js';
import type { Page } from './page.js';
import { type Column, table } from './table.js';

export function rowsReport(
  file: string,
  study: Study,
  nestings: readonly Nesting[],
  recommended: Nesting,
  judged: readonly JudgedRows[],
  page: Page,
): string {
  const { setup, widthMm, heightMm } = study;
  const say = sayIn(setup.unit);
  const heading = `${page.paint.bold(page.plain(file))}: rows of a motif ${say.size(widthMm, heightMm)}, for a clearance of ${say.length(nestings[0].clearanceMm)}`;
  const advice = [
    ...assumedSizeWords(study),
    ...judged.map((each) => judgementWords(each, setup.battingMm, say)),
    adviceOn(recommended, setup.battingMm, say),
    ...battingWords(study, recommended.layout, say),
    ...throatWords(study, judged[0]?.spacingMm ?? recommended.evenSpacingMm, say),
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

const head: readonly Column[] = [
  { head: '' },
  ...['closest', 'even', 'nesting by', 'inner', 'seam', 'uneven'].map((each) => ({
    head: each,
    isNumber: true,
  })),
];
const legend =
  'inner, seam: the largest open circles at the even spacing, inside the motif and between two rows; uneven: 1.00 is as even as lines can lie, 1.2 is good, 2 is clumped; * recommended';

/** Each layout in two lines, the user's unit above. */
function layoutTable(nestings: readonly Nesting[], recommended: Nesting, say: Say, page: Page): string[] {
  const isInches = say.short(25.4).endsWith('in');
  const [first, second] = isInches ? [inches, millimetres] : [millimetres, inches];
  const lines: string[][] = [];
  for (const nesting of nestings) {
    const { closestSpacingMm, evenSpacingMm, nestingOffsetMm, even } = nesting;
    const name = `${nesting === recommended ? '*' : ' '} ${nesting.layout}`;
    const numbers = (text: (mm: number, leastMm?: number) => string) => [
      text(closestSpacingMm, closestSpacingMm),
      text(evenSpacingMm, evenSpacingMm),
      nestingOffsetMm < 0 ? `apart ${text(-nestingOffsetMm)}` : text(nestingOffsetMm),
      even.inner ? text(even.inner.diameterMm) : '',
      even.seam ? text(even.seam.diameterMm) : '',
    ];
    const [above, below] = [numbers(first), numbers(second)];
    if (!even.inner) above[3] = 'none';
    if (!even.seam) above[4] = 'none';
    lines.push([name, ...above, even.unevenness.toFixed(2)], ['', ...below, '']);
  }
  return table(head, lines).map((text, row) => (row > 0 && row % 2 === 0 ? page.paint.dim(text) : text));
}

/** More of them are no help at the machine; `--json` has them all. */
const mostTold = 2;

/** The widest ones, which leave most room when the machine is set. */
function interlockWords({ layout, interlocksMm }: Nesting, say: Say): string[] {
  if (interlocksMm.length === 0) return [];
  const widest = [...interlocksMm].sort((a, b) => b[1] - b[0] - (a[1] - a[0])).slice(0, mostTold);
  const told = interlocksMm.filter((each) => widest.includes(each));
  const stretches = told.map(([from, to]) => `from ${say.spacing(from)} to ${say.length(to)}`);
  const others = interlocksMm.length - told.length;
  const more = others > 0 ? `, and at ${say.count(others, 'narrower stretch')} of spacings` : '';
  return [`Hooked into one another, ${layout} rows also keep clear ${say.list(stretches)}${more}.`];
}
