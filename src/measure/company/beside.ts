/**
 * Stretches of the line that have an earlier pass beside them: the ground on which retraces and crowding are judged.
 *
 * The line is walked once, at steps. Each step asks the squares near it for the nearest earlier pass that runs nearly
 * the same way, and takes the first that is near enough, the latest before it first: in a hatch, a comb or a fan that
 * is the neighbour. From there both passes are followed side by side, on and back, as long as they keep within reach,
 * and the distances on the way are noted: that is one stretch, with one pass beside it (`Beside`). Whoever asks judges
 * it at once, and says what of it is settled; steps settled are not asked again, all others only for a pass nearer
 * than those followed so far. So a stretch stitched a thousand times asks once each time, and then only follows.
 *
 * Steps between which distances do not change evenly are halved, and so are those at which a stretch ends; where both
 * passes run straight they are followed in one go. In time that grows with the length of the line, and with what lies
 * in the squares of steps that have nothing near enough.
 *
 * Limits: what is shorter than a step may be missed; steps are longer on lines of many kilometres. Beside each step
 * the nearest passes are followed, not all: of three side by side the outer two are not held against each other.
 */
import type { SegmentIndex } from '../../near/segment-index.js';
import { strokesTogether } from '../../near/together.js';
import { alikeMm, type Place, PlaceBeside, type SideBySide } from './place-beside.js';
import { Places } from './places-in-turn.js';
import type { Stretches } from './stretches.js';

const mostStepMm = 0.75;
const mostSteps = 16_000_000;
/** A tangle with a hundred passes through every square millimetre of a page needs more looks, and is no drawing to stitch. */
const mostLooks = 150_000_000;
/** What is settled asks for nothing nearer, and is nearer than any pass, mm. */
const settledMm = -1;
/** Between two places that differ by more, distances may not change evenly, mm. */
const bendMm = 0.002;
/** Ends of stretches are right to this, mm. */
const fineMm = 0.0005;

/** A stretch of a stroke, and the pass beside it. */
export interface Beside {
  readonly stroke: number;
  /** Places of the stretch in turn: how far along the stroke, and how far off the other pass is there, mm. */
  readonly alongMm: Float64Array;
  readonly offMm: Float64Array;
  /** Where the line folds back on itself to run beside itself, mm along the stroke; null where it does not. */
  readonly foldMm: number | null;
}

/**
 * Calls `judge` with stretch after stretch; it gives what of the stretch is settled. False where there is more to look
 * at than one may: then the stretches are those of a part of the line.
 */
export function visitBeside(
  index: SegmentIndex,
  wanted: SideBySide,
  judge: (beside: Beside) => Stretches,
): boolean {
  const walk = new Walk(index, wanted);
  // Strokes of a drawing in thousands of them lie anywhere in memory: neighbours in turn look at the same part of it.
  for (const stroke of strokesTogether(index.strokes)) walk.along(stroke, judge);
  return !walk.isFull;
}

/** Places at steps to which a pass beside was followed, the first of them where it was found. */
interface Trail {
  readonly places: readonly Place[];
  /** Is the pass gone at the next step? Else the line ends, or what follows is known. */
  readonly isLeft: boolean;
}

class Walk extends PlaceBeside {
  private readonly longestStepMm: number;
  /** For each step of the stroke how far off the nearest pass is that was followed so far, mm; made once for all strokes. */
  private readonly known: Float32Array;
  private readonly back = new Places();
  private readonly on = new Places();

  constructor(index: SegmentIndex, wanted: SideBySide) {
    super(index, wanted);
    let [allMm, longestMm] = [0, 0];
    for (let stroke = 0; stroke < index.strokes.length; stroke++) {
      allMm += index.strokeLengthMm(stroke);
      longestMm = Math.max(longestMm, index.strokeLengthMm(stroke));
    }
    this.longestStepMm = Math.max(Math.min(wanted.leastMm / 2, mostStepMm), allMm / mostSteps);
    this.known = new Float32Array(Math.ceil(longestMm / this.longestStepMm) + 1);
  }

  get isFull(): boolean {
    return this.looks > mostLooks;
  }

  along(stroke: number, judge: (beside: Beside) => Stretches): void {
    const { index, wanted, known } = this;
    const lengthMm = index.strokeLengthMm(stroke);
    const steps = Math.max(1, Math.ceil(lengthMm / this.longestStepMm));
    const step = lengthMm / steps;
    known.fill(wanted.withinMm + alikeMm, 0, steps + 1);
    this.begin(stroke);
    /** No stretch comes from before this place. */
    let clearMm = 0;
    for (let k = 0; lengthMm - clearMm >= wanted.leastMm; k++) {
      const clear = this.lastClear(k, Math.min(steps, Math.floor((clearMm + wanted.leastMm) / step)), step);
      if (clear >= k) k = clear;
      else while (k <= steps && !this.isFull && !this.isClear(k, step, steps, judge)) k++;
      if (this.isFull) return;
      clearMm = k * step;
    }
  }

  /** The last of the steps from k to m that have nothing beside them: no stretch runs through it. Less than k where all have. */
  private lastClear(k: number, m: number, step: number): number {
    for (; m >= k; m--) {
      this.goTo(m * step);
      this.findNearest(this.wanted.withinMm);
      if (this.other < 0) break;
    }
    return m;
  }

