/** Lines drawn for the cases: plain figures that come near to what a rule looks for. */
import { type Knot, through } from '../spline.js';
import { arcTo, at, joined, lineTo, type Segment, type Stroke } from '../stroke.js';

/** Upright fingers on a level line, `count` of them: out and back, `apartMm` between, round at both ends. */
export function comb(count: number, apartMm: number, highMm = 60): Stroke {
  const r = apartMm / 2;
  const segments: Segment[] = [];
  let x = 0;
  for (let i = 0; i < count; i++) {
    segments.push(lineTo(x + 12 - r, 0), arcTo(r, false, x + 12, -r), lineTo(x + 12, -highMm));
    segments.push(arcTo(r, true, x + 12 + apartMm, -highMm), lineTo(x + 12 + apartMm, -r));
    segments.push(arcTo(r, false, x + 12 + apartMm + r, 0));
    x += 22;
  }
  segments.push(lineTo(x, 0));
  return { from: at(0, 0), segments };
}

/** Out, back and out again, `apartMm` between, between two hills that lead from edge to edge. */
export function echoes(apartMm: number, alongMm = 80): Stroke {
  const r = apartMm / 2;
  const [left, right] = [60, 60 + alongMm];
  return joined(
    through([
      [0, 0, -30],
      [30, -30, 0],
      [left, -apartMm, 0],
    ]),
    {
      from: at(left, -apartMm),
      segments: [
        lineTo(right, -apartMm),
        arcTo(r, true, right, 0),
        lineTo(left, 0),
        arcTo(r, false, left, apartMm),
        lineTo(right, apartMm),
      ],
    },
    through([
      [right, apartMm, 0],
      [right + 30, 30, 0],
      [right + 60, 0, -30],
    ]),
  );
}

/** A row of round loops above the line; each touches its neighbours in one point without crossing them. */
export const touchingLoops: Stroke = through([
  [0, 0, 0],
  ...[30, 62, 94, 126, 158].flatMap((x): Knot[] => [
    [x + 16, -22, -90],
    [x, -38, 180],
    [x - 16, -22, 90],
  ]),
  [188, 0, 0],
]);

/** Loops from one middle, `petals` of them, between an arriving and a leaving line. */
export function rosette(petals: number): Stroke {
  const knots: Knot[] = [[0, 0, 0]];
  const middle = 90;
  const apart = 360 / petals;
  for (let i = 0; i < petals; i++) {
    const axis = ((180 + (i + 0.5) * apart) * Math.PI) / 180;
    const place = (along: number, across: number): Knot => [
      middle + along * Math.cos(axis) - across * Math.sin(axis),
      along * Math.sin(axis) + across * Math.cos(axis),
    ];
    knots.push([middle, 0], place(30, 11), place(46, 0), place(30, -11));
  }
  knots.push([middle, 0], [180, 0, 0]);
  return through(knots);
}
