/** What `plan` says: the choices, the one taken, and its passes. */
import type { Plan } from '../../shared/plan.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { passWords } from '../plan/pass-words.js';
import { choiceWords, noThroatWords, settingWords, sumsInWords, tooOpenWords } from '../plan/plan-words.js';
import type { Page } from './page.js';

/** `remarks` are sentences about the motif itself. */
export function planReport(plan: Plan, remarks: readonly string[], setup: Setup, page: Page): string {
  const say = sayIn(setup.unit);
  const { quilt, chosen } = plan;
  const part = (sentence: string) => page.wrap(sentence, '  ', '    ');
  const tooOpen = tooOpenWords(plan, setup, say);
  return [
    page.wrap(
      `${page.paint.bold(page.plain(plan.file))}: a top of ${say.size(quilt.widthMm, quilt.heightMm)}, ${quilt.marginMm > 0 ? `${say.length(quilt.marginMm)} margin` : 'no margin'}`,
      '',
      '  ',
    ),
    '',
    ...plan.choices.map((choice) =>
      page.wrap(
        `${choice.number === chosen ? '*' : ' '} ${choice.number}. ${choiceWords(choice, say)}`,
        '',
        '     ',
      ),
    ),
    '',
    part(settingWords(plan, say)),
    ...remarks.map(part),
    ...tooOpen.map(part),
    '',
    ...plan.passes.map((pass) => part(`Pass ${pass.pass}: ${passWords(pass, plan, say)}.`)),
    ...noThroatWords(plan, setup).map(part),
    '',
    ...sumsInWords(plan, say).map(part),
  ].join('\n');
}
