import { limitsOf, rule } from '../shared/rule.js';
import sharpTurn from './sharp-turn.js';

export default rule({
  id: 'smooth-join',
  severity: 'warning',
  mend: null,
  limits: { turnDeg: 45 },
  what: 'One repeat flows into the next without a corner.',
  why: 'A corner at every join draws the eye, so that the row looks like a string of copies instead of one line.',
  remedy: 'Let both ends run in the same direction in your drawing program, level for most motifs.',
  unless: ['outlined-line'],
  *judge({ joinTurnDeg, isOneStroke, runsLeft, start, end, setup }, { turnDeg }, say) {
    if (!isOneStroke || joinTurnDeg === null || joinTurnDeg <= turnDeg) return;
    // Shells and scallops meet in points, within the motif as between repeats.
    const isPoint = 180 - joinTurnDeg < limitsOf(sharpTurn, setup).legsDeg;
    yield {
      at: runsLeft ? [start.at, end.at] : [end.at, start.at],
      measured: joinTurnDeg,
      limit: turnDeg,
      unit: 'deg',
      message: isPoint
        ? 'The line turns right round where one repeat meets the next, in a point. Leave it if the motif has such points within it, as shells have; otherwise let both ends run in the same direction.'
        : `The line turns by ${say.angle(joinTurnDeg)} where one repeat meets the next; up to ${say.angle(turnDeg)} looks smooth. Let both ends run in the same direction.`,
    };
  },
});
