/** What to do with the rows, in sentences that a quilter can act on. */
import type { Layout } from '../../shared/layout.js';
import type { Nesting } from '../../shared/rows.js';
import type { Say } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';

const layingOut: Readonly<Record<Layout, string>> = {
  straight: 'every row like the one above',
  brick: 'every second row shifted by half a repeat',
  mirrored: 'every second row flipped top to bottom and shifted by half a repeat',
  turned: 'every second row turned by half a turn',
};

/** "Set the rows 5 1/4 in (133.4 mm) apart, every second row shifted by half a repeat; they nest by 7/8 in (22.2 mm)." */
export function adviceOn(nesting: Nesting, battingMm: number | null, say: Say): string {
  const { layout, evenSpacingMm, nestingOffsetMm, even } = nesting;
  const sentences = [
    `Set the rows ${say.spacing(evenSpacingMm)} apart, ${layingOut[layout]}; ${nestingWords(nestingOffsetMm, say)}.`,
    seamWords(nesting, say),
  ];
  if (battingMm !== null && even.largestOpenMm > battingMm) {
    sentences.push(
      `The largest open circle is ${say.length(even.largestOpenMm)} then, more than the ${say.length(battingMm)} that the batting allows: stitch the motif smaller.`,
    );
  }
  return sentences.filter(Boolean).join(' ');
}

/** "they nest by 7/8 in (22.2 mm)", or that they stand apart. */
function nestingWords(nestingOffsetMm: number, say: Say): string {
  if (Math.abs(nestingOffsetMm) < 0.05) return "that is the motif's own height";
  return `they ${nestingOffsetMm > 0 ? 'nest' : 'stand apart'} by ${say.length(nestingOffsetMm)}`;
}

/** How far apart the rows may be set at most, where the batting's label limits open circles. */
export function battingWords(study: Study, layout: Layout, say: Say): string[] {
  const { battingMm } = study.setup;
  if (battingMm === null) return [];
  const widest = study.battingRows(layout);
  const allows = `The batting allows open circles of ${say.length(battingMm)}`;
  if (widest === null) return [`${allows}: no spacing of ${layout} rows keeps within that at this size.`];
  return [`${allows}: ${layout} rows may be up to ${say.atMost(widest.spacingMm)} apart.`];
}

/** How many rows go into the throat at once, where its depth was given. */
export function throatWords({ setup, heightMm, widthMm }: Study, spacingMm: number, say: Say): string[] {
  const { throatMm } = setup;
  if (throatMm === null) return [];
  if (heightMm > throatMm)
    return [
      `The motif is taller than the throat's usable depth of ${say.length(throatMm)}: the largest size that fits is ${say.size((widthMm * throatMm) / heightMm, throatMm)}.`,
    ];
  const rows = 1 + Math.floor((throatMm - heightMm) / spacingMm + 1e-9);
  return [
    `The throat of ${say.length(throatMm)} holds ${say.count(rows, 'row')} at ${say.spacing(spacingMm)} before the quilt is rolled on, with the take-up roll empty.`,
  ];
}

/** How the seam between the rows looks against the motif itself. */
function seamWords({ even, evened, clearanceMm, closestSpacingMm, gapMm }: Nesting, say: Say): string {
  const { inner, seam } = even;
  if (gapMm !== null) {
    const open = `The motif closes no pocket of its own, so it looks the same at any spacing: `;
    return even.largestOpenMm > gapMm + 0.1
      ? `${open}that is the closest for a clearance of ${say.length(clearanceMm)}, and circles of ${say.length(even.largestOpenMm)} stay open.`
      : `${open}at that one the largest open circle is ${say.length(even.largestOpenMm)}. Say another with --gap; the closest for a clearance of ${say.length(clearanceMm)} is ${say.spacing(closestSpacingMm)}.`;
  }
  if (evened || seam === null || inner === null) return '';
  return `No spacing hides the seam altogether: circles of ${say.length(seam.diameterMm)} stay open between the rows, of ${say.length(inner.diameterMm)} inside the motif. That is the closest for a clearance of ${say.length(clearanceMm)}.`;
}

/** What the rows had to be taken for, where the motif is no single line from edge to edge; a sentence each. */
export function howItLies({ repeat, isOneStroke, strokes }: Study, say: Say): string[] {
  const notes: string[] = [];
  if (!isOneStroke) {
    notes.push(
      `The motif is in ${say.count(strokes.length, 'stroke')}: the rows are worked out with all of them as they lie.`,
    );
  }
  if (repeat.assumed) {
    notes.push(
      `The line does not run from one edge across to the other: the motif's width, ${say.length(repeat.dx)}, is taken for the repeat.`,
    );
  } else if (Math.abs(repeat.dy) > levelMm) {
    notes.push(
      `The line ends ${say.length(repeat.dy)} ${repeat.dy > 0 ? 'lower' : 'higher'} than it starts: the rows are worked out as if every repeat began at the same height.`,
    );
  }
  return notes;
}

/** Ends that differ by less in height are level, mm. */
const levelMm = 0.5;
