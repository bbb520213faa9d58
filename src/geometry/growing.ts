/** Lists of numbers that grow, in typed arrays, since a line may have a million points and two of them as many meetings. */

type Numbers =
  | Float64Array<ArrayBuffer>
  | Int32Array<ArrayBuffer>
  | Uint32Array<ArrayBuffer>
  | Uint8Array<ArrayBuffer>;

/** The same numbers, with room for `length` at least and for twice as many as there was. */
export function roomier<T extends Numbers>(numbers: T, length = 0): T {
  const Same = numbers.constructor as new (length: number) => T;
  const longer = new Same(Math.max(length, 2 * numbers.length));
  longer.set(numbers);
  return longer;
}

/** `array` holds `length` numbers, and room for more behind them. */
export class Growing<T extends Numbers> {
  length = 0;

  constructor(public array: T) {}

  push(value: number): void {
    if (this.length === this.array.length) this.array = roomier(this.array, this.length + 1);
    this.array[this.length++] = value;
  }

  /** The numbers, in an array of their own. */
  taken(): T {
    return this.array.slice(0, this.length) as T;
  }
}
