/** What is said of a pass that was lined up. */
import type { Say } from '../../shared/say.js';
import type { Alignment } from './align.js';

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
