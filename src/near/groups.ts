/** Which things have been joined so far (union-find; R. Tarjan, Journal of the ACM 22, 1975). */
import { Growing } from '../geometry/growing.js';

export class Groups {
  readonly #up: Growing<Uint32Array<ArrayBuffer>>;

  constructor(count = 0) {
    this.#up = new Growing(new Uint32Array(Math.max(count, 16)));
    while (this.#up.length < count) this.add();
  }

  get count(): number {
    return this.#up.length;
  }

  /** One more thing, by itself. */
  add(): number {
    this.#up.push(this.#up.length);
    return this.#up.length - 1;
  }

  /** The number that stands for all that i is joined with. */
  of(i: number): number {
    const up = this.#up.array;
    while (up[i] !== i) {
      up[i] = up[up[i]];
      i = up[i];
    }
    return i;
  }

  /** From now on the group of b stands for both. */
  join(a: number, b: number): void {
    this.#up.array[this.of(a)] = this.of(b);
  }

  /** The members of each group, in the order of their first ones. */
  members(): number[][] {
    const lists: number[][] = [];
    const listOf = new Int32Array(this.count).fill(-1);
    for (let i = 0; i < this.count; i++) {
      const group = this.of(i);
      if (listOf[group] < 0) listOf[group] = lists.push([i]) - 1;
      else lists[listOf[group]].push(i);
    }
    return lists;
  }
}
