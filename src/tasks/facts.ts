/** The numbers of a motif in sentences, as the report and the desk tell them. */
import { grouped } from '../../shared/grouped.js';
import type { Motif } from '../../shared/motif.js';
import { chosenRows, keepsClear, type Nesting } from '../../shared/rows.js';
import type { Say } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { retraceMm } from '../lint/report.js';

/** Each begins with what it is, and a colon. */
export function facts(study: Study, say: Say): string[] {
  const { motif, stitches, repeat, crossings, retraces } = study;
  const crossed = `${crossings.more ? 'at least ' : ''}${say.count(crossings.places.length, 'crossing')}`;
  const twice = retraceMm(study);
  return [
    ...scanned(motif, say),
    `Size: ${say.size(study.widthMm, study.heightMm)}${motif.assumedSize ? ', assumed' : ''}`,
    `Line: ${say.length(study.lengthMm)} in ${say.count(study.strokes.length, 'stroke')}, ${crossed}` +
      (twice > 0 ? `, ${retraces.more ? 'at least ' : ''}${say.length(twice)} stitched again` : ''),
    `Repeat: ${say.length(repeat.dx)}${repeat.assumed ? ', assumed' : ''}`,
    `Stitches: ${grouped(stitches.count)}, ${study.setup.stitchesPerInch} to the inch`,
    `Thread: needle ${say.thread(stitches.needleThreadM)}, bobbin ${say.thread(stitches.bobbinThreadM)}, ` +
      `${study.setup.threadWastePercent} % for waste in it`,
    straightRows(study.nesting('straight'), say),
    ...answers(study, say),
  ];
}

function scanned({ scan }: Motif, say: Say): string[] {
  if (!scan) return [];
  const { dotsPerInch, penMm, coveredShare, onInkShare } = scan;
  const dots = [...new Set(dotsPerInch.map((each) => grouped(Math.round(each))))].join(' x ');
  return [
    `Scan: ${dots} dots to the inch, the pen ${say.length(penMm)} wide`,
    `Drawn again: the line covers ${percent(coveredShare)} of the ink, and ${percent(onInkShare)} of it lies on ink`,
  ];
}

/** Never rounded up to all of it. */
function percent(share: number): string {
  return `${Math.floor(1000 * share) / 10} %`;
}

function straightRows(nesting: Nesting, say: Say): string {
  const { evenSpacingMm, closestSpacingMm, nestingOffsetMm, even, gapMm } = nesting;
  // A line without pockets has no spacing of its own: the gap wanted decides.
  return gapMm !== null
    ? `Straight rows: every ${say.spacing(evenSpacingMm)} for a gap of ${say.length(even.largestOpenMm)}; ` +
        `closest ${say.spacing(closestSpacingMm)}`
    : `Straight rows: every ${say.spacing(evenSpacingMm)}${nestText(nestingOffsetMm, say)}; ` +
        `closest ${say.spacing(closestSpacingMm)}`;
}

/** What was asked about throat, spacing and batting, answered also where it is no finding. */
function answers(study: Study, say: Say): string[] {
  const { motif, setup, heightMm } = study;
  const { throatMm, battingMm } = setup;
  const { layout, spacingMm, clearanceMm } = chosenRows(motif, setup);
  const answered: string[] = [];
  if (throatMm !== null) {
    const fits = heightMm <= throatMm ? 'fits' : 'does not fit';
    answered.push(`Throat: ${fits} the ${say.length(throatMm)} there are`);
  }
  const rows = spacingMm === null ? study.nesting(layout).even : study.rowsAt(layout, spacingMm);
  const apart = spacingMm === null ? say.spacing(rows.spacingMm) : say.length(spacingMm);
  if (spacingMm !== null) {
    const { leastMm } = study.rowDistance(layout, spacingMm);
    const clear = keepsClear(leastMm, clearanceMm) ? 'keep clear' : 'come too near';
    const near = leastMm === 0 ? 'cross' : `${clear}, ${say.length(leastMm)} apart at the nearest`;
    answered.push(`At ${apart}: ${layout} rows ${near}`);
  }
  if (spacingMm !== null || battingMm !== null) {
    const limit = battingMm === null ? '' : `; the batting allows ${say.length(battingMm)}`;
    answered.push(`Open circles at ${apart}: up to ${say.length(rows.largestOpenMm)}${limit}`);
  }
  return answered;
}

/** An offset too small to read on a ruler is not worth a word. */
function nestText(offsetMm: number, say: Say): string {
  if (Math.abs(offsetMm) < 0.5) return '';
  return offsetMm > 0
    ? `, nesting by ${say.length(offsetMm)}`
    : `, ${say.length(offsetMm)} clear between them`;
}
