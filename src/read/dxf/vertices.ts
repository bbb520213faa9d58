/** The vertices of a POLYLINE as they come, a record each: only their numbers are kept, so that a million cost little. */
import { type DxfRecord, numberOf } from './record.js';

/** Of a vertex: belongs to the frame of a spline, and is not drawn. */
const frameVertex = 16;

export class Vertices {
  /** x, y, z and bulge of each. */
  readonly numbers: number[] = [];
  /** Whether all of them have their numbers. */
  good = true;

  add(record: DxfRecord): void {
    const { codes, numbers } = record;
    if (!numbers.every(Number.isFinite)) this.good = false;
    if ((numberOf(record, 70, 0) & frameVertex) !== 0) return;
    if (!codes.includes(10) || !codes.includes(20)) this.good = false;
    const [x, y, z, bulge] = [10, 20, 30, 42].map((code) => numberOf(record, code, 0));
    this.numbers.push(x, y, z, bulge);
  }
}
