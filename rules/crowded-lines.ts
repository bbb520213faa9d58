import { rule } from '../shared/rule.js';

export default rule({
  id: 'crowded-lines',
  severity: 'warning',
  mend: null,
  limits: { nearMm: 0.8, overMm: 5 },
  what: 'Lines that run side by side keep a clear distance.',
  why: 'Closer than a needle can tell apart, two lines look like one that missed, and stiffen the quilt.',
  remedy: 'Draw the lines farther apart, or stitch the motif larger.',
  unless: ['outlined-line'],
  *judge(study, { nearMm, overMm }, say) {
    const { places: crowded, more } = study.crowding(nearMm, overMm);
    if (crowded.length === 0) return;
    const least = crowded.reduce((least, { leastMm }) => Math.min(least, leastMm), Infinity);
    yield {
      at: crowded.map(({ at }) => at),
      measured: least,
      limit: nearMm,
      unit: 'mm',
      atLeast: more,
      message: `Lines run side by side nearer than ${say.length(nearMm)}, as near as ${say.beside(least, nearMm)}, in ${more ? 'at least ' : ''}${say.count(crowded.length, 'place')}. Draw them farther apart, or stitch the motif larger.`,
    };
  },
});
