/** A byte for each pixel of a picture, in which lines and blots are marked. */
import type { Point, Polyline } from '../../../shared/plane.js';
import { placeAlong, runningLengths } from '../../geometry/polyline.js';

export class Mask {
  readonly marks: Uint8Array;

  constructor(
    private readonly width: number,
    private readonly height: number,
  ) {
    this.marks = new Uint8Array(width * height);
  }

  /** Discs along the line, so near to one another that the track's edge is right to a hundredth of its width. */
  draw(line: Polyline, radius: number, mark: number): void {
    const run = runningLengths(line);
    const length = run[run.length - 1];
    const steps = Math.max(1, Math.ceil(length / Math.max(0.5, radius / 3)));
    for (let k = 0; k <= steps; k++) {
      const { x, y } = placeAlong(line, run, (length * k) / steps);
      for (
        let row = Math.max(0, Math.ceil(y - radius - 0.5));
        row <= Math.min(this.height - 1, y + radius - 0.5);
        row++
      ) {
        const half = Math.sqrt(Math.max(0, radius * radius - (row + 0.5 - y) ** 2));
        const from = Math.max(0, Math.ceil(x - half - 0.5));
        const to = Math.min(this.width - 1, Math.floor(x + half - 0.5));
        for (let i = row * this.width + from; i <= row * this.width + to; i++) this.marks[i] |= mark;
      }
    }
  }

  /** Marks the unmarked ink that hangs together with the ink round a place. */
  flood(dark: Uint8Array, threshold: number, at: Point, mark: number): void {
    const { marks, width, height } = this;
    const stack: number[] = [];
    const take = (x: number, y: number) => {
      if (x < 0 || y < 0 || x >= width || y >= height) return;
      const i = y * width + x;
      if (dark[i] <= threshold || marks[i] !== 0) return;
      marks[i] = mark;
      stack.push(i);
    };
    // A place on the border lies between ink and paper.
    for (let y = Math.floor(at.y) - 1; y <= Math.floor(at.y) + 1; y++)
      for (let x = Math.floor(at.x) - 1; x <= Math.floor(at.x) + 1; x++) take(x, y);
    for (let i = stack.pop(); i !== undefined; i = stack.pop()) {
      const x = i % width;
      const y = (i - x) / width;
      for (let dy = -1; dy <= 1; dy++) for (let dx = -1; dx <= 1; dx++) take(x + dx, y + dy);
    }
  }
}
