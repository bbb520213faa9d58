/** A plan in words: what a choice is, what to set, what it comes to. */
import { grouped } from '../../shared/grouped.js';
import type { NumberedChoice, Plan } from '../../shared/plan.js';
import type { Say } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { minutesText } from './pass-words.js';

/** "brick, 5 7/16 in high, 7 repeats across, 13 rows 5 11/16 in apart, 5 passes, open circle 1 13/16 in; whole down". */
export function choiceWords(choice: NumberedChoice, say: Say): string {
  const { layout, heightMm, spacingMm, repeats, rows, passes, largestOpenMm } = choice;
  const parts = [
    layout,
    `${say.short(heightMm)} high`,
    `${say.count(repeats, 'repeat')} across`,
    say.count(rows, 'row') + (rows > 1 ? ` ${say.length(spacingMm)} apart` : ''),
    say.count(passes, 'pass'),
    `open circle ${say.short(largestOpenMm)}`,
  ];
  return [parts.join(', '), ...wholeWords(choice)].join('; ');
}

function wholeWords({ wholeAcross, wholeDown }: NumberedChoice): string[] {
  if (wholeAcross && wholeDown) return ['whole across and down'];
  if (wholeAcross) return ['whole across'];
  return wholeDown ? ['whole down'] : [];
}

/** What to set on the machine. */
export function settingWords({ choices, chosen }: Pick<Plan, 'choices' | 'chosen'>, say: Say): string {
  const taken = choices[chosen - 1];
  const { layout, heightMm, spacingMm, rows } = taken;
  const apart = rows > 1 ? `, ${layout} rows ${say.length(spacingMm)} apart` : '';
  return `Set the motif ${[`${say.length(heightMm)} high${apart}`, ...wholeWords(taken)].join(': ')}.`;
}

/** Rows, line, thread, bobbins, time and price: a sentence each. */
export function sumsInWords({ quilt, totals, bobbins }: Plan, say: Say): string[] {
  return [
    `${say.count(totals.rows, 'row')} in ${say.count(totals.passes, 'pass')}, ${say.thread(totals.lengthMm / 1000)} of line, ${linkWords(totals.linkMm, quilt.marginMm, say)}, ${grouped(totals.stitches)} stitches.`,
    `Thread: needle ${say.thread(totals.needleThreadM)}, bobbin ${say.thread(totals.bobbinThreadM)}, waste in it.`,
    ...(bobbins ? [`Bobbins: ${bobbins.needed}.`] : []),
    ...(totals.minutes === null ? [] : [`Stitching takes ${minutesText(totals.minutes)} minutes.`]),
    ...(totals.price === null ? [] : [`Price: ${totals.price.toFixed(2)}.`]),
  ];
}

/** Shorter than half a centimetre is nothing in yards or metres with two digits, mm. */
const noLinkMm = 5;

function linkWords(linkMm: number, marginMm: number, say: Say): string {
  if (linkMm < noLinkMm) return 'none of it links';
  const where = marginMm > 0 ? 'in the margin' : "along the top's edge";
  return `${say.thread(linkMm / 1000)} of it links ${where}`;
}

/** Where the choice taken leaves more open than the batting allows: how much, and the motif that would not. */
export function tooOpenWords(
  { choices, chosen }: Pick<Plan, 'choices' | 'chosen'>,
  { battingMm, clearanceMm }: Pick<Setup, 'battingMm' | 'clearanceMm'>,
  say: Say,
): string[] {
  const { heightMm, largestOpenMm } = choices[chosen - 1];
  if (battingMm === null || largestOpenMm <= battingMm) return [];
  // The circle shrinks with the motif, but the clearance in it does not.
  const smallerMm = (heightMm * (battingMm - clearanceMm)) / (largestOpenMm - clearanceMm);
  const remedy = smallerMm > 0 ? `: plan the motif about ${say.atMost(smallerMm)} high, with --height` : '';
  return [
    `A circle of ${say.beside(largestOpenMm, battingMm)} holds no stitching, more than the ${say.length(battingMm)} that the batting allows${remedy}.`,
  ];
}

/** Without a throat passes cannot be worked out: what to do about that, where there is more than one row. */
export function noThroatWords(
  { totals }: Pick<Plan, 'totals'>,
  { throatMm }: Pick<Setup, 'throatMm'>,
): string[] {
  if (throatMm !== null || totals.rows < 2) return [];
  return [
    'No throat was given, so all rows are taken as one pass. Give that of your machine, as in --throat 18in, to have the passes worked out.',
  ];
}
