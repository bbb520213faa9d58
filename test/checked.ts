/** A file of the corpus, read, measured and judged, as `linewright check` does it. */
import { readFileSync } from 'node:fs';
import { basename } from 'node:path';
import { rules } from '../rules/index.js';
import type { Finding } from '../shared/finding.js';
import type { Motif } from '../shared/motif.js';
import type { Point, Polyline } from '../shared/plane.js';
import { defaultSetup, type Setup } from '../shared/setup.js';
import { pointCount } from '../src/geometry/polyline.js';
import { pointToSegment } from '../src/geometry/segment.js';
import { lint } from '../src/lint/index.js';
import { studyOf } from '../src/measure/index.js';
import { readArtwork } from '../src/read/index.js';
import { toMotif } from '../src/size/index.js';

export async function motifIn(path: string, setup: Setup = defaultSetup): Promise<Motif> {
  return toMotif(await readArtwork(readFileSync(path), basename(path), setup), setup);
}

export function findingsOf(motif: Motif, setup: Setup = defaultSetup): Finding[] {
  return lint(studyOf(motif, setup), rules);
}

/** "error near-gap", for messages and comparisons. */
export function names(findings: readonly Finding[]): string[] {
  return findings.map(({ severity, rule }) => `${severity} ${rule}`);
}

/**
 * What is wrong with a motif of the corpus that should be sound: all but notes. The rope coil alone nests by half its
 * height, and it is right that it says so: set apart by its height its rows would leave bands twice as wide open.
 */
export function flawsOf(file: string, findings: readonly Finding[]): string[] {
  const nests = file.endsWith('rope-coil.svg') ? 'warning row-nesting' : null;
  return names(findings).filter((name) => !name.startsWith('info') && name !== nests);
}

/** Distance from a place to a line; a line of one point is that point. */
export function distanceTo(line: Polyline, { x, y }: Point): number {
  if (pointCount(line) === 1) return Math.hypot(x - line[0], y - line[1]);
  let least = Infinity;
  for (let i = 0; i + 3 < line.length; i += 2)
    least = Math.min(least, pointToSegment(x, y, line[i], line[i + 1], line[i + 2], line[i + 3]));
  return least;
}
