import { rule } from '../shared/rule.js';
import type { Study } from '../shared/study.js';
import { copiesBeside } from './repeated-line.js';

/** How far each end lies inside the edge it should reach, deepest first. */
function insets({ start, end, runsLeft }: Study) {
  const [left, right] = runsLeft ? [end, start] : [start, end];
  return [
    { name: 'left', at: left.at, mm: left.leftMm },
    { name: 'right', at: right.at, mm: right.rightMm },
  ].sort((a, b) => b.mm - a.mm);
}

export default rule({
  id: 'opposite-edges',
  severity: 'error',
  mend: 'reach',
  limits: { insideMm: 1, nearMm: 0.8 },
  what: 'The line starts at one side edge of the motif and ends at the other.',
  why: 'Repeats are joined end to start. Where the end is not across from the start, they cannot make a row; where an end lies inside its edge, repeats reach into each other.',
  remedy:
    'Lead the line out to both edges in your drawing program, or let linewright mend --reshape do it. A motif that runs down is turned by a quarter.',
  unless: ['outlined-line'],
  *judge(study, { insideMm, nearMm }, say) {
    const { start, end, repeat, widthMm, heightMm } = study;
    if (!study.isOneStroke) return;
    if (repeat.assumed) {
      // A copy drawn beside the line leads it back to where it began: where it ends is known once that is out.
      if (copiesBeside(study).length > 0) return;
      const across = Math.abs(end.at.x - start.at.x);
      const fact = { at: [end.at, start.at], measured: across, limit: widthMm / 2, unit: 'mm' as const };
      if (Math.abs(end.at.y - start.at.y) > heightMm / 2)
        yield {
          ...fact,
          mend: 'turn',
          message: `The motif runs down, not across: the line goes from the top to the bottom. Turn it by a quarter in your drawing program, or let linewright mend --reshape turn it.`,
        };
      else
        yield {
          ...fact,
          message: `The line ends only ${say.length(across)} across from where it starts, less than the ${say.length(widthMm / 2)} that are half the motif's width, so repeats cannot be joined into a row. Lead it from edge to edge${say.orMend('reach')}.`,
        };
      return;
    }

    const inside = insets(study).filter(({ mm }) => mm > insideMm);
    if (inside.length === 0) return;
    const meeting = study.repeatMeeting(nearMm);
    const meets = meeting !== null && (meeting.crossings.length > 0 || meeting.leastMm < nearMm);
    const where = say.list(
      inside.map(({ name, mm }) => `the ${name} end lies ${say.length(mm)} inside its edge`),
    );
    const fact = where.charAt(0).toUpperCase() + where.slice(1);
    yield {
      at: inside.map(({ at }) => at),
      measured: inside[0].mm,
      limit: insideMm,
      unit: 'mm',
      severity: meets ? 'warning' : 'info',
      message: meets
        ? `${fact}, and neighbouring repeats run into each other. Lead the line out to the edge${say.orMend('reach')}.`
        : `${fact}. Neighbouring repeats reach over each other there but keep clear, so nothing needs doing.`,
    };
  },
});
