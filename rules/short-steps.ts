import { rule } from '../shared/rule.js';

export default rule({
  id: 'short-steps',
  severity: 'info',
  mend: 'thin',
  limits: { stepMm: 0.05 },
  what: 'The points of the line are no closer together than they need to be.',
  why: 'Steps far below a stitch slow some machines down and can make the head stutter.',
  remedy: 'Let linewright mend thin the points: the line stays the same to the eye.',
  *judge(study, { stepMm }, say) {
    const { count, places } = study.shortSteps(stepMm);
    if (count === 0) return;
    yield {
      at: places,
      measured: count,
      limit: 0,
      unit: 'count',
      message: `${say.count(count, 'step')} from point to point ${count === 1 ? 'is' : 'are'} shorter than ${say.length(stepMm)}. Mending thins them; the line stays the same to the eye.`,
    };
  },
});
