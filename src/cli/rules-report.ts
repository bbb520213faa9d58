/** The rules, for people to read: all in a list, or one with its reasons. */
import { Refusal } from '../../shared/refusal.js';
import type { AnyRule } from '../../shared/rule.js';
import { didYouMean } from '../setup/index.js';
import type { Page } from './page.js';

export function rulesList(rules: readonly AnyRule[], { paint, wrap }: Page): string {
  const room = Math.max(...rules.map(({ id }) => id.length)) + 2;
  return rules
    .map(({ id, severity, what }) => {
      const lead = `${id.padEnd(room)}${severity.padEnd(9)}`;
      return wrap(what, `${paint.bold(lead)}`, ' '.repeat(lead.length));
    })
    .join('\n');
}

export function ruleText(rule: AnyRule, { paint, wrap }: Page): string {
  const limits = Object.entries(rule.limits);
  return [
    `${paint.bold(rule.id)} (${rule.severity})`,
    '',
    wrap(rule.what),
    '',
    wrap(rule.why, 'Why: ', '     '),
    '',
    wrap(rule.remedy, 'Do:  ', '     '),
    ...(limits.length === 0
      ? []
      : ['', wrap(limits.map(([name, value]) => `${name} ${value}`).join(', '), 'Limits: ')]),
    ...(rule.mend === null ? [] : ['', `Mend: ${rule.mend}`]),
  ].join('\n');
}

/** @throws Refusal naming the nearest id there is */
export function ruleNamed(id: string, rules: readonly AnyRule[]): AnyRule {
  const found = rules.find((rule) => rule.id === id.toLowerCase());
  if (found) return found;
  const ids = rules.map((rule) => rule.id);
  throw new Refusal(`There is no rule "${id}".${didYouMean(id, ids)} linewright rules lists them all.`);
}
