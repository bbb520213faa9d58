/** Links along the border of the field, the shorter way round. */
import type { Box, Point, Polyline } from '../../shared/plane.js';

/** The way from one place on the border to another along it, both ends included; the way by the top or right where both are as long. */
export function alongBorder(field: Box, from: Point, to: Point): Polyline {
  const around = 2 * (field.maxX - field.minX + field.maxY - field.minY);
  const start = placeOnBorder(field, from);
  const ahead = (placeOnBorder(field, to) - start + around) % around;
  const forwards = ahead <= around / 2;
  const wayMm = forwards ? ahead : around - ahead;
  const corners = cornersOf(field)
    .map((corner) => {
      const away = (placeOnBorder(field, corner) - start + around) % around;
      return { corner, away: forwards ? away : (around - away) % around };
    })
    .filter(({ away }) => away > sameMm && away < wayMm - sameMm)
    .sort((a, b) => a.away - b.away);
  return Float64Array.from([from, ...corners.map(({ corner }) => corner), to].flatMap(({ x, y }) => [x, y]));
}

/** Places nearer than this are one. */
const sameMm = 1e-9;

function cornersOf({ minX, minY, maxX, maxY }: Box): Point[] {
  return [
    { x: minX, y: minY },
    { x: maxX, y: minY },
    { x: maxX, y: maxY },
    { x: minX, y: maxY },
  ];
}

/** Clockwise from the upper left corner, of the side that the place lies nearest to. */
function placeOnBorder({ minX, minY, maxX, maxY }: Box, { x, y }: Point): number {
  const [width, height] = [maxX - minX, maxY - minY];
  const sides = [
    { off: Math.abs(y - minY), along: x - minX },
    { off: Math.abs(x - maxX), along: width + y - minY },
    { off: Math.abs(y - maxY), along: width + height + maxX - x },
    { off: Math.abs(x - minX), along: (2 * width + 2 * height - (y - minY)) % (2 * (width + height)) },
  ];
  return sides.reduce((best, side) => (side.off < best.off ? side : best)).along;
}
