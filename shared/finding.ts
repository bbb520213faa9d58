import type { Point } from './plane.js';

export const severities = ['error', 'warning', 'info'] as const;
export type Severity = (typeof severities)[number];

export type FindingUnit = 'mm' | 'deg' | 'count' | 'percent';

export const mendNames = [
  'centre',
  'drop',
  'join',
  'untrace',
  'route',
  'reach',
  'smooth',
  'turn',
  'thin',
] as const;
export type MendName = (typeof mendNames)[number];

/** A finding lists its worst places up to this many; its message says where there are more. */
export const placesListed = 1000;

/** What a rule found in a motif. */
export interface Finding {
  readonly rule: string;
  readonly severity: Severity;
  /** What, where in words, how much, and what to do: a sentence or two for a quilter. */
  readonly message: string;
  /** Where, in the motif's millimetres; drawn on the picture as numbered flags. Worst first. */
  readonly places: readonly Point[];
  readonly measured: number | null;
  readonly limit: number | null;
  readonly unit: FindingUnit | null;
  /** True where the search ended at a limit: there are at least these places, and it measures at least so much. */
  readonly atLeast?: true;
  /** The mend that puts it right, if one can. */
  readonly mend: MendName | null;
}
