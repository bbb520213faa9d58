/** A row: repeats joined end to start, without end to the left and right. */

import { grouped } from '../../shared/grouped.js';
import type { Box, Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { defaultLimits } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { emptyBox, extendByBox } from '../geometry/box.js';
import { boundsOf, lengthOf } from '../geometry/polyline.js';
import { thinnedLine } from '../geometry/thinning.js';
import { onceFor, oncePer } from '../once.js';

/**
 * The row is the union of the strokes moved by every whole multiple of the repeat, so that neighbouring repeats may
 * overhang each other. It runs level: the drop of a motif whose ends are not level is left out.
 */
export interface Row {
  /** One repeat. */
  readonly strokes: readonly Polyline[];
  readonly repeatMm: number;
  /** Halfway between the start and the end of the motif: the turned layout turns about it. */
  readonly middleXMm: number;
  /** Of one repeat. */
  readonly box: Box;
  readonly heightMm: number;
  /** Line in one repeat. */
  readonly lengthMm: number;
}

/** The repeat of a motif without width, which is no repeat at all, mm. */
const narrowestMm = 1;

/**
 * The row that these strokes make every `repeatMm`. `middleXMm` is halfway between start and end, by default the
 * middle of a repeat that begins at the left edge. Throws a Refusal where there is no line of any length, or more
 * repeats overhang one another than `overhangingRepeats`.
 */
export function rowOf(
  strokes: readonly Polyline[],
  repeatMm: number,
  middleXMm?: number,
  overhangingRepeats = defaultLimits.overhangingRepeats,
): Row {
  const box = emptyBox();
  extendByBox(box, boundsOf(strokes));
  const repeat = repeatMm > 0.01 ? repeatMm : narrowestMm;
  const lengthMm = strokes.reduce((sum, stroke) => sum + lengthOf(stroke), 0);
  if (!(lengthMm > 0)) throw new Refusal('There is no line to make rows of, only dots.');
  if ((box.maxX - box.minX) / repeat > overhangingRepeats) {
    throw new Refusal(
      `More than ${grouped(overhangingRepeats)} repeats of the motif overhang one another: the repeat is far too narrow for its width.`,
    );
  }
  return {
    strokes,
    repeatMm: repeat,
    middleXMm: middleXMm ?? box.minX + repeat / 2,
    box,
    heightMm: box.maxY - box.minY,
    lengthMm,
  };
}

/** Lines with more points, drawn in finer steps on average than this, are looked at with fewer points, mm. */
const manyPoints = 50_000;
const fineStepMm = 0.25;
/** No point left out lies farther from the line than this, mm: a tenth of what open circles are right to. */
const thinMm = 0.01;

/**
 * The strokes as far as nearness to them goes: open circles, interlocks and how near rows come. Of a line drawn in a million steps of a
 * micrometre it is a line of as many points as its shape needs; others are themselves.
 */
export const strokesLookedAt = perRow((row): readonly Polyline[] => {
  const points = row.strokes.reduce((sum, stroke) => sum + stroke.length / 2, 0);
  if (points < manyPoints || row.lengthMm > fineStepMm * points) return row.strokes;
  return row.strokes.map((stroke) => thinnedLine(stroke, thinMm));
});

/** The row of a motif as measured. */
export function rowOfMotif({
  strokes,
  repeat,
  start,
  end,
  setup,
}: Pick<Study, 'strokes' | 'repeat' | 'start' | 'end' | 'setup'>): Row {
  const middleXMm = repeat.assumed ? undefined : (start.at.x + end.at.x) / 2;
  return rowOf(strokes, repeat.dx, middleXMm, setup.limits.overhangingRepeats);
}

/** `make`, worked out once for each row and kept as long as the row is. */
export function perRow<T>(make: (row: Row) => T): (row: Row) => T {
  return oncePer(make);
}

/** `make`, worked out once for each row and each choice of further arguments. */
export function perRowAnd<A extends readonly (string | number)[], T>(
  make: (row: Row, ...rest: A) => T,
): (row: Row, ...rest: A) => T {
  const keptOf = perRow((row) => onceFor((...rest: A) => make(row, ...rest)));
  return (row, ...rest) => keptOf(row)(...rest);
}
