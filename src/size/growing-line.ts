import type { Polyline } from '../../shared/plane.js';

/** Polylines under construction, one after the other. `spend` is called for each point, and may throw when there are too many. */
export class GrowingLine {
  #coords = new Float64Array(8);
  #used = 0;

  constructor(private readonly spend: () => void) {}

  push(x: number, y: number): void {
    this.spend();
    if (this.#used === this.#coords.length) {
      const larger = new Float64Array(2 * this.#used);
      larger.set(this.#coords);
      this.#coords = larger;
    }
    this.#coords[this.#used++] = x;
    this.#coords[this.#used++] = y;
  }

  /** The line so far; the next begins. */
  done(): Polyline {
    const line = this.#coords.slice(0, this.#used);
    this.#used = 0;
    return line;
  }
}