  /** Has step k nothing beside it? What it has is judged. */
  private isClear(k: number, step: number, steps: number, judge: (beside: Beside) => Stretches): boolean {
    const { known } = this;
    const { withinMm, enoughMm } = this.wanted;
    if (known[k] <= enoughMm) return false;
    this.goTo(k * step);
    if (!this.findNearest(known[k] - alikeMm)) return known[k] > withinMm;
    const home = this.segment;
    const beside = this.follow(k, step, steps, known);
    if (beside) {
      const settled = judge(beside);
      for (let n = 0; n < settled.length; n += 2)
        known.fill(settledMm, Math.ceil(settled[n] / step), Math.floor(settled[n + 1] / step) + 1);
    }
    this.segment = home;
    return false;
  }

  /** Follows both passes from step k, on and back; null where they part too soon. */
  private follow(k: number, step: number, steps: number, known: Float32Array): Beside | null {
    const { back, on } = this;
    const { leastMm } = this.wanted;
    const from = this.place();
    known[k] = from.offMm;
    const backwards = this.followOneWay(k, -1, step, steps, known);
    this.comeTo(from);
    const onwards = this.followOneWay(k, 1, step, steps, known);
    back.clear();
    on.clear();
    on.push(from);
    this.gather(backwards, -step, back);
    this.gather(onwards, step, on);
    const { alongMm, offMm: offs, otherMm: others } = back.reversedWith(on);
    if (alongMm[alongMm.length - 1] - alongMm[0] < leastMm) return null;
    let [least, most] = [Infinity, -Infinity];
    for (const mm of others) {
      if (mm < least) least = mm;
      if (mm > most) most = mm;
    }
    if (most - least < leastMm) return null;
    const foldMm = this.foldAt(from.other, alongMm[0], others[0]);
    return { stroke: this.stroke, alongMm, offMm: offs, foldMm };
  }

  /** The places at steps to which the pass is followed from step k. */
  private followOneWay(k: number, way: 1 | -1, step: number, steps: number, known: Float32Array): Trail {
    const places = [this.place()];
    for (let n = k + way; n >= 0 && n <= steps; n += way) {
      const { other, otherMm } = this;
      this.goTo(n * step);
      if (!this.keepTo(other, otherMm, step)) return { places, isLeft: true };
      places.push(this.place());
      // One step into what is settled, so that stretches leave no gap between them.
      if (known[n] <= settledMm) break;
      known[n] = Math.min(known[n], this.offMm);
      const straight = this.straightOn(n, way, step, known);
      if (straight !== n) places.push(this.place());
      n = straight;
    }
    return { places, isLeft: false };
  }

  /** Adds the places of a trail after its first, those between them that are needed, and where it ends, less than `stepMm` beyond the last. */
  private gather({ places, isLeft }: Trail, stepMm: number, found: Places): void {
    const step = Math.abs(stepMm);
    for (let i = 1; i < places.length; i++) {
      this.bendsBetween(places[i - 1], places[i], step, found);
      found.push(places[i]);
    }
    const last = places[places.length - 1];
    if (isLeft) this.endBetween(last, last.s + stepMm, step, found);
  }

  /** Goes on from step n in one go as far as both passes run straight, and gives the step it comes to. */
  private straightOn(n: number, way: 1 | -1, step: number, known: Float32Array): number {
    const { runMm } = this.index;
    const { segment, other } = this;
    const endMm = runMm[way > 0 ? segment + 1 : segment];
    const from = this.place();
    const fromSide = this.sideOf(other);
    let count = Math.floor(Math.abs(endMm - from.s) / step);
    while (count > 1) {
      let m = n + way;
      while (m !== n + way * count && known[m + way] > settledMm) m += way;
      count = Math.abs(m - n);
      this.segment = segment;
      this.goTo(m * step);
      this.offMm = this.wanted.withinMm;
      this.lookAt(other);
      const isEven =
        Math.min(this.otherMm, from.otherMm) > runMm[other] &&
        Math.max(this.otherMm, from.otherMm) < runMm[other + 1] &&
        fromSide * this.sideOf(other) >= 0 &&
        this.keepTo(other, this.otherMm, step) &&
        this.other === other;
      if (isEven) {
        const slope = (this.offMm - from.offMm) / count;
        for (let k = 1; k <= count; k++)
          known[n + way * k] = Math.min(known[n + way * k], from.offMm + slope * k);
        return m;
      }
      count >>= 1;
    }
    this.segment = segment;
    this.comeTo(from);
    return n;
  }

  /** Adds places between two where the distance does not change evenly. */
  private bendsBetween(from: Place, to: Place, step: number, found: Places): void {
    if (Math.abs(to.s - from.s) < fineMm) return;
    this.goTo((from.s + to.s) / 2);
    if (!this.keepTo(from.other, from.otherMm, step)) return;
    const middle = this.place();
    if (Math.abs(2 * middle.offMm - from.offMm - to.offMm) < bendMm) return;
    this.bendsBetween(from, middle, step, found);
    found.push(middle);
    this.bendsBetween(middle, to, step, found);
  }

  /** Adds the last place at which the pass is still beside, before the length `goneMm`. */
  private endBetween(last: Place, goneMm: number, step: number, found: Places): void {
    let end = last;
    while (Math.abs(goneMm - end.s) > fineMm) {
      this.goTo((end.s + goneMm) / 2);
      if (this.keepTo(end.other, end.otherMm, step)) end = this.place();
      else goneMm = this.s;
    }
    if (end === last) return;
    this.bendsBetween(last, end, step, found);
    found.push(end);
  }

  /** The middle between both passes where they are hardly farther along the line than what does not count. */
  private foldAt(other: number, s: number, otherMm: number): number | null {
    if (this.index.strokeOf[other] !== this.stroke) return null;
    return s - otherMm > this.wanted.apartMm + 4 * fineMm ? null : (s + otherMm) / 2;
  }
}
