/** `--found` and `--expected` as an alignment. */
import type { Pair, Pass } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit } from '../../shared/setup.js';
import { type Alignment, alignmentOf } from '../plan/align.js';
import { parseTwoPlaces } from '../setup/lengths.js';
import type { Typed } from './options.js';

export interface Placed {
  readonly found: readonly [Pair, Pair];
  /** Null where the places to check of the pass are meant. */
  readonly expected: readonly [Pair, Pair] | null;
}

/** Null where no place was found. */
export function placedFrom(typed: Typed, unit: LengthUnit): Placed | null {
  if (typed.found === undefined) return null;
  return {
    found: parseTwoPlaces(typed.found as string, unit, '--found'),
    expected:
      typed.expected === undefined ? null : parseTwoPlaces(typed.expected as string, unit, '--expected'),
  };
}

/** @throws Refusal where the pass has no places to check and none were typed, or two coincide */
export function alignmentFrom({ found, expected: typed }: Placed, { pass, checkMm }: Pass): Alignment {
  const expected = typed ?? checkMm;
  if (expected === null)
    throw new Refusal(
      `Pass ${pass} has no two places to check: name the places that were looked for with --expected "X, Y; X, Y".`,
    );
  return alignmentOf(expected, found);
}
