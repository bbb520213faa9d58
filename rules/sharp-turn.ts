import { rule } from '../shared/rule.js';

export default rule({
  id: 'sharp-turn',
  severity: 'info',
  mend: null,
  limits: { legsDeg: 20 },
  what: 'The line does not double back on itself at a point.',
  why: 'At such a point the machine stops dead and reverses: stitches bunch up, and the point may round off.',
  remedy: 'Leave it if the point is meant; otherwise round it or open it a little in your drawing program.',
  unless: ['outlined-line'],
  *judge(study, { legsDeg }, say) {
    const points = study.cusps(legsDeg);
    if (points.length === 0) return;
    yield {
      at: points,
      measured: points.length,
      limit: 0,
      unit: 'count',
      message: `The line doubles back at ${say.count(points.length, 'point')}, sharper than ${say.angle(legsDeg)}. If a point is not meant, round it or open it a little.`,
    };
  },
});
