import { rule } from '../shared/rule.js';

export default rule({
  id: 'plausible-size',
  severity: 'warning',
  mend: null,
  limits: { leastMm: 10, mostMm: 3000 },
  what: 'The motif is of a size that can be meant.',
  why: 'A motif the size of a fingernail or of a bed is mostly a mix-up of units when the drawing was saved.',
  remedy: 'Check the units in your drawing program, or give the size with --height or --width.',
  *judge({ widthMm, heightMm }, { leastMm, mostMm }, say) {
    const [small, large] = [Math.min(widthMm, heightMm), Math.max(widthMm, heightMm)];
    const fact = { unit: 'mm' as const };
    const size = `The motif is ${say.size(widthMm, heightMm)}`;
    if (large > mostMm)
      yield {
        ...fact,
        measured: large,
        limit: mostMm,
        message: `${size}: ${widthMm === large ? 'wider' : 'taller'} than ${say.length(mostMm)}. Check the units it was saved in, or give its size with --height or --width.`,
      };
    if (small < leastMm)
      yield {
        ...fact,
        measured: small,
        limit: leastMm,
        message: `${size}: ${heightMm === small ? 'lower' : 'narrower'} than ${say.length(leastMm)}. Check the units it was saved in, or give its size with --height or --width.`,
      };
  },
});
