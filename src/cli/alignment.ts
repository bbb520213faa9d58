/** `--found` and `--expected` as an alignment. */
import type { Pass } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { LengthUnit } from '../../shared/setup.js';
import { type Alignment, alignmentOf } from '../plan/align.js';
import { parseTwoPlaces } from '../setup/lengths.js';
import type { Typed } from './options.js';

/** @throws Refusal where the pass has no places to check and none were typed, or two coincide */
export function alignmentFrom(typed: Typed, { pass, checkMm }: Pass, unit: LengthUnit): Alignment {
  const found = parseTwoPlaces(typed.found as string, unit, '--found');
  const expected =
    typed.expected === undefined ? checkMm : parseTwoPlaces(typed.expected as string, unit, '--expected');
  if (expected === null)
    throw new Refusal(
      `Pass ${pass} has no two places to check: name the places that were looked for with --expected "X, Y; X, Y".`,
    );
  return alignmentOf(expected, found);
}
