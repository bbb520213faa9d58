import { rule } from '../shared/rule.js';

export default rule({
  id: 'repeat-collision',
  severity: 'warning',
  mend: null,
  limits: { nearMm: 0.8, mostPlaces: 8 },
  what: 'Neighbouring repeats of a row keep clear of each other.',
  why: 'Where they cross or touch, the line crosses itself at every join in a way its designer never drew.',
  remedy: 'Lead the ends farther out, or draw the parts that overhang the ends smaller.',
  unless: ['outlined-line'],
  *judge(study, { nearMm, mostPlaces }, say) {
    const meeting = study.isOneStroke ? study.repeatMeeting(nearMm) : null;
    if (meeting === null) return;
    const { crossings, leastMm, at, lyingMm, more } = meeting;
    const places = `${say.count(crossings.length, 'place')}${more ? ' at least' : ''}`;
    const fact = { limit: nearMm, unit: 'mm' as const, atLeast: more };
    if (lyingMm > 0)
      yield {
        ...fact,
        at: crossings,
        measured: 0,
        message: `${more ? 'At least ' : ''}${say.length(lyingMm)} of each repeat lies on the next one, beside their join. Lead the ends farther out, so that the repeats stand farther apart, or leave out on one side what both have there.`,
      };
    else if (crossings.length > mostPlaces)
      yield {
        ...fact,
        at: crossings,
        measured: 0,
        severity: 'error',
        message: `Each repeat is laid over the next: they cross at ${places}. Lead the ends out to the edges, so that the repeats stand farther apart.`,
      };
    else if (crossings.length > 0)
      yield {
        ...fact,
        at: crossings,
        measured: 0,
        message: `Each repeat meets the next at ${places} beside their join. Lead the ends farther out, or draw what overhangs them smaller.`,
      };
    else if (leastMm < nearMm)
      yield {
        ...fact,
        at: [at],
        measured: leastMm,
        message: `Each repeat comes as near as ${say.beside(leastMm, nearMm)} to the next, nearer than ${say.length(nearMm)}. Lead the ends farther out, or draw what overhangs them smaller.`,
      };
  },
});
