/** Asks every rule for its verdict on a study, under the settings for that rule, and gathers the findings. */

import {
  type Finding,
  type MendName,
  placesListed,
  type Severity,
  severities,
} from '../../shared/finding.js';
import { grouped } from '../../shared/grouped.js';
import { type AnyRule, limitsOf, type Verdict } from '../../shared/rule.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';

/**
 * Findings, errors first and otherwise in the order of `rules`. Mends that were tried in vain are no longer advised.
 */
export function lint(study: Study, rules: readonly AnyRule[], inVain: readonly MendName[] = []): Finding[] {
  const say = sayIn(study.setup.unit, inVain);
  const findings: Finding[] = [];
  const fired = new Set<string>();
  for (const rule of rules) {
    const setting = study.setup.rules[rule.id] ?? {};
    const set = setting.severity;
    if (set === 'off' || rule.unless?.some((id) => fired.has(id))) continue;
    for (const verdict of rule.judge(study, limitsOf(rule, study.setup), say)) {
      fired.add(rule.id);
      const found = finding(rule, verdict, lighter(verdict.severity ?? set ?? rule.severity, set), say);
      const helps = found.mend !== null && !inVain.includes(found.mend);
      findings.push(helps ? found : { ...found, mend: null });
    }
  }
  return findings.sort((a, b) => weight(a.severity) - weight(b.severity));
}

function finding(rule: AnyRule, verdict: Verdict, severity: Severity, say: Say): Finding {
  const places = verdict.at ?? [];
  const count = verdict.places ?? places.length;
  const more =
    count > placesListed
      ? ` (Of ${say.count(count, 'place')} the worst ${grouped(placesListed)} are listed.)`
      : '';
  return {
    rule: rule.id,
    severity,
    message: verdict.message + more,
    places: places.slice(0, placesListed),
    measured: verdict.measured ?? null,
    limit: verdict.limit ?? null,
    unit: verdict.unit ?? null,
    ...(verdict.atLeast && { atLeast: true }),
    mend: verdict.mend === undefined ? rule.mend : verdict.mend,
  };
}

/** A severity that is set is the heaviest a rule gives: what a verdict itself takes lightly stays light. */
function lighter(own: Severity, set: Severity | undefined): Severity {
  return set !== undefined && weight(set) > weight(own) ? set : own;
}

function weight(severity: Severity): number {
  return severities.indexOf(severity);
}
