/** Places of two passes side by side, gathered one way and the other from where they were found. */
import { Growing } from '../../geometry/growing.js';
import type { Place } from './place-beside.js';

/** Places of both passes, in turn. */
export class Places {
  private readonly s = new Growing(new Float64Array(256));
  private readonly off = new Growing(new Float64Array(256));
  private readonly other = new Growing(new Float64Array(256));

  push({ s, offMm, otherMm }: Omit<Place, 'other'>): void {
    this.s.push(s);
    this.off.push(offMm);
    this.other.push(otherMm);
  }

  clear(): void {
    this.s.length = 0;
    this.off.length = 0;
    this.other.length = 0;
  }

  /** These from the last to the first, then those that go on from where they were found. */
  reversedWith(on: Places) {
    const both = (a: Growing<Float64Array<ArrayBuffer>>, b: Growing<Float64Array<ArrayBuffer>>) => {
      const all = new Float64Array(a.length + b.length);
      for (let k = 0; k < a.length; k++) all[a.length - 1 - k] = a.array[k];
      all.set(b.array.subarray(0, b.length), a.length);
      return all;
    };
    return {
      alongMm: both(this.s, on.s),
      offMm: both(this.off, on.off),
      otherMm: both(this.other, on.other),
    };
  }
}
