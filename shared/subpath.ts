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
import type { Matrix } from './matrix.js';

export const Op = { line: 0, quadratic: 1, cubic: 2, arc: 3 } as const;

/** How many numbers of `coords` a segment takes, by its code. */
export const opSize: readonly number[] = [2, 4, 6, 10];

export interface Subpath {
  readonly ops: Uint8Array;
  readonly coords: Float64Array;
  readonly closed: boolean;
}

/** The subpath under an affine map; singular maps are fine (arcs become flat ones). */
export function mapped(path: Subpath, m: Matrix): Subpath {
  const [a, b, c, d, e, f] = m;
  const { ops, coords } = path;
  const out = new Float64Array(coords.length);
  const place = (i: number) => {
    out[i] = a * coords[i] + c * coords[i + 1] + e;
    out[i + 1] = b * coords[i] + d * coords[i + 1] + f;
  };
  const direction = (i: number) => {
    out[i] = a * coords[i] + c * coords[i + 1];
    out[i + 1] = b * coords[i] + d * coords[i + 1];
  };
  place(0);
  let i = 2;
  for (const op of ops) {
    if (op === Op.arc) {
      place(i);
      direction(i + 2);
      direction(i + 4);
      out[i + 6] = coords[i + 6];
      out[i + 7] = coords[i + 7];
      place(i + 8);
    } else {
      for (let j = 0; j < opSize[op]; j += 2) place(i + j);
    }
    i += opSize[op];
  }
  return { ops, coords: out, closed: path.closed };
}
