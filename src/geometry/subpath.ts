/** Subpaths under affine maps. */
import { Op, opSize, type Subpath } from '../../shared/subpath.js';
import type { Matrix } from './matrix.js';

/** The subpath under an affine map; singular maps are fine (arcs become flat ones). */
export function mapped(path: Subpath, m: Matrix): Subpath {
  const coords = new Float64Array(path.coords.length);
  mapCoords(path.ops, path.ops.length, path.coords, m, coords);
  return { ops: path.ops, coords, closed: path.closed };
}

/** Writes the start and the first `count` segments of `coords`, mapped by `m`, to `out`. */
export function mapCoords(
  ops: Uint8Array,
  count: number,
  coords: Float64Array,
  m: Matrix,
  out: Float64Array,
): void {
  const [a, b, c, d, e, f] = m;
  out[0] = a * coords[0] + c * coords[1] + e;
  out[1] = b * coords[0] + d * coords[1] + f;
  let i = 2;
  for (let n = 0; n < count; n++) {
    const size = opSize[ops[n]];
    const isArc = ops[n] === Op.arc;
    for (let j = i; j < i + size; j += 2) {
      // Of an arc the half axes are directions, which do not move, and the angles stay as they are.
      const part = isArc ? j - i : 0;
      const moves = part === 0 || part === 8;
      const x = coords[j];
      const y = coords[j + 1];
      out[j] = part === 6 ? x : a * x + c * y + (moves ? e : 0);
      out[j + 1] = part === 6 ? y : b * x + d * y + (moves ? f : 0);
    }
    i += size;
  }
}
