import { rule } from '../shared/rule.js';

export default rule({
  id: 'smooth-join',
  severity: 'warning',
  mend: null,
  limits: { turnDeg: 45 },
  what: 'One repeat flows into the next without a corner.',
  why: 'A corner at every join draws the eye, so that the row looks like a string of copies instead of one line.',
  remedy: 'Let both ends run in the same direction in your drawing program, level for most motifs.',
  unless: ['outlined-line'],
  *judge({ joinTurnDeg, isOneStroke, runsLeft, start, end }, { turnDeg }, say) {
    if (!isOneStroke || joinTurnDeg === null || joinTurnDeg <= turnDeg) return;
    yield {
      at: runsLeft ? [start.at, end.at] : [end.at, start.at],
      measured: joinTurnDeg,
      limit: turnDeg,
      unit: 'deg',
      message: `The line turns by ${say.angle(joinTurnDeg)} where one repeat meets the next; up to ${say.angle(turnDeg)} looks smooth. Let both ends run in the same direction.`,
    };
  },
});
