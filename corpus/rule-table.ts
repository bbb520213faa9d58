/** Writes the README's table of the rules from the rules themselves: `npm run readme`. */
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { rules } from '../rules/index.js';
import type { AnyRule } from '../shared/rule.js';

const readme = new URL('../README.md', import.meta.url);
const begin = '<!-- rules: made by npm run readme -->';
const end = '<!-- rules: end -->';

export function ruleTable(all: readonly AnyRule[]): string {
  const rows = all.map(({ id, severity, what, mend, limits }) => [
    `\`${id}\``,
    severity,
    what,
    Object.entries(limits)
      .map(([name, value]) => `\`${name}\` ${value}`)
      .join(', '),
    mend === null ? '' : `\`${mend}\``,
  ]);
  const table = [['rule', 'weight', 'what holds when it is content', 'limits', 'mend'], ...rows];
  const line = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  return [line(table[0]), line(table[0].map(() => '---')), ...table.slice(1).map(line)].join('\n');
}

/** The text with the table between the two marks made anew. */
export function withRuleTable(text: string, all: readonly AnyRule[]): string {
  const from = text.indexOf(begin);
  const to = text.indexOf(end);
  if (from < 0 || to < from) throw new Error('README.md has lost the marks between which the rules stand');
  return `${text.slice(0, from + begin.length)}\n\n${ruleTable(all)}\n\n${text.slice(to)}`;
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  writeFileSync(readme, withRuleTable(readFileSync(readme, 'utf8'), rules));
