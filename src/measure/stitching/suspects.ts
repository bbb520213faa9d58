/**
 * Where a stitch might cut off too much: the line is looked at closely only there, so that a check grows with the bends
 * of the line and not with its length.
 *
 * The line has to turn for a stitch to leave it, least where the stitch is laid evenly over a single turn: by
 * 2 atan(2 s / c) for a cut s off a chord c. A stitch that takes more than one and a half times its length of line has
 * turned by more than that. What is no suspect is none for a shorter stitch either, as long as the cut is the same share
 * of it: the stretch it is held against is shorter.
 */
import type { WalkedLine } from './walked-line.js';

/** Line that a stitch may need after it, where it curls up and for the leg of a corner there; in stitches. */
const stitchesAfter = 7;

/** A stretch of a line, and the segments of it from which a stitch might cut off too much, ascending. */
interface SuspectStretch {
  readonly line: WalkedLine;
  readonly segments: readonly number[];
}

/** The stretches of a line that matter, apart from one another, in its order; numbers are those within the stretch. */
export function suspectStretches(line: WalkedLine, stitchMm: number, cutMm: number): SuspectStretch[] {
  const { runMm } = line;
  const last = runMm.length - 1;
  const stretches: SuspectStretch[] = [];
  let segments: number[] = [];
  let from = 0;
  let to = -1;
  const close = () => {
    if (segments.length > 0)
      stretches.push({ line: part(line, from, to), segments: segments.map((segment) => segment - from) });
  };
  for (const segment of suspectSegments(line, stitchMm, cutMm)) {
    if (segment > to) {
      close();
      [from, segments] = [segment, []];
    }
    segments.push(segment);
    to = Math.max(to, segment + 1);
    while (to < last && runMm[to] < runMm[segment + 1] + stitchesAfter * stitchMm) to++;
  }
  close();
  return stretches;
}

function suspectSegments({ runMm, turnedRad }: WalkedLine, stitchMm: number, cutMm: number): number[] {
  const leastTurn = 2 * Math.atan((2 * cutMm) / stitchMm);
  const suspects: number[] = [];
  let ahead = 0;
  for (let p = 0; p + 1 < runMm.length; p++) {
    while (ahead + 1 < runMm.length && runMm[ahead] < runMm[p + 1] + 1.5 * stitchMm) ahead++;
    if (turnedRad[ahead] - turnedRad[p] >= leastTurn) suspects.push(p);
  }
  return suspects;
}

/** The line from one point up to another. */
function part(line: WalkedLine, from: number, to: number): WalkedLine {
  const { points, runMm, turnedRad } = line;
  return {
    ...line,
    points: points.subarray(2 * from, 2 * to + 2),
    runMm: runMm.subarray(from, to + 1),
    turnedRad: turnedRad.subarray(from, to + 1),
  };
}
