/**
 * Maps of space, for entities and blocks that lie in a system of their own: twelve numbers, three rows of four.
 * The system of an extrusion direction follows the arbitrary axis algorithm of the DXF Reference ("Object coordinate
 * systems"): within 1/64 of the pole, x runs along Y cross N, else along Z cross N.
 */
export type Map3 = readonly number[];
export type Vector = readonly [x: number, y: number, z: number];

export const identity3: Map3 = [1, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 0];

/** Does `second` first, then `first`. */
export function times(first: Map3, second: Map3): Map3 {
  const out: number[] = [];
  for (let row = 0; row < 12; row += 4) {
    const [a, b, c, d] = [first[row], first[row + 1], first[row + 2], first[row + 3]];
    for (let column = 0; column < 4; column++) {
      const along = a * second[column] + b * second[column + 4] + c * second[column + 8];
      out.push(column === 3 ? along + d : along);
    }
  }
  return out;
}

/** The system of an extrusion direction, as a map from it; null where the direction is the usual one or none. */
export function systemOf([nx, ny, nz]: Vector): Map3 | null {
  if (nx === 0 && ny === 0 && nz >= 0) return null;
  const [zx, zy, zz] = unit([nx, ny, nz]);
  const isNearPole = Math.abs(zx) < 1 / 64 && Math.abs(zy) < 1 / 64;
  const [xx, xy, xz] = unit(cross(isNearPole ? [0, 1, 0] : [0, 0, 1], [zx, zy, zz]));
  const [yx, yy, yz] = cross([zx, zy, zz], [xx, xy, xz]);
  return [xx, yx, zx, 0, xy, yy, zy, 0, xz, yz, zz, 0];
}

export function cross([ax, ay, az]: Vector, [bx, by, bz]: Vector): Vector {
  return [ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx];
}

/** Of length 1; no direction stays none. */
export function unit([x, y, z]: Vector): Vector {
  const size = Math.max(Math.abs(x), Math.abs(y), Math.abs(z));
  if (size === 0) return [0, 0, 0];
  const [sx, sy, sz] = [x / size, y / size, z / size];
  const length = Math.hypot(sx, sy, sz);
  return [sx / length, sy / length, sz / length];
}
