/** Places on a curve, and its parts. `Bezier` holds x and y of each control point in turn: 3 points or 4. */

export type Bezier = ArrayLike<number>;

/** The curve's part up to t and its part from t on, by de Casteljau's construction. */
export function split(curve: Bezier, t: number): [Bezier, Bezier] {
  const left: number[] = [];
  const right: number[] = [];
  let row = curve;
  while (row.length > 0) {
    left.push(row[0], row[1]);
    right.unshift(row[row.length - 2], row[row.length - 1]);
    const next: number[] = [];
    for (let i = 0; i + 2 < row.length; i++) next.push(row[i] + t * (row[i + 2] - row[i]));
    row = next;
  }
  return [left, right];
}

/** The place at `angle` on the arc whose numbers begin at `coords[at]`. */
export function arcPlace(coords: Float64Array, at: number, angle: number): [number, number] {
  const cos = Math.cos(angle);
  const sin = Math.sin(angle);
  return [
    coords[at] + cos * coords[at + 2] + sin * coords[at + 4],
    coords[at + 1] + cos * coords[at + 3] + sin * coords[at + 5],
  ];
}
