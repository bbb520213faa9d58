import { rule } from '../shared/rule.js';

export default rule({
  id: 'tight-curve',
  severity: 'warning',
  mend: null,
  limits: { cutMm: 0.4 },
  what: 'Curves are wide enough for the stitch length.',
  why: 'A stitch is straight. On a curve that is too tight for it, it cuts the corner, and round shapes come out angular.',
  remedy: 'Stitch the motif larger, or with shorter stitches (--spi).',
  unless: ['outlined-line'],
  *judge(study, { cutMm }, say) {
    const tight = study.tightCurves(cutMm);
    if (tight.length === 0) return;
    const [worst] = tight;
    // The chord c that cuts s off a circle of radius r: (c/2)² = 2rs - s² (circle segment tables).
    const { stitchLengthMm } = study.stitches;
    const radiusWanted = (cutMm ** 2 + (stitchLengthMm / 2) ** 2) / (2 * cutMm);
    const factor = Math.ceil(20 * (radiusWanted / worst.radiusMm)) / 20;
    const chord = 2 * Math.sqrt(cutMm * (2 * worst.radiusMm - cutMm));
    const larger = `stitch the motif ${factor.toFixed(2).replace(/0$/, '')} times as large`;
    const shorter = chord > 0 ? ` or with ${Math.ceil(25.4 / chord)} stitches to the inch` : '';
    yield {
      at: tight.map(({ at }) => at),
      measured: worst.cutMm,
      limit: cutMm,
      unit: 'mm',
      message: `${say.count(tight.length, 'curve')} too tight for the stitch: at the tightest, of radius ${say.length(worst.radiusMm)}, a stitch cuts off ${say.length(worst.cutMm)}, more than ${say.length(cutMm)}. To keep it round, ${larger}${shorter}.`,
    };
  },
});
