/**
 * Puts pairs of segments that lie near each other together into runs.
 *
 * The pairs come in the order of the line: the first segment never goes back, and while it stays, the second one
 * rises. So only the runs that reach up to the present segment are open, and a pair belongs to those of them whose
 * part along the second stroke, at this segment or the one before it, it touches. Runs that a pair touches both grow
 * together.
 */
import { Growing } from '../../geometry/growing.js';
import { Groups } from '../../near/groups.js';
import type { SegmentIndex } from '../../near/segment-index.js';

/** Pairs of segments, `first[k]` with `second[k]`, in the order they came. */
export interface Run {
  readonly first: Uint32Array;
  readonly second: Uint32Array;
}

/** What lies near so many others is no drawing to stitch; the pairs up to here tell enough about it. */
const mostPairs = 500_000;
/** Nor is a tangle in which each pair is held against hundreds of runs: so many are looked at, all pairs together. */
const mostLooks = 25_000_000;

/** A run that may still grow. */
interface OpenRun {
  readonly id: number;
  readonly stroke: number;
  /** The last segment that was added as a first one, and how far along its stroke the run reaches, mm. */
  segment: number;
  endMm: number;
  /** What the run covers along the second stroke: at that segment, and at the one before it, mm. */
  from: number;
  to: number;
  fromBefore: number;
  toBefore: number;
}

export class RunLinker {
  private looks = 0;
  private readonly first = new Growing(new Uint32Array(64));
  private readonly second = new Growing(new Uint32Array(64));
  private readonly runOf = new Growing(new Uint32Array(64));
  /** Runs that have grown together are one group. */
  private readonly grown = new Groups();
  /** What each run covers, from and to along the first stroke, then along the second, mm. */
  private readonly hulls = new Growing(new Float64Array(64));
  private open: OpenRun[] = [];
  private stroke = -1;

  /** Pieces at most `gapMm` apart, along either stroke, belong together. */
  constructor(private readonly gapMm: number) {}

  /** True where no more pairs are taken. */
  get isFull(): boolean {
    return this.first.length >= mostPairs || this.looks >= mostLooks;
  }

  /** Adds segments i and j; `parts` are from and to of what lies near the other, along i's stroke and along j's. */
  add(i: number, j: number, { strokeOf, runMm }: SegmentIndex, parts: Float64Array): void {
    if (this.isFull) return;
    if (strokeOf[i] !== this.stroke) {
      this.open = [];
      this.stroke = strokeOf[i];
    }
    const home = this.openRunAt(i, strokeOf[j], runMm[i], parts) ?? this.begin(i, strokeOf[j], parts);
    this.extend(home, i, parts);
    this.note(i, j, home.id);
  }

  /** The open run that touches these parts; several become one, and those left behind are closed. */
  private openRunAt(i: number, secondStroke: number, reachedMm: number, parts: Float64Array): OpenRun | null {
    let home: OpenRun | null = null;
    let kept = 0;
    this.looks += this.open.length;
    for (const run of this.open) {
      if (run.endMm < reachedMm - this.gapMm) continue;
      if (run.stroke === secondStroke && this.touches(run, i, parts[2], parts[3])) {
        if (home) {
          this.unite(home, run);
          continue;
        }
        home = run;
      }
      this.open[kept++] = run;
    }
    this.open.length = kept;
    return home;
  }

  private touches(run: OpenRun, i: number, fromMm: number, toMm: number): boolean {
    if (fromMm <= run.to + this.gapMm && toMm >= run.from - this.gapMm) return true;
    if (run.segment !== i) return false;
    return fromMm <= run.toBefore + this.gapMm && toMm >= run.fromBefore - this.gapMm;
  }

  private begin(segment: number, stroke: number, parts: Float64Array): OpenRun {
    const [, endMm, from, to] = parts;
    const id = this.grown.add();
    const run = { id, stroke, segment, endMm, from, to, fromBefore: from, toBefore: to };
    for (let side = 0; side < 2; side++) {
      this.hulls.push(Infinity);
      this.hulls.push(-Infinity);
    }
    this.open.push(run);
    return run;
  }

  private extend(run: OpenRun, segment: number, parts: Float64Array): void {
    const [from0, to0, from, to] = parts;
    if (run.segment === segment) {
      run.from = Math.min(run.from, from);
      run.to = Math.max(run.to, to);
    } else {
      run.fromBefore = run.from;
      run.toBefore = run.to;
      run.from = from;
      run.to = to;
      run.segment = segment;
    }
    run.endMm = Math.max(run.endMm, to0);
    this.cover(run.id, from0, to0, from, to);
  }

  private cover(id: number, from0: number, to0: number, from: number, to: number): void {
    const hulls = this.hulls.array;
    const h = 4 * id;
    hulls[h] = Math.min(hulls[h], from0);
    hulls[h + 1] = Math.max(hulls[h + 1], to0);
    hulls[h + 2] = Math.min(hulls[h + 2], from);
    hulls[h + 3] = Math.max(hulls[h + 3], to);
  }

  private unite(home: OpenRun, other: OpenRun): void {
    this.grown.join(other.id, home.id);
    home.endMm = Math.max(home.endMm, other.endMm);
    home.segment = Math.max(home.segment, other.segment);
    home.from = Math.min(home.from, other.from);
    home.to = Math.max(home.to, other.to);
    home.fromBefore = Math.min(home.fromBefore, other.fromBefore);
    home.toBefore = Math.max(home.toBefore, other.toBefore);
    const [from0, to0, from, to] = this.hulls.array.subarray(4 * other.id, 4 * other.id + 4);
    this.cover(home.id, from0, to0, from, to);
  }

  private note(i: number, j: number, id: number): void {
    this.first.push(i);
    this.second.push(j);
    this.runOf.push(id);
  }

  /** The runs that cover at least `leastMm` along both strokes. */
  runs(leastMm: number): Run[] {
    const lists = new Map<number, number[]>();
    const hulls = this.hulls.array;
    for (let k = 0; k < this.first.length; k++) {
      const id = this.grown.of(this.runOf.array[k]);
      const h = 4 * id;
      if (hulls[h + 1] - hulls[h] < leastMm || hulls[h + 3] - hulls[h + 2] < leastMm) continue;
      const list = lists.get(id);
      if (list) list.push(k);
      else lists.set(id, [k]);
    }
    return [...lists.values()].map((list) => ({
      first: Uint32Array.from(list, (k) => this.first.array[k]),
      second: Uint32Array.from(list, (k) => this.second.array[k]),
    }));
  }
}
