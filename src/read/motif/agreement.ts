/**
 * Whether a motif file's size and repeat agree with its strokes. Both may be left out; where they stand they have
 * to be right, since other programs may trust them.
 */
import type { MotifFile } from '../../../shared/motif-file.js';
import type { Polyline } from '../../../shared/plane.js';
import { Refusal } from '../../../shared/refusal.js';
import { boundsOf, firstPoint, lastPoint } from '../../geometry/polyline.js';
import { repeatAlong } from '../../size/repeat.js';

/** Ends that coincide to 0.01 mm count as joined, and a repeat is good to the same. */
const sameMm = 0.01;

/** @throws Refusal naming what contradicts the strokes, and what they come to */
export function requireAgreement(
  { size, repeat }: MotifFile,
  strokes: readonly Polyline[],
  file: string,
): void {
  if (strokes.length === 0) return;
  const box = boundsOf(strokes);
  const [width, height] = [box.maxX - box.minX, box.maxY - box.minY];
  if (size && !(isNear(size[0], width) && isNear(size[1], height)))
    throw new Refusal(
      `${file}: "size" is [${size}], but the strokes measure ${width.toFixed(3)} by ${height.toFixed(3)} mm.`,
    );
  if (repeat && !isRepeat(repeat, strokes, width))
    throw new Refusal(`${file}: "repeat" is [${repeat}], but no line leads from end to end like that.`);
}

/**
 * One stroke has one repeat. Of several it depends on which ends count as joined, which is for measuring to say:
 * here it is enough that the vector is the assumed one, or leads from an end of a stroke to an end of a stroke.
 */
function isRepeat([dx, dy]: readonly [number, number], strokes: readonly Polyline[], width: number): boolean {
  const along = strokes.length === 1 ? repeatAlong(strokes[0], width) : null;
  if (along) return isNear(dx, along.dx) && isNear(dy, along.dy);
  if (isNear(dx, width) && isNear(dy, 0)) return true;
  return strokes.length > 1 && leadsFromEndToEnd(dx, dy, strokes);
}

/** Ends are looked up by the cell of a grid they lie in, so that many strokes take no longer than they must. */
function leadsFromEndToEnd(dx: number, dy: number, strokes: readonly Polyline[]): boolean {
  const ends = strokes.flatMap((stroke) => [firstPoint(stroke), lastPoint(stroke)]);
  const cell = (value: number) => Math.round(value / (2 * sameMm));
  const taken = new Set(ends.map(({ x, y }) => `${cell(x)},${cell(y)}`));
  const around = [-1, 0, 1];
  return ends.some(({ x, y }) =>
    around.some((i) => around.some((j) => taken.has(`${cell(x + dx) + i},${cell(y + dy) + j}`))),
  );
}

function isNear(a: number, b: number): boolean {
  return Math.abs(a - b) <= sameMm;
}
