/** `linewright rules` from end to end, on the built program. */
import { describe, expect, it, vi } from 'vitest';
import { rules } from '../../rules/index.js';
import { linewright } from './run.js';

/** Whole processes, on a machine that may be busy. */
vi.setConfig({ testTimeout: 60_000 });

describe('rules', () => {
  it('lists every rule in 80 columns', () => {
    const { code, stdout } = linewright(['rules']);
    expect(code).toBe(0);
    const lines = stdout.trimEnd().split('\n');
    expect(
      lines.filter((line) => !line.startsWith(' ')).map((line) => line.split(/\s+/).slice(0, 2)),
    ).toEqual(rules.map(({ id, severity }) => [id, severity]));
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(80);
  });

  it.each(rules.map((rule) => rule.id))('says what %s finds, why it matters and what to do', (id) => {
    const { code, stdout } = linewright(['rules', id]);
    expect(code).toBe(0);
    const { what, why, remedy, limits } = rules.find((rule) => rule.id === id)!;
    const flat = stdout.replace(/\s+/g, ' ');
    for (const text of [what, why, remedy]) expect(flat).toContain(text);
    for (const [name, value] of Object.entries(limits)) expect(flat).toContain(`${name} ${value}`);
  });

  it('answers a wrong id with the nearest right one', () => {
    expect(linewright(['rules', 'near-gaps'])).toMatchObject({
      code: 2,
      stdout: '',
      stderr: 'There is no rule "near-gaps". Did you mean "near-gap"? linewright rules lists them all.\n',
    });
  });
});
