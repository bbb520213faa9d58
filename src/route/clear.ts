/** Whether a straight link crosses nothing that is drawn and runs along nothing. */
import type { Point } from '../../shared/plane.js';
import { distance } from '../geometry/point.js';
import { segmentCrossing, sharesWithin } from '../geometry/segment.js';
import type { SegmentIndex } from '../near/segment-index.js';

/** A link may touch what it starts and ends on, this far in from its ends, mm. */
const insetMm = 0.01;
/** What lies this near is on the link but for rounding; and on it for longer than this it runs along it, mm. */
const onMm = 1e-6;
const alongMm = 1e-5;

export function isClear(index: SegmentIndex, a: Point, b: Point): boolean {
  const lengthMm = distance(a, b);
  const inset = Math.min(insetMm, lengthMm / 4) / lengthMm;
  const [ax, ay] = [a.x + inset * (b.x - a.x), a.y + inset * (b.y - a.y)];
  const [bx, by] = [b.x - inset * (b.x - a.x), b.y - inset * (b.y - a.y)];
  const { points } = index;
  const shares = new Float64Array(2);
  let clear = true;
  index.visitBox(Math.min(ax, bx), Math.min(ay, by), Math.max(ax, bx), Math.max(ay, by), (s) => {
    const [cx, cy, dx, dy] = points.subarray(2 * s, 2 * s + 4);
    if (!clear) return;
    const isOn = sharesWithin(ax, ay, bx, by, cx, cy, dx, dy, onMm, shares);
    const runsAlong = isOn && (shares[1] - shares[0]) * lengthMm > alongMm;
    clear = !runsAlong && !segmentCrossing(ax, ay, bx, by, cx, cy, dx, dy);
  });
  return clear;
}
