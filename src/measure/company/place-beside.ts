/**
 * A place that walks along the line, and the earlier pass beside it: found among the segments in the squares near it, or
 * kept from the place before. In time that grows with what lies in those squares up to the first pass that is near
 * enough; the latest before the place is asked first.
 */
import { nearestShare } from '../../geometry/segment.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { type Squares, squaresOf } from '../../near/squares.js';
import { type DirectionFinder, directionFinder } from './stroke-direction.js';

/** Passes that differ by less are as good as each other, mm. */
export const alikeMm = 0.005;

export interface SideBySide {
  /** mm */
  readonly withinMm: number;
  /** A step with a pass this near looks for no nearer one, mm. */
  readonly enoughMm: number;
  /** Places nearer to each other than this along the line do not count, mm. */
  readonly apartMm: number;
  /** Passes that differ more in direction (either way round) do not count, degrees. */
  readonly turnDeg: number;
  /** Stretches shorter than this on either pass are not given, mm. */
  readonly leastMm: number;
}

/** A place of the line, and the place beside it. */
export interface Place {
  readonly s: number;
  readonly other: number;
  readonly otherMm: number;
  readonly offMm: number;
}

export class PlaceBeside {
  /** Segments looked at so far. */
  protected looks = 0;
  private readonly squares: Squares;
  private readonly direction: DirectionFinder;
  private readonly mostSine: number;

  /** The stroke walked, and the place looked at: segment, length along, coordinates. */
  protected stroke = 0;
  protected segment = 0;
  private latest = -1;
  s = 0;
  private x = 0;
  private y = 0;

  /** The place found beside it. */
  other = -1;
  otherMm = 0;
  offMm = Infinity;
  /** Positive where the pass beside runs the same way, negative where it runs back; 0 while any may be found. */
  private sense = 0;

  constructor(
    protected readonly index: SegmentIndex,
    protected readonly wanted: SideBySide,
  ) {
    this.squares = squaresOf(index);
    this.direction = directionFinder(index);
    this.mostSine = Math.sin((wanted.turnDeg * Math.PI) / 180);
  }

  /** A stroke is to be walked. */
  protected begin(stroke: number): void {
    this.stroke = stroke;
    this.segment = this.index.firstPoints[stroke];
    this.latest = this.segment - 1;
  }

  /** The place so far along the stroke. */
  protected goTo(s: number): void {
    const { points, runMm, firstPoints } = this.index;
    const last = firstPoints[this.stroke + 1] - 2;
    let segment = this.segment;
    while (segment < last && runMm[segment + 1] <= s) segment++;
    while (runMm[segment] > s) segment--;
    const lengthMm = runMm[segment + 1] - runMm[segment];
    const share = lengthMm > 0 ? Math.min(1, (s - runMm[segment]) / lengthMm) : 0;
    this.segment = segment;
    this.s = s;
    this.x = points[2 * segment] + share * (points[2 * segment + 2] - points[2 * segment]);
    this.y = points[2 * segment + 1] + share * (points[2 * segment + 3] - points[2 * segment + 1]);
  }

  /** The nearest earlier pass within `withinMm`, or one that is near enough. */
  protected findNearest(withinMm: number): boolean {
    const { x, y } = this;
    const { sideMm: side, starts, segments } = this.squares;
    const latest = this.latestApart();
    this.other = -1;
    this.sense = 0;
    this.offMm = withinMm;
    const lastColumn = Math.floor((x + withinMm) / side);
    const lastRow = Math.floor((y + withinMm) / side);
    for (let column = Math.floor((x - withinMm) / side); column <= lastColumn; column++) {
      for (let row = Math.floor((y - withinMm) / side); row <= lastRow; row++) {
        const place = this.squares.placeOf(column, row);
        const first = starts[place];
        if (segments[first] > latest) continue;
        for (let n = lastUpTo(segments, first, starts[place + 1], latest); n >= first; n--) {
          this.lookAt(segments[n]);
          if (this.offMm <= alikeMm) return this.isFound();
        }
      }
    }
    return this.isFound();
  }

