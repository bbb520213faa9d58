/**
 * A subpath: one run of lines and curves drawn without lifting the pen, as SVG 2, chapter 9, has it.
 *
 * `ops` holds one code a segment, `coords` the numbers: the start first (2), then for each segment
 *   line       2: end
 *   quadratic  4: control, end
 *   cubic      6: control, control, end
 *   arc       10: centre, u, v (two conjugate half axes), angle at the start, sweep (radians), end;
 *                the place at angle t is centre + cos t u + sin t v
 * Arcs are kept in this form because every affine map turns it into another such arc exactly: only centre, u, v
 * and end are mapped.
 *
 * A closed subpath's last segment ends at its start (the reader adds the closing line where it has a length).
 */

export const Op = { line: 0, quadratic: 1, cubic: 2, arc: 3 } as const;

/** How many numbers of `coords` a segment takes, by its code. */
export const opSize: readonly number[] = [2, 4, 6, 10];

export interface Subpath {
  readonly ops: Uint8Array;
  readonly coords: Float64Array;
  readonly closed: boolean;
  /** Of a painted shape without a line that was read by its outline. */
  readonly fill?: Fill;
}

/** What of a shape's inside is painted (SVG 2, 13.4.2); its subpaths bear the same number. */
export interface Fill {
  readonly shape: number;
  readonly rule: 'nonzero' | 'evenodd';
}
