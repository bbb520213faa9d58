import type { Point, Polyline } from '../../shared/plane.js';
import type { Setup } from '../../shared/setup.js';
import { firstPoint, lastPoint } from '../geometry/polyline.js';
import { studyOf } from '../measure/index.js';
import { motifOf } from '../size/motif-of.js';
import type { Heading } from './lead.js';

/** What brought the ends of a line nearer to making a row. Coordinates are those of the line before. */
export interface ReachStep {
  readonly line: Polyline;
  readonly message: string;
  readonly at: readonly Point[];
  readonly movedMm: number;
  readonly added: readonly Polyline[];
  /** Where a place of the line before lies now. */
  place(at: Point): Point;
}

/** A step, or why there is none; both null where nothing is wrong. */
export interface ReachTry {
  readonly step: ReachStep | null;
  readonly left: string | null;
}

export const asItIs: ReachTry = { step: null, left: null };

/** Where the line starts and ends, and its direction there. */
export function headingsOf(line: Polyline, setup: Setup): { from: Heading; to: Heading } {
  const { start, end } = studyOf(motifOf([line]), setup);
  return { from: { ...start, at: firstPoint(line) }, to: { ...end, at: lastPoint(line) } };
}

/** True where neighbouring repeats of the line cross, or come nearer than `clearMm` away from their join. */
export function repeatsCollide(line: Polyline, clearMm: number, setup: Setup): boolean {
  const meeting = studyOf(motifOf([line]), setup).repeatMeeting(clearMm);
  return meeting !== null && (meeting.crossings.length > 0 || meeting.leastMm < clearMm);
}

/** True where `led`, the line with something added, crosses and doubles itself no more than the line, and its repeats keep clear. */
export function isClean(led: Polyline, line: Polyline, clearMm: number, setup: Setup): boolean {
  const [was, is] = [line, led].map((each) => studyOf(motifOf([each]), setup));
  return (
    is.crossings.places.length <= was.crossings.places.length &&
    is.retraces.totalMm <= was.retraces.totalMm + doubledMm &&
    !repeatsCollide(led, clearMm, setup)
  );
}

/** Less line on line than this is only where the lead leaves, mm. */
const doubledMm = 1;
