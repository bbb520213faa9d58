/**
 * A rule: what it finds, why that matters on the quilt, what to do, and a `judge` that turns measured facts into
 * findings. It measures nothing itself. Its thresholds are `limits`, which settings can override by name.
 */
import type { FindingUnit, MendName, Severity } from './finding.js';
import type { Point } from './plane.js';
import type { Say } from './say.js';
import type { Setup } from './setup.js';
import type { Study } from './study.js';

/** What a judge yields; the linter adds the rule's id, severity and mend. */
export interface Verdict {
  readonly message: string;
  /** Worst first; beyond `placesListed` none needs to be given. */
  readonly at?: readonly Point[];
  /** How many places there are, where not all of them are given. */
  readonly places?: number;
  readonly measured?: number;
  readonly limit?: number;
  readonly unit?: FindingUnit;
  /** True where the search ended at a limit: it is at least so much, in at least these places. */
  readonly atLeast?: boolean;
  /** Where this verdict weighs differently from the rule's own severity. */
  readonly severity?: Severity;
  /** Where another mend (or none: null) helps than the rule's own. */
  readonly mend?: MendName | null;
}

export interface Rule<Limits extends Readonly<Record<string, number>> = Readonly<Record<string, number>>> {
  readonly id: string;
  readonly severity: Severity;
  /** The mend that puts it right by default, if one can. */
  readonly mend: MendName | null;
  readonly limits: Limits;
  /** What holds when the rule is content, as one sentence. */
  readonly what: string;
  /** What happens on the quilt otherwise. */
  readonly why: string;
  /** What to do about it. */
  readonly remedy: string;
  /** Earlier rules whose finding makes this one's meaningless: where one of them fires, this one is not asked. */
  readonly unless?: readonly string[];
  judge(study: Study, limits: Limits, say: Say): Iterable<Verdict>;
}

export type AnyRule = Rule;

/** Checks the shape of a rule's definition at compile time and gives its limits their names. */
export function rule<const L extends Readonly<Record<string, number>>>(
  definition: Rule<{ readonly [K in keyof L]: number }> & { limits: L },
): AnyRule {
  return definition as unknown as AnyRule;
}

/** A rule's limits under these settings: what it judges by, and what the mends that put it right go by. */
export function limitsOf(of: AnyRule, { rules }: Pick<Setup, 'rules'>): Readonly<Record<string, number>> {
  return { ...of.limits, ...rules[of.id]?.limits };
}
