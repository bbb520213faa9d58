/** Numbered flags for the places of findings, so that what a report calls 3 is what a picture marks with a 3. */
import type { Finding } from './finding.js';
import type { Point } from './plane.js';

/** A finding's worst places get a flag, up to this many. */
export const flagsPerFinding = 5;

export interface Flag {
  /** Counted from 1 through all the findings. */
  readonly number: number;
  readonly at: Point;
}

export interface Flagged {
  readonly finding: Finding;
  readonly flags: readonly Flag[];
}

export function flagged(findings: readonly Finding[]): Flagged[] {
  let number = 0;
  return findings.map((finding) => ({
    finding,
    flags: finding.places.slice(0, flagsPerFinding).map((at) => ({ number: ++number, at })),
  }));
}
