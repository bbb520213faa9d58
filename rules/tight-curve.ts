import { rule } from '../shared/rule.js';

function times(factor: number): string {
  return factor.toFixed(2).replace(/\.?0+$/, '');
}

export default rule({
  id: 'tight-curve',
  severity: 'warning',
  mend: null,
  // Longarms do not stitch finer than that: no shorter stitch is advised. A line that is smooth within shakeMm is shaky.
  limits: { cutMm: 0.4, finestPerInch: 20, shakeMm: 0.8 },
  what: 'Curves are wide enough for the stitch length.',
  why: 'A stitch is straight. On a curve that is too tight for it, it cuts the corner, and round shapes come out angular.',
  remedy:
    'Stitch the motif larger, or with shorter stitches (--spi), or draw those curves wider. Where they come from a shaky hand, linewright mend --reshape with --smooth takes them out.',
  unless: ['outlined-line'],
  *judge(study, { cutMm, finestPerInch, shakeMm }, say) {
    const { places: tight, more } = study.tightCurves(cutMm);
    if (tight.length === 0) return;
    const [worst] = tight;
    const them = tight.length === 1 ? 'it' : 'them';
    const { timesAsLarge, stitchesPerInch } = study.tightCurvesEnd(cutMm, finestPerInch);
    const cures = [
      ...(timesAsLarge === null ? [] : [`stitch the motif ${times(timesAsLarge)} times as large`]),
      ...(stitchesPerInch === null ? [] : [`stitch it with ${stitchesPerInch} stitches to the inch`]),
      `draw ${them} wider`,
    ];
    const shaky = study.isShakyAt(worst.at, shakeMm)
      ? ` If the hand shook there, linewright mend --reshape with --smooth ${shakeMm}mm makes the line smooth.`
      : '';
    yield {
      at: tight.map(({ at }) => at),
      measured: worst.cutMm,
      limit: cutMm,
      unit: 'mm',
      atLeast: more,
      message: `${more ? 'At least ' : ''}${say.count(tight.length, 'curve')} too tight for the stitch: at the worst, of radius ${say.length(worst.radiusMm)}, a stitch cuts off ${say.beside(worst.cutMm, cutMm)}, more than ${say.length(cutMm)}. To keep ${them} round, ${cures.join(', or ')}.${shaky}`,
    };
  },
});
