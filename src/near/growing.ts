/** Lists of numbers that grow, in typed arrays, since there may be a million of them. */

type Numbers = Float64Array<ArrayBuffer> | Uint32Array<ArrayBuffer>;

/** `array` holds `length` numbers, and room for more behind them. */
export class Growing<T extends Numbers> {
  length = 0;

  constructor(public array: T) {}

  push(value: number): void {
    if (this.length === this.array.length) this.makeRoom(this.length + 1);
    this.array[this.length++] = value;
  }

  /** Room for so many numbers at least; the old array is left behind. */
  makeRoom(length: number): void {
    const roomier = new (this.array.constructor as new (length: number) => T)(
      Math.max(length, 2 * this.array.length),
    );
    roomier.set(this.array);
    this.array = roomier;
  }

  /** The numbers, in an array of their own. */
  taken(): T {
    return this.array.slice(0, this.length) as T;
  }
}
