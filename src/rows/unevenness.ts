/**
 * How unevenly the stacked rows cover the cloth: the root mean square distance of its points to the nearest stitching,
 * over that of parallel lines with as much line to the area. Parallel lines m apart have m / sqrt(12): the distance runs
 * from 0 to m / 2, evenly spread.
 *
 * The mean is taken over one period of the pattern at the points of a Fibonacci lattice, which is as even a spread of
 * points as a period can have (S. Zaremba, "Good lattice points, discrepancy, and numerical integration", 1966). With so
 * many points it is right to half a percent for all of the corpus, held against a grid a hundred times as fine.
 */
import { distanceBetween } from '../geometry/point.js';
import { kindsOfSeam } from './layout.js';
import { distanceToStack, type Stack } from './stack.js';

/** Neighbouring Fibonacci numbers. */
const points = 1597;
const generator = 987;
/** A Fibonacci number too: points that stand so far apart in the lattice's order lie next to each other. */
const neighbour = 55;

/** 1 for parallel lines, more where they clump or leave holes. */
export function unevennessOf(stack: Stack): number {
  const { row, layout, spacingMm } = stack;
  const heightMm = kindsOfSeam(layout) * spacingMm;
  let sum = 0;
  let lastX = 0;
  let lastY = 0;
  let distanceMm = Infinity;
  for (let taken = 0; taken < points; taken++) {
    const i = (taken * neighbour) % points;
    const x = row.box.minX + ((i + 0.5) / points) * row.repeatMm;
    const y = row.box.minY + (((i * generator) % points) / points) * heightMm;
    // The distance grows no faster than the way to the place.
    const mostMm = distanceMm + distanceBetween(x, y, lastX, lastY);
    distanceMm = distanceToStack(stack, x, y, mostMm);
    sum += distanceMm * distanceMm;
    lastX = x;
    lastY = y;
  }
  const meanLineSpacingMm = (row.repeatMm * spacingMm) / row.lengthMm;
  return Math.sqrt((12 * sum) / points) / meanLineSpacingMm;
}
