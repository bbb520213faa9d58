/**
 * The study: the facts of one motif, section 5 of the design. Facts only, no verdicts: thresholds that a rule may
 * set come in as arguments. Each fact is computed once and only when asked for; `src/measure` does it.
 */

import type { Layout } from './layout.js';
import type { Motif } from './motif.js';
import type { Box, Point, Polyline } from './plane.js';
import type { Nesting, RowDistance, RowsAtSpacing } from './rows.js';
import type { Setup } from './setup.js';

/** Ends that coincide to this count as joined. */
export const coincideMm = 0.01;

export interface Study {
  readonly motif: Motif;
  readonly setup: Setup;

  /** Exact duplicates set aside, ends within 0.01 mm joined, dots set aside. */
  readonly strokes: readonly Polyline[];
  /** Strokes (joined first) less than 0.5 mm across. */
  readonly dots: readonly Point[];
  readonly duplicates: readonly Duplicate[];
  /** Strokes that run beside others all the way, within `withinMm`, and farther off than a retrace: `most` of them at most. */
  copies(withinMm: number, most: number): AtLeast<Copy>;
  /** Between nearest ends; one fewer than there are strokes. */
  readonly breaks: readonly Break[];
  /**
   * Least distances, line to line, between parts of the drawing that neither touch nor cross, mm, longest first: one
   * fewer than there are parts. Null where there are too many strokes to tell, or they lie in a lump.
   */
  readonly partGapsMm: readonly number[] | null;
  /** Strokes apart from the motif that look like registration marks, and frames round it. */
  readonly marks: readonly Mark[];

  /** Of the strokes. */
  readonly box: Box;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lengthMm: number;
  readonly points: number;

  /** True where there is one stroke, or the breaks are all within the join tolerance. */
  readonly isOneStroke: boolean;
  readonly start: End;
  readonly end: End;
  /** True where the line is one stroke and starts on the right. */
  readonly runsLeft: boolean;
  readonly repeat: Repeat;
  /** Degrees by which the line turns where one repeat meets the next, or null where the repeat is assumed. */
  readonly joinTurnDeg: number | null;

  readonly crossings: AtLeast<Crossing>;
  readonly retraces: Retraces;
  /**
   * How much of that can be left out with the line still going through everything from the same start to the same
   * end, mm; null where that is not known: several strokes, too many points, or too tangled.
   */
  readonly spareMm: number | null;
  /** Reversals sharper than `legsDeg` between their two legs. */
  cusps(legsDeg: number): readonly Point[];
  /** Curves (not corners) whose stitch cuts more than `cutMm`, worst first. */
  tightCurves(cutMm: number): AtLeast<TightCurve>;
  /** What leaves no such curve. */
  tightCurvesEnd(cutMm: number, finestPerInch: number): TightCurvesEnd;
  /** True where smoothing takes a shake out of the line about this place of it that moves nothing by more than `withinMm`. */
  isShakyAt(at: Point, withinMm: number): boolean;
  /** Stretches nearer to another part of the line than `withinMm` for more than `overMm`, worst first. */
  crowding(withinMm: number, overMm: number): AtLeast<Crowding>;
  /**
   * Where so much of the line lies on itself that no needle could follow it, or null. Of what lies in such lumps nothing is
   * told by the facts that hold line against line: these say that there is more.
   */
  readonly lump: Pile | null;
  /** Places through which `passes` or more passes run within half a stitch, most first. */
  piles(passes: number): AtLeast<Pile>;
  /** Steps between neighbouring points shorter than `stepMm`, repeated points among them. */
  shortSteps(stepMm: number): ShortSteps;
  /** The line read as the outline of a pen stroke, or null where it is none. */
  readonly outline: Outline | null;
  readonly stitches: Stitches;

  /** How the next repeat in the row meets this one, away from their join; null where the repeat is assumed. */
  repeatMeeting(withinMm: number): RepeatMeeting | null;

  nesting(layout: Layout): Nesting;
  /** The rows set as far apart as the batting allows; null where it allows none, or where no limit is set. */
  battingRows(layout: Layout): RowsAtSpacing | null;
  rowsAt(layout: Layout, spacingMm: number): RowsAtSpacing;
  rowDistance(layout: Layout, spacingMm: number): RowDistance;
}

