/** A picture of a pen drawing, and how the line traced from it fits the ink it was traced from. */
import type { Point } from './plane.js';

export interface Scan {
  /** Across and down, as they were taken. */
  readonly dotsPerInch: readonly [number, number];
  /** Width of the pen, mm. */
  readonly penMm: number;
  /** Of the ink, the share that the line covers when it is drawn again with that pen, a quarter of a pen allowed. */
  readonly coveredShare: number;
  /** Of the line drawn again, the share that lies on ink, a quarter of a pen allowed. */
  readonly onInkShare: number;
  /** Middles of places, the largest first: ink that the line does not cover, and line that lies on no ink. */
  readonly uncovered: readonly Point[];
  readonly offInk: readonly Point[];
  /** The picture, pale, to lie under the line; null where what was done to the line has no likeness for a picture. */
  readonly pale: PaleScan | null;
}

export interface PaleScan {
  /** PNG as a `data:` address. */
  readonly href: string;
  /** Where the picture's corners lie, in the same millimetres as the line. */
  readonly topLeft: Point;
  readonly topRight: Point;
  readonly bottomLeft: Point;
}
