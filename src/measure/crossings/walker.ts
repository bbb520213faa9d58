/** Two walkers that go along their strokes side by side, to see how far the strokes run together. */
import { distanceBetween } from '../../geometry/point.js';
import { nearestShare, pointToSegment } from '../../geometry/segment.js';
import type { SegmentIndex } from '../../near/segment-index.js';

/** Steps as short as this are rounding, mm. */
const roundedMm = 1e-6;

/** A place on a segment, `alongMm` from the first point of its stroke. */
interface Spot {
  readonly index: SegmentIndex;
  readonly segment: number;
  readonly alongMm: number;
  readonly x: number;
  readonly y: number;
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
    { index, segment, alongMm, x, y }: Spot,
    private readonly way: 1 | -1,
  ) {
    this.index = index;
    this.stroke = index.strokeOf[segment];
    this.alongMm = alongMm;
    this.x = x;
    this.y = y;
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
    return distanceBetween(
      x,
      y,
      this.x + share * (this.nextX - this.x),
      this.y + share * (this.nextY - this.y),
    );
  }

  /** Goes to the place before the next point that is nearest to (x, y). */
  goBeside(x: number, y: number): void {
    const share = nearestShare(x, y, this.x, this.y, this.nextX, this.nextY);
    this.goTo(this.x + share * (this.nextX - this.x), this.y + share * (this.nextY - this.y), share);
    this.stepMm -= share * this.stepMm;
  }

  goToNext(): void {
    this.goTo(this.nextX, this.nextY, 1);
    this.next += this.way;
    this.lookAhead();
  }

  /** Does the line lead right back here over the way it came? Of steps shorter than `apartMm` that cannot be told. */
  turnsBack(apartMm: number): boolean {
    const ahead = this.pointBeyond(this.next, this.way);
    const behind = this.pointBeyond(this.next - this.way, this.way > 0 ? -1 : 1);
    if (ahead < 0 || behind < 0) return false;
    const [ax, ay, bx, by] = [this.xOf(ahead), this.yOf(ahead), this.xOf(behind), this.yOf(behind)];
    const { x, y } = this;
    if (distanceBetween(ax, ay, x, y) <= apartMm || distanceBetween(bx, by, x, y) <= apartMm) return false;
    return pointToSegment(ax, ay, x, y, bx, by) <= apartMm || pointToSegment(bx, by, x, y, ax, ay) <= apartMm;
  }

  /** From point p on, one way, the first point that is not here but for rounding; -1 beyond an end. */
  private pointBeyond(p: number, way: 1 | -1): number {
    const { firstPoints, closed } = this.index;
    const first = firstPoints[this.stroke];
    const last = firstPoints[this.stroke + 1] - 1;
    let at = p;
    for (let n = first; n <= last; n++) {
      if (at < first || at > last) {
        if (!closed[this.stroke]) return -1;
        at = way > 0 ? first + 1 : last - 1;
      }
      if (distanceBetween(this.xOf(at), this.yOf(at), this.x, this.y) > roundedMm) return at;
      at += way;
    }
    return -1;
  }

  private xOf(p: number): number {
    return this.index.points[2 * p];
  }

  private yOf(p: number): number {
    return this.index.points[2 * p + 1];
  }

  private goTo(x: number, y: number, share: number): void {
    this.wentMm += share * this.stepMm;
    this.x = x;
    this.y = y;
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
    this.stepMm = distanceBetween(this.nextX, this.nextY, this.x, this.y);
  }
}

/** How far two passes go together from one of their meetings on, mm along each. */
export interface Reach {
  readonly mm: number;
  readonly otherMm: number;
  /** False where they were stopped by a loose end, by one that turns back, by meeting each other or by having been right round. */
  parts(): boolean;
}

/** Lets two walkers go side by side as far as they stay within `apartMm` of each other. */
export function together(p: Walker, q: Walker, apartMm: number): Reach {
  const allMm = p.wayTo(q);
  for (;;) {
    if (p.atEnd || q.atEnd || p.wentMm + q.wentMm >= allMm)
      return { mm: p.wentMm, otherMm: q.wentMm, parts: () => false };
    const [leader, follower] = p.stepMm <= q.stepMm ? [p, q] : [q, p];
    if (follower.distanceTo(leader.nextX, leader.nextY) > apartMm)
      return {
        mm: p.wentMm,
        otherMm: q.wentMm,
        parts: () => !p.turnsBack(apartMm) && !q.turnsBack(apartMm),
      };
    follower.goBeside(leader.nextX, leader.nextY);
    leader.goToNext();
  }
}
