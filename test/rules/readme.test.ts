import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { withRuleTable } from '../../corpus/rule-table.js';
import { rules } from '../../rules/index.js';

test('the table in the README is the one made from the rules: npm run readme', () => {
  const text = readFileSync(new URL('../../README.md', import.meta.url), 'utf8');
  expect(text).toBe(withRuleTable(text, rules));
});
