import type { Layout } from './layout.js';
import type { Motif } from './motif.js';
import type { Point } from './plane.js';
import type { Setup } from './setup.js';

/** The largest circle, of its kind, that holds no stitching. The place is told in the top row's motif coordinates. */
export interface OpenCircle {
  readonly centre: Point;
  readonly diameterMm: number;
}

/** The stacked rows of one layout, seen at one spacing. */
export interface RowsAtSpacing {
  readonly spacingMm: number;
  /** Touches one row only; null where the motif closes no pocket. */
  readonly inner: OpenCircle | null;
  /** Touches two rows. */
  readonly seam: OpenCircle | null;
  /** The larger of the two, mm. */
  readonly largestOpenMm: number;
  /** Largest open circle over mean line spacing; about 1 for plain parallel lines. */
  readonly openness: number;
  /** Root mean square distance to the nearest stitching over that of parallel lines as dense: 1 is as even as can be. */
  readonly unevenness: number;
}

/** How the rows of one layout nest. */
export interface Nesting {
  readonly layout: Layout;
  readonly clearanceMm: number;
  readonly closestSpacingMm: number;
  readonly evenSpacingMm: number;
  /** Motif height minus even spacing; negative where the rows stand apart. */
  readonly nestingOffsetMm: number;
  readonly even: RowsAtSpacing;
  /** Spacings below the closest at which the rows still clear each other, ascending, not overlapping. */
  readonly interlocksMm: readonly (readonly [number, number])[];
  /**
   * False where no spacing from the closest up makes the seam circle as small as the inner one, or, where the motif closes
   * no pocket, the open circle as small as `gapMm`.
   */
  readonly evened: boolean;
  /** The open circle that the even spacing was set for, where the motif closes no pocket to measure by; else null. */
  readonly gapMm: number | null;
}

/** Two neighbouring rows at a spacing: how near they come. */
export interface RowDistance {
  readonly spacingMm: number;
  /** 0 where they meet or cross. */
  readonly leastMm: number;
  readonly at: Point;
}

/** The rows that the user asked for, or that are stored with the motif. */
export interface ChosenRows {
  /** Straight where none was chosen. */
  readonly layout: Layout;
  /** Null where no spacing was chosen. */
  readonly spacingMm: number | null;
  readonly clearanceMm: number;
}

/**
 * What was asked for comes before what is stored, and a stored spacing only goes with its own layout. The stored
 * clearance holds where none was said.
 */
export function chosenRows({ rows }: Pick<Motif, 'rows'>, setup: Setup): ChosenRows {
  const layout = setup.layout ?? rows?.layout ?? 'straight';
  const stored = rows?.layout === layout ? rows : undefined;
  return {
    layout,
    spacingMm: setup.spacingMm ?? stored?.spacing ?? null,
    clearanceMm: (setup.clearanceSaid ? undefined : stored?.clearance) ?? setup.clearanceMm,
  };
}

/** Files hold spacings to a thousandth of a millimetre: rows nearer than the clearance by that are not too near. */
const roundingMm = 0.001;

/** Whether rows that come as near as `leastMm` keep the clearance; rows that meet never do. */
export function keepsClear(leastMm: number, clearanceMm: number): boolean {
  return leastMm > 0 && leastMm >= clearanceMm - roundingMm;
}
