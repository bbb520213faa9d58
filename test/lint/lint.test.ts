import { describe, expect, test } from 'vitest';
import { placesListed } from '../../shared/finding.js';
import { rule, type Verdict } from '../../shared/rule.js';
import { defaultSetup, type RuleSetting } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { lint } from '../../src/lint/index.js';
import { motifOf } from '../../src/size/motif-of.js';

/** Rules see nothing of a study but what they ask for: here the motif and the setup. */
function study(rules: Record<string, RuleSetting> = {}): Study {
  const motif = motifOf([Float64Array.of(0, 0, 100, 50)]);
  return { motif, setup: { ...defaultSetup, rules } } as Study;
}

function yielding(
  id: string,
  severity: 'error' | 'warning' | 'info',
  verdicts: Verdict[],
  unless?: string[],
) {
  return rule({
    id,
    severity,
    mend: 'join',
    limits: { mostMm: 5 },
    what: 'w',
    why: 'y',
    remedy: 'r',
    unless,
    *judge(_study, { mostMm }) {
      for (const verdict of verdicts) yield { limit: mostMm, ...verdict };
    },
  });
}

const information = yielding('small-talk', 'info', [{ message: 'i' }]);
const warning = yielding('watch-out', 'warning', [{ message: 'w' }]);
const error = yielding('stop-here', 'error', [{ message: 'e' }]);

describe('findings', () => {
  test('errors come first, then warnings, each in the order of the rules', () => {
    const second = yielding('stop-too', 'error', [{ message: 'e2' }]);
    expect(lint(study(), [information, warning, error, second]).map(({ rule }) => rule)).toEqual([
      'stop-here',
      'stop-too',
      'watch-out',
      'small-talk',
    ]);
  });

  test('carry the mend of the rule unless the verdict names another or none', () => {
    const mixed = yielding('mixed', 'error', [
      { message: '1' },
      { message: '2', mend: 'drop' },
      { message: '3', mend: null },
    ]);
    expect(lint(study(), [mixed]).map(({ mend }) => mend)).toEqual(['join', 'drop', null]);
  });

  test('say null, not nothing, where there is no number', () => {
    const [finding] = lint(study(), [yielding('bare', 'info', [{ message: 'm', limit: undefined }])]);
    expect(finding).toEqual({
      rule: 'bare',
      severity: 'info',
      message: 'm',
      places: [],
      measured: null,
      limit: null,
      unit: null,
      mend: 'join',
    });
  });

  test('list so many places and say where there are more', () => {
    const at = Array.from({ length: placesListed + 234 }, (_, x) => ({ x, y: 0 }));
    const [finding] = lint(study(), [yielding('many', 'info', [{ message: 'Dozens.', at }])]);
    expect(finding.places).toEqual(at.slice(0, placesListed));
    expect(finding.message).toBe('Dozens. (Of 1,234 places the worst 1,000 are listed.)');
  });

  test('a rule stands back where an earlier one has fired, but not where that one is switched off', () => {
    const after = yielding('after', 'error', [{ message: 'a' }], ['stop-here']);
    expect(lint(study(), [error, after]).map(({ rule }) => rule)).toEqual(['stop-here']);
    expect(lint(study({ 'stop-here': { severity: 'off' } }), [error, after]).map(({ rule }) => rule)).toEqual(
      ['after'],
    );
  });
});

describe('settings of a rule', () => {
  test('off: it is not asked', () => {
    expect(lint(study({ 'watch-out': { severity: 'off' } }), [warning])).toEqual([]);
  });

  test('another severity, heavier or lighter', () => {
    expect(lint(study({ 'small-talk': { severity: 'error' } }), [information])[0].severity).toBe('error');
    expect(lint(study({ 'stop-here': { severity: 'info' } }), [error])[0].severity).toBe('info');
  });

  test('a verdict that weighs itself lighter stays lighter, and is never heavier than the setting', () => {
    const graded = yielding('graded', 'error', [
      { message: 'a', severity: 'info' },
      { message: 'b', severity: 'warning' },
      { message: 'c' },
    ]);
    const severities = (setting?: RuleSetting) =>
      lint(study(setting && { graded: setting }), [graded])
        .map(({ message, severity }) => `${message} ${severity}`)
        .sort();
    expect(severities()).toEqual(['a info', 'b warning', 'c error']);
    expect(severities({ severity: 'warning' })).toEqual(['a info', 'b warning', 'c warning']);
    expect(severities({ severity: 'info' })).toEqual(['a info', 'b info', 'c info']);
  });

  test('limits override by name', () => {
    expect(lint(study({ 'stop-here': { limits: { mostMm: 7 } } }), [error])[0].limit).toBe(7);
    expect(lint(study(), [error])[0].limit).toBe(5);
  });
});