export interface Duplicate {
  readonly at: Point;
  readonly lengthMm: number;
  /** Index into the motif's strokes. */
  readonly stroke: number;
}

export interface Copy extends Duplicate {
  /** The farthest it lies from the line beside it, mm. */
  readonly offMm: number;
}

export interface Break {
  readonly from: Point;
  readonly to: Point;
  readonly at: Point;
  readonly gapMm: number;
  /** Length of the shorter of the two strokes it lies between, mm. */
  readonly shorterMm: number;
}

export interface Mark {
  readonly kind: 'mark' | 'frame';
  readonly at: Point;
  /** Indices into the motif's strokes. */
  readonly strokes: readonly number[];
}

/** One end of the line. */
export interface End {
  readonly at: Point;
  /** Unit vector along the line in its walking direction, here. */
  readonly dx: number;
  readonly dy: number;
  /** Distances from the edges of the motif's box. */
  readonly leftMm: number;
  readonly rightMm: number;
  readonly topMm: number;
  readonly bottomMm: number;
}

/** End minus start in stitching direction left to right; else (width, 0), assumed. */
export interface Repeat {
  readonly dx: number;
  readonly dy: number;
  readonly assumed: boolean;
}

export interface Crossing {
  readonly at: Point;
  /** Acute angle between the passes, degrees; the sharpest where more than two meet. */
  readonly angleDeg: number;
  readonly passes: number;
}

/** What was found before a limit was reached: all there is, or at least so much. */
export interface AtLeast<T> {
  readonly places: readonly T[];
  /** True where the search ended at its limit: there may be more, and worse. */
  readonly more: boolean;
}

/** A stretch that is stitched over an earlier one. */
export interface Retrace {
  /** Where it begins, its middle, and where it ends. */
  readonly from: Point;
  readonly at: Point;
  readonly to: Point;
  /** Index into the study's strokes, and the stretch as lengths walked from that stroke's first point, mm. */
  readonly stroke: number;
  readonly fromMm: number;
  readonly toMm: number;
  /** Beyond the first pass, mm. */
  readonly extraMm: number;
}

export interface Retraces {
  readonly stretches: readonly Retrace[];
  readonly totalMm: number;
  /** True where the search ended at its limit: there may be more. */
  readonly more: boolean;
}

export interface TightCurve {
  readonly at: Point;
  readonly radiusMm: number;
  /** How far a stitch laid there leaves the curve, mm. */
  readonly cutMm: number;
}

export interface TightCurvesEnd {
  /** So many times as large; null where 20 times is not enough. */
  readonly timesAsLarge: number | null;
  /** At the motif's own size; null where 20 are not enough. */
  readonly stitchesPerInch: number | null;
}

export interface Crowding {
  readonly at: Point;
  readonly lengthMm: number;
  readonly leastMm: number;
}

export interface Pile {
  readonly at: Point;
  readonly passes: number;
}

export interface ShortSteps {
  readonly count: number;
  readonly places: readonly Point[];
}

export interface Outline {
  /** Distance between the two passes, mm. */
  readonly penMm: number;
  readonly at: Point;
  /** Indices into the study's strokes: those that are outlines. */
  readonly strokes: readonly number[];
}

export interface Stitches {
  readonly stitchLengthMm: number;
  readonly count: number;
  /** How far the worst stitch leaves the line, mm, and where. */
  readonly chordErrorMm: number;
  readonly chordErrorAt: Point;
  /** One repeat, waste allowance included. */
  readonly needleThreadM: number;
  readonly bobbinThreadM: number;
}

export interface RepeatMeeting {
  /** Places where neighbouring repeats cross or touch. */
  readonly crossings: readonly Point[];
  /** Least distance away from their join, mm; Infinity where none comes within `withinMm`. */
  readonly leastMm: number;
  readonly at: Point;
  /** Length that lies on a later repeat, away from the join, mm. */
  readonly lyingMm: number;
  /** True where repeats meet so often that only some of the places were looked at. */
  readonly more: boolean;
}
