import { rule } from '../shared/rule.js';

export default rule({
  id: 'one-stroke',
  severity: 'error',
  mend: 'route',
  limits: {},
  what: 'The motif is one unbroken line.',
  why: 'At every break the machine stops, ties off, moves and starts again, in each repeat of each row.',
  remedy:
    'Join the pieces in your drawing program where they should meet, or let linewright mend --reshape find one line through them all.',
  unless: ['outlined-line'],
  *judge({ breaks, setup }, _limits, say) {
    const wide = breaks
      .filter(({ gapMm }) => gapMm > setup.joinToleranceMm)
      .sort((a, b) => b.gapMm - a.gapMm);
    if (wide.length === 0) return;
    const gaps =
      wide.length === 1
        ? `a gap of ${say.length(wide[0].gapMm)}`
        : `gaps of up to ${say.length(wide[0].gapMm)}`;
    yield {
      at: wide.map(({ at }) => at),
      measured: wide[0].gapMm,
      limit: setup.joinToleranceMm,
      unit: 'mm',
      message: `The line is in ${say.count(wide.length + 1, 'piece')}, with ${gaps} between them; the machine would stop at each. Join them in your drawing program, or let linewright mend --reshape find one line through them.`,
    };
  },
});
