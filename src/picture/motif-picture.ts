/** One motif on paper: the line, where it starts and ends, and its findings. Thumbnail, sheet and library show it. */
import type { Finding } from '../../shared/finding.js';
import type { Motif } from '../../shared/motif.js';
import { lastPoint } from '../../shared/polyline.js';
import { flagMarks } from './flag-marks.js';
import { endMark, lineMark, startMark } from './line-mark.js';
import { layOn, picture } from './sheet-of-paper.js';

export interface MotifPictureOptions {
  readonly widthPx: number;
  /** Their places are flagged, with the numbers that `flagged` gives them. */
  readonly findings?: readonly Finding[];
}

/** SVG text, `widthPx` wide. */
export function motifPicture(motif: Motif, { widthPx, findings = [] }: MotifPictureOptions): string {
  const box = { minX: 0, minY: 0, maxX: motif.widthMm, maxY: motif.heightMm };
  const sheet = layOn(box, widthPx);
  return picture(sheet, [
    lineMark(motif.strokes, sheet),
    ...endMarks(motif, sheet),
    ...flagMarks(findings, sheet),
  ]);
}

/** Of a motif in pieces there is no one start and end to mark. */
function endMarks({ strokes }: Motif, sheet: ReturnType<typeof layOn>): string[] {
  if (strokes.length !== 1) return [];
  return [startMark(strokes[0], sheet), endMark(lastPoint(strokes[0]), sheet)];
}
