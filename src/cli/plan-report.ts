/** What `plan` says: the choices, the one taken, and its passes. */
import { grouped } from '../../shared/grouped.js';
import type { NumberedChoice, Pass, Plan } from '../../shared/plan.js';
import { sayIn } from '../../shared/say.js';
import type { LengthUnit } from '../../shared/setup.js';
import { changesIn } from '../plan/pass-words.js';
import type { Page } from './page.js';

export function planReport(plan: Plan, unit: LengthUnit, page: Page): string {
  const say = sayIn(unit);
  const { quilt, totals, bobbins } = plan;
  const taken = plan.choices[plan.chosen - 1];
  const whole = wholeWords(taken);
  const sums = [
    `${say.count(totals.rows, 'row')} in ${say.count(totals.passes, 'pass', 'passes')}, ${say.thread(totals.lengthMm / 1000)} of line, ${say.thread(totals.linkMm / 1000)} of it links in the margin, ${grouped(totals.stitches)} stitches.`,
    `Thread: needle ${say.thread(totals.needleThreadM)}, bobbin ${say.thread(totals.bobbinThreadM)}, waste in it.`,
    ...(bobbins ? [`Bobbins: ${bobbins.needed}.`] : []),
    ...(totals.minutes === null ? [] : [`Stitching takes ${grouped(Math.ceil(totals.minutes))} minutes.`]),
    ...(totals.price === null ? [] : [`Price: ${totals.price.toFixed(2)}.`]),
  ];
  return [
    page.wrap(
      `${page.paint.bold(page.plain(plan.file))}: a top of ${say.size(quilt.widthMm, quilt.heightMm)}, ${say.length(quilt.marginMm)} margin`,
      '',
      '  ',
    ),
    '',
    ...plan.choices.map((choice) => choiceLines(choice, choice === taken, say, page)),
    '',
    page.wrap(
      `Set the motif ${say.length(taken.heightMm)} high, ${taken.layout} rows ${say.length(taken.spacingMm)} apart${whole && `: ${whole}`}.`,
      '  ',
      '    ',
    ),
    '',
    ...plan.passes.map((pass) => page.wrap(passLine(pass, plan, say), '  ', '    ')),
    '',
    ...sums.map((each) => page.wrap(each, '  ', '    ')),
  ].join('\n');
}

function wholeWords({ wholeAcross, wholeDown }: NumberedChoice): string {
  if (wholeAcross && wholeDown) return 'whole across and down';
  return wholeAcross ? 'whole across' : wholeDown ? 'whole down' : '';
}

function choiceLines(
  choice: NumberedChoice,
  isTaken: boolean,
  say: ReturnType<typeof sayIn>,
  page: Page,
): string {
  const { number, layout, heightMm, spacingMm, repeats, rows, passes, largestOpenMm } = choice;
  const whole = wholeWords(choice);
  return page.wrap(
    `${isTaken ? '*' : ' '} ${number}. ${layout}, ${say.short(heightMm)} high, ${say.count(repeats, 'repeat')} across, ${say.count(rows, 'row')} ${say.short(spacingMm)} apart, ${say.count(passes, 'pass', 'passes')}, open circle ${say.short(largestOpenMm)}${whole && `; ${whole}`}`,
    '',
    '     ',
  );
}

function passLine(pass: Pass, plan: Plan, say: ReturnType<typeof sayIn>): string {
  const { rows, advanceMm, stitches, minutes } = pass;
  const named = rows.length === 1 ? `row ${rows[0]}` : `rows ${rows[0]} to ${rows[rows.length - 1]}`;
  const words = [
    `Pass ${pass.pass}: ${named}`,
    ...(pass.pass > 1 ? [`roll on by ${say.short(advanceMm)}`] : []),
    `${grouped(stitches)} stitches`,
    ...(minutes === null ? [] : [`${grouped(Math.ceil(minutes))} min`]),
    ...changesIn(pass, plan),
  ];
  return `${words.join(', ')}.`;
}