  private isFound(): boolean {
    if (this.other >= 0) this.sense = this.direction.cosine(this.segment, this.other);
    return this.other >= 0;
  }

  /** The last segment that begins before what is merely next to this place along the line. */
  private latestApart(): number {
    const { runMm } = this.index;
    const upToMm = this.s - this.wanted.apartMm;
    let { latest } = this;
    while (latest + 1 < this.segment && runMm[latest + 1] < upToMm) latest++;
    this.latest = latest;
    // A stroke's last point begins no segment.
    return latest;
  }

  /** Takes the place of segment j nearest to here, if it is nearer than what was found. */
  protected lookAt(j: number): void {
    this.looks++;
    const { points, runMm, strokeOf } = this.index;
    const upToMm = strokeOf[j] === this.stroke ? this.s - this.wanted.apartMm : Infinity;
    if (runMm[j] >= upToMm) return;
    const x = this.x;
    const y = this.y;
    const i = 2 * j;
    const ax = points[i];
    const ay = points[i + 1];
    const bx = points[i + 2];
    const by = points[i + 3];
    const share = nearestShare(x, y, ax, ay, bx, by);
    const along = runMm[j] + share * (runMm[j + 1] - runMm[j]);
    if (along >= upToMm) return;
    const dx = ax + share * (bx - ax) - x;
    const dy = ay + share * (by - ay) - y;
    const squared = dx * dx + dy * dy;
    if (squared > this.offMm * this.offMm) return;
    if (!(Math.abs(this.direction.sine(this.segment, j)) <= this.mostSine)) return;
    if (this.sense * this.direction.cosine(this.segment, j) < 0) return;
    this.offMm = Math.sqrt(squared);
    this.other = j;
    this.otherMm = along;
  }

  /**
   * The place beside this one, on the pass that was at `otherMm` of segment `other` a step ago; false where it is gone.
   * Where either turns back at a corner, what follows is another pass.
   */
  protected keepTo(other: number, otherMm: number, step: number): boolean {
    const { runMm, strokeOf } = this.index;
    const { withinMm } = this.wanted;
    const stroke = strokeOf[other];
    const first = this.index.firstPoints[stroke];
    const last = Math.min(this.index.firstPoints[stroke + 1] - 2, this.segment - 1);
    const reachMm = 2 * step + withinMm;
    this.other = -1;
    this.offMm = withinMm;
    for (let j = Math.min(other, last); j >= first && runMm[j + 1] >= otherMm - reachMm; j--) this.lookAt(j);
    for (let j = other + 1; j <= last && runMm[j] <= otherMm + reachMm; j++) this.lookAt(j);
    return this.other >= 0;
  }

  /** On which side of segment j the place lies: the sign is. */
  protected sideOf(j: number): number {
    const { points } = this.index;
    const ax = points[2 * j];
    const ay = points[2 * j + 1];
    const bx = points[2 * j + 2];
    const by = points[2 * j + 3];
    return (bx - ax) * (this.y - ay) - (by - ay) * (this.x - ax);
  }

  protected place(): Place {
    return { s: this.s, other: this.other, otherMm: this.otherMm, offMm: this.offMm };
  }

  /** To a place of this stroke looked at before. */
  protected comeTo({ s, other, otherMm, offMm }: Place): void {
    this.goTo(s);
    this.other = other;
    this.otherMm = otherMm;
    this.offMm = offMm;
  }
}

/** Where the last of ascending numbers from place `from` up to `to`, exclusive, stands that is at most `value`. */
function lastUpTo(numbers: Uint32Array, from: number, to: number, value: number): number {
  let low = from;
  let high = to;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (numbers[middle] <= value) low = middle + 1;
    else high = middle;
  }
  return low - 1;
}
