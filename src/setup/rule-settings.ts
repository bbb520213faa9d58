/** The part of `linewright.json` that sets rules and limits, held against the rules there are. */
import { severities } from '../../shared/finding.js';
import { Refusal } from '../../shared/refusal.js';
import type { AnyRule } from '../../shared/rule.js';
import { defaultLimits, type Limits, type RuleSetting } from '../../shared/setup.js';
import { didYouMean, nearestOf } from './nearest.js';

type Json = Readonly<Record<string, unknown>>;

/** @throws Refusal naming the wrong key or value and the nearest right one */
export function ruleSettings(
  value: unknown,
  file: string,
  rules: readonly AnyRule[],
): Record<string, RuleSetting> {
  const byId = requireObject(value, `${file}: "rules"`);
  for (const [id, setting] of Object.entries(byId)) {
    const rule = rules.find((each) => each.id === id);
    if (rule === undefined) {
      throw new Refusal(
        `${file}: there is no rule "${id}".${nearestOf(
          id,
          rules.map((each) => each.id),
        )}`,
      );
    }
    requireRuleSetting(requireObject(setting, `${file}: "rules.${id}"`), `${file}: "rules.${id}`, rule);
  }
  return byId as Record<string, RuleSetting>;
}

function requireRuleSetting(setting: Json, said: string, rule: AnyRule): void {
  requireKeys(setting, ['severity', 'limits'], `${said}`);
  const weights = [...severities, 'off'];
  if ('severity' in setting && !weights.includes(setting.severity as string)) {
    const hint = typeof setting.severity === 'string' ? didYouMean(setting.severity, weights) : '';
    throw new Refusal(
      `${said}.severity" takes one of ${weights.map((each) => `"${each}"`).join(', ')}.${hint}`,
    );
  }
  if (!('limits' in setting)) return;
  const limits = requireObject(setting.limits, `${said}.limits"`);
  requireKeys(limits, Object.keys(rule.limits), `${said}.limits`);
  requireNumbers(limits, `${said}.limits`);
}

/** @throws Refusal naming the wrong key or value and the nearest right one */
export function limitSettings(value: unknown, file: string): Limits {
  const limits = requireObject(value, `${file}: "limits"`);
  requireKeys(limits, Object.keys(defaultLimits), `${file}: "limits`);
  requireNumbers(limits, `${file}: "limits`);
  return { ...defaultLimits, ...limits };
}

export function requireObject(value: unknown, said: string): Json {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    throw new Refusal(`${said} has to be an object in braces.`);
  }
  return value as Json;
}

function requireKeys(object: Json, right: readonly string[], said: string): void {
  for (const key of Object.keys(object)) {
    if (right.includes(key)) continue;
    if (right.length === 0) throw new Refusal(`${said}.${key}": this rule has no limits to set.`);
    throw new Refusal(`${said}.${key}": there is no such setting.${nearestOf(key, right)}`);
  }
}

function requireNumbers(object: Json, said: string): void {
  for (const [key, value] of Object.entries(object)) {
    if (typeof value !== 'number' || !(value >= 0 && value < Infinity)) {
      throw new Refusal(`${said}.${key}" takes a number from 0 up, not ${JSON.stringify(value)}.`);
    }
  }
}
