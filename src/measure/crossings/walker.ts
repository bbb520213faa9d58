/** Two walkers that go along their strokes side by side, to see how far the strokes run together. */
import { nearestShare } from '../../geometry/segment.js';
import type { SegmentIndex } from '../../near/segment-index.js';

interface Spot {
  readonly index: SegmentIndex;
  readonly segment: number;
  readonly share: number;
}

/** Walks along a stroke from a spot, one way. */
export class Walker {
  wentMm = 0;
  nextX = 0;
  nextY = 0;
  /** From here to the next point, mm. */
  stepMm = 0;
  atEnd = false;
  private readonly index: SegmentIndex;
  private readonly stroke: number;
  private readonly alongMm: number;
  private next: number;
  private x: number;
  private y: number;

  constructor(
    { index, segment, share }: Spot,
    private readonly way: 1 | -1,
  ) {
    const { points, strokeOf } = index;
    const i = 2 * segment;
    this.index = index;
    this.stroke = strokeOf[segment];
    this.alongMm = index.alongMm(segment, share);
    this.x = points[i] + share * (points[i + 2] - points[i]);
    this.y = points[i + 1] + share * (points[i + 3] - points[i + 1]);
    this.next = way > 0 ? segment + 1 : segment;
    this.lookAhead();
  }

  /** The way, added up, that two walkers can go before they meet or one comes round again; or Infinity. */
  wayTo(other: Walker): number {
    const whole = this.index.strokeLengthMm(this.stroke);
    const round = this.index.closed[this.stroke] ? whole : Infinity;
    if (other.stroke !== this.stroke || other.way === this.way) return 2 * round;
    const ahead = this.way * (other.alongMm - this.alongMm);
    return ahead >= 0 ? ahead : ahead + round;
  }

  distanceTo(x: number, y: number): number {
    const share = nearestShare(x, y, this.x, this.y, this.nextX, this.nextY);
    return Math.hypot(x - this.x - share * (this.nextX - this.x), y - this.y - share * (this.nextY - this.y));
  }

  /** Goes to the place before the next point that is nearest to (x, y). */
  goBeside(x: number, y: number): void {
    const share = nearestShare(x, y, this.x, this.y, this.nextX, this.nextY);
    this.wentMm += share * this.stepMm;
    this.stepMm -= share * this.stepMm;
    this.x += share * (this.nextX - this.x);
    this.y += share * (this.nextY - this.y);
  }

  goToNext(): void {
    this.wentMm += this.stepMm;
    this.x = this.nextX;
    this.y = this.nextY;
    this.next += this.way;
    this.lookAhead();
  }

  private lookAhead(): void {
    const { points, firstPoints, closed } = this.index;
    const first = firstPoints[this.stroke];
    const last = firstPoints[this.stroke + 1] - 1;
    if (this.next < first || this.next > last) {
      this.atEnd = !closed[this.stroke];
      this.next = this.way > 0 ? first + 1 : last - 1;
    }
    this.nextX = points[2 * this.next];
    this.nextY = points[2 * this.next + 1];
    this.stepMm = Math.hypot(this.nextX - this.x, this.nextY - this.y);
  }
}

/**
 * Lets two walkers go side by side as far as they stay within `apartMm` of each other, and says how far each went;
 * `parts` is false where they were stopped by a loose end, by meeting each other or by having been right round.
 */
export function together(p: Walker, q: Walker, apartMm: number) {
  const between = p.wayTo(q);
  for (;;) {
    if (p.atEnd || q.atEnd || p.wentMm + q.wentMm >= between) {
      return { wentMm: p.wentMm, otherWentMm: q.wentMm, parts: false };
    }
    const [leader, follower] = p.stepMm <= q.stepMm ? [p, q] : [q, p];
    if (follower.distanceTo(leader.nextX, leader.nextY) > apartMm) {
      return { wentMm: p.wentMm, otherWentMm: q.wentMm, parts: true };
    }
    follower.goBeside(leader.nextX, leader.nextY);
    leader.goToNext();
  }
}
