/** Places on a picture, gathered from pixels. Time: linear in the pixels. */
import type { Point } from '../../../shared/plane.js';

/** Pixels gathered into places: squares that touch are one. */
export class Places {
  private readonly squares = new Map<number, { count: number; x: number; y: number }>();

  constructor(
    private readonly size: number,
    private readonly least: number,
  ) {}

  add(x: number, y: number): void {
    const key = Math.floor(y / this.size) * stride + Math.floor(x / this.size);
    const square = this.squares.get(key);
    if (!square) this.squares.set(key, { count: 1, x, y });
    else {
      square.count++;
      square.x += x;
      square.y += y;
    }
  }

  /** Middles of those that hold enough, the largest first. */
  largest(): Point[] {
    const left = new Set(this.squares.keys());
    const found: { count: number; x: number; y: number }[] = [];
    for (const first of this.squares.keys()) {
      if (!left.delete(first)) continue;
      const keys = [first];
      const sum = { count: 0, x: 0, y: 0 };
      for (let i = 0; i < keys.length; i++) {
        const { count, x, y } = this.squares.get(keys[i])!;
        sum.count += count;
        sum.x += x;
        sum.y += y;
        for (const row of [-stride, 0, stride])
          for (const column of [-1, 0, 1])
            if (left.delete(keys[i] + row + column)) keys.push(keys[i] + row + column);
      }
      if (sum.count >= this.least) found.push(sum);
    }
    return found
      .sort((a, b) => b.count - a.count)
      .map(({ count, x, y }) => ({ x: x / count + 0.5, y: y / count + 0.5 }));
  }
}

/** More squares than a picture has across. */
const stride = 1 << 20;
