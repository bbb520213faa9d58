/** `--found` and `--expected` as an alignment, and what is said of it. */
import type { Pass } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { Say } from '../../shared/say.js';
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

/** More than this is no quilt rolled on a little askew, degrees. */
const mostTurnDeg = 45;

export function alignmentWords({ turnDeg, moveMm: [dx, dy], warning }: Alignment, say: Say): string[] {
  const turn = Math.abs(turnDeg);
  const turned = `Turned ${turn.toFixed(2)} degrees ${turnDeg < 0 ? 'anticlockwise' : 'clockwise'}, moved ${say.length(dx)} to the ${dx < 0 ? 'left' : 'right'} and ${say.length(dy)} ${dy < 0 ? 'up' : 'down'}.`;
  const swapped = 'Was the place on the left typed first, as on the sheet? So large a turn is unusual.';
  return [
    turned,
    ...(turn > mostTurnDeg ? [swapped] : []),
    ...(warning === null ? [] : [`Warning: ${warning}`]),
  ];
}
