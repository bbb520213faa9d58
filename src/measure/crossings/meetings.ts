/** Meetings of two passes, in typed arrays since there may be a million of them. */
export class Meetings {
  count = 0;
  /** Segment of the one pass, and where on it as a share; the same for the other pass. */
  segment = new Uint32Array(1024);
  share = new Float64Array(1024);
  otherSegment = new Uint32Array(1024);
  otherShare = new Float64Array(1024);
  x = new Float64Array(1024);
  y = new Float64Array(1024);
  /** Acute angle between the passes, degrees. */
  angleDeg = new Float64Array(1024);

  add(
    segment: number,
    share: number,
    otherSegment: number,
    otherShare: number,
    x: number,
    y: number,
    angleDeg: number,
  ): void {
    if (this.count === this.x.length) this.grow();
    const k = this.count++;
    this.segment[k] = segment;
    this.share[k] = share;
    this.otherSegment[k] = otherSegment;
    this.otherShare[k] = otherShare;
    this.x[k] = x;
    this.y[k] = y;
    this.angleDeg[k] = angleDeg;
  }

  cutTo(count: number): void {
    this.count = Math.min(this.count, count);
  }

  /** The meetings whose numbers are listed. */
  only(kept: readonly number[]): Meetings {
    const some = new Meetings();
    for (const k of kept) {
      some.add(
        this.segment[k],
        this.share[k],
        this.otherSegment[k],
        this.otherShare[k],
        this.x[k],
        this.y[k],
        this.angleDeg[k],
      );
    }
    return some;
  }

  private grow(): void {
    const size = 2 * this.x.length;
    const longer = <T extends Float64Array | Uint32Array>(make: new (n: number) => T, old: T): T => {
      const array = new make(size);
      array.set(old);
      return array;
    };
    this.segment = longer(Uint32Array, this.segment);
    this.share = longer(Float64Array, this.share);
    this.otherSegment = longer(Uint32Array, this.otherSegment);
    this.otherShare = longer(Float64Array, this.otherShare);
    this.x = longer(Float64Array, this.x);
    this.y = longer(Float64Array, this.y);
    this.angleDeg = longer(Float64Array, this.angleDeg);
  }
}
