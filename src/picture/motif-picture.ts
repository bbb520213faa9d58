/** One motif on paper: the line, where it starts and ends, and its findings. Thumbnail, sheet and library show it. */

import type { Finding } from '../../shared/finding.js';
import { flagged } from '../../shared/flags.js';
import type { Motif } from '../../shared/motif.js';
import type { Box } from '../../shared/plane.js';
import { extend } from '../geometry/box.js';
import { lastPoint } from '../geometry/polyline.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { flagMarks } from './flag-marks.js';
import { endMark, lineMark, startMark } from './line-mark.js';
import { overScan, scanUnder } from './scan-under.js';
import { layOn, picture, type SheetOfPaper } from './sheet-of-paper.js';

/** In motifs: their width or height, whichever is more. */
const farthest = 2;

export interface MotifPictureOptions {
  readonly widthPx: number;
  /** Their places are flagged, with the numbers that `flagged` gives them. */
  readonly findings?: readonly Finding[];
  /** Whether the scan that a line was traced from lies under it, pale. */
  readonly withScan?: boolean;
  /** For pictures that are not looked at any closer: points nearer than this to the one before are left out, in pixels. */
  readonly leastStepPx?: number;
}

/** SVG text, `widthPx` wide. */
export function motifPicture(
  motif: Motif,
  { widthPx, findings = [], withScan = false, leastStepPx = 0 }: MotifPictureOptions,
): string {
  const sheet = sheetFor(motif, findings, widthPx);
  const under = withScan ? scanUnder(motif.scan, sheet) : [];
  return picture(sheet, [
    ...under,
    lineMark(motif.strokes, sheet, { leastStepPx, ...(under.length > 0 && { width: overScan }) }),
    ...endMarks(motif, sheet),
    ...flagMarks(findings, sheet),
  ]);
}

/** The paper that the motif and its flagged places are laid on. */
export function sheetFor(
  motif: Pick<Motif, 'widthMm' | 'heightMm'>,
  findings: readonly Finding[],
  widthPx: number,
): SheetOfPaper {
  return layOn(boxWith(motif, findings), widthPx);
}

/**
 * The motif's box, widened for flagged places beside it: between rows, or where the next repeat collides. One that
 * lies farther off than `farthest` would shrink the motif to a speck, so the paper ends before it.
 */
function boxWith(
  { widthMm, heightMm }: Pick<Motif, 'widthMm' | 'heightMm'>,
  findings: readonly Finding[],
): Box {
  const reach = farthest * Math.max(widthMm, heightMm);
  const box = { minX: 0, minY: 0, maxX: widthMm, maxY: heightMm };
  for (const { flags } of flagged(findings))
    for (const { at } of flags)
      extend(
        box,
        Math.max(-reach, Math.min(at.x, widthMm + reach)),
        Math.max(-reach, Math.min(at.y, heightMm + reach)),
      );
  return box;
}

/** Of a motif in pieces there is no one start and end to mark; pieces that meet are one. */
function endMarks({ strokes: drawn }: Motif, sheet: ReturnType<typeof layOn>): string[] {
  const { strokes } = joinedStrokes(drawn);
  if (strokes.length !== 1) return [];
  const [{ line }] = strokes;
  return [startMark(line, sheet), endMark(lastPoint(line), sheet)];
}
