import { rule } from '../shared/rule.js';

export default rule({
  id: 'level-ends',
  severity: 'error',
  mend: 'reach',
  limits: { dropMm: 0.5 },
  what: 'The line ends at the height at which it starts.',
  why: 'Otherwise every repeat begins above or below the place where the last one ended, and the row climbs or sinks across the quilt.',
  remedy: 'Level the ends in your drawing program, or let linewright mend --reshape do it.',
  unless: ['outlined-line'],
  *judge({ repeat, start, end, runsLeft, isOneStroke }, { dropMm }, say) {
    const drop = Math.abs(repeat.dy);
    if (!isOneStroke || repeat.assumed || drop <= dropMm) return;
    yield {
      at: [runsLeft ? start.at : end.at],
      measured: drop,
      limit: dropMm,
      unit: 'mm',
      message: `The right end lies ${say.length(drop)} ${repeat.dy > 0 ? 'below' : 'above'} the left one, so a row of repeats would ${repeat.dy > 0 ? 'sink' : 'climb'} by that much at each. Level the ends${say.orMend('reach')}.`,
    };
  },
});
