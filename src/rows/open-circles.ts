/**
 * The open circles of stacked rows: the largest empty circle that touches one row only (inner), and the largest that
 * touches two (seam).
 *
 * An inner circle is held by its own row, so the row alone has it too: the pockets of the row are found once, and at
 * each spacing it is only asked which of them another row reaches into. Seam circles are found anew for each stack.
 *
 * A circle counts however little it must shrink to slide into a larger hole: between the echo lines of a spiral nothing
 * else holds it, and their distance is what the eye measures the seam by.
 */

import { type EmptyCircle, grownCircle } from './grow.js';
import { perRow, type Row } from './row.js';
import { type Seams, type Seed, seamSeeds, seamsOf, seedsIn } from './seeds.js';
import { aloneOf, distanceToRow, rowsIn, type Stack, touchMm } from './stack.js';

/** The most by which a circle left out may have the larger radius, mm. */
const mostLostMm = 0.04;
/** Circles less than this many sampling steps across say more about the samples than about the line. */
const fewestSteps = 3;
/** Sampling steps across a circle of the size that matters. */
const stepsAcross = 4;
/** No finer steps than this many to a repeat. */
const mostSteps = 100_000;
/** Pockets are looked for with steps down to this, mm: those under three times as much, 1 mm, across are left out. */
const finestStepMm = 1 / 3;
/** And with no finer steps for the sake of small pockets than this many to a repeat. */
const mostStepsForPockets = 20_000;
/** The step for circles as wide as the lines are apart on average, or as `alsoMm`, whichever is wider, mm. */
function stepFor({ repeatMm, lengthMm }: Row, spacingMm: number, alsoMm = 0): number {
  const meanLineSpacingMm = (repeatMm * spacingMm) / lengthMm;
  return Math.max(meanLineSpacingMm / stepsAcross, alsoMm / stepsAcross, lengthMm / mostSteps);
}

/**
 * The largest circle that touches two rows or more, or null where there is none. It is looked for by steps that suit
 * circles as large as `innerMm`, the inner one's diameter, and by finer ones only where there are none of that kind.
 */
export function seamCircle(stack: Stack, innerMm = 0): EmptyCircle | null {
  const { row, spacingMm } = stack;
  const seams = seamsOf(stack);
  let step = stepFor(row, spacingMm, innerMm);
  for (let tries = 0; tries < 3; tries++) {
    const circle = seamCircleBySteps(stack, seams, step, fewestSteps * step);
    if (circle && 2 * circle.radiusMm >= fewestSteps * step) return circle;
    if (row.lengthMm / step >= mostSteps / 4) break;
    step /= 4;
  }
  return seamCircleBySteps(stack, seams, step, 0);
}

function seamCircleBySteps(stack: Stack, seams: Seams, stepMm: number, leastMm: number): EmptyCircle | null {
  let best: EmptyCircle | null = null;
  for (const seed of seamSeeds(stack, seams, stepMm, leastMm)) {
    if (best && !isWorthGrowing(seed, stepMm, best)) break;
    if (seed.oneRow && !isNearTwoRows(stack, seed, stepMm)) continue;
    const circle = grownCircle(stack, seed.x, seed.y, stepMm);
    if (circle.radiusMm > (best?.radiusMm ?? 0) && rowsTouched(stack, circle).length > 1) best = circle;
  }
  return best;
}

/** Where rows cross, a circle may touch both at once though its samples are all of one. */
function isNearTwoRows(stack: Stack, { x, y, radiusMm }: Seed, stepMm: number): boolean {
  return rowsTouched(stack, { x, y, radiusMm: radiusMm + stepMm / 4 }).length > 1;
}

/** The line bulges into the seed's circle by step^2 / 8r: what that takes off is no gain over the best so far. */
function isWorthGrowing(seed: Seed, stepMm: number, best: EmptyCircle): boolean {
  const bulgeMm = stepMm ** 2 / (8 * best.radiusMm);
  return seed.radiusMm > best.radiusMm + Math.min(bulgeMm, mostLostMm);
}

/** The numbers of the rows that the circle touches. */
export function rowsTouched(stack: Stack, { x, y, radiusMm }: EmptyCircle): number[] {
  const reach = radiusMm + touchMm;
  const [first, last] = rowsIn(stack, y - reach, y + reach);
  const touched: number[] = [];
  for (let index = first; index <= last; index++) {
    if (distanceToRow(stack, index, x, y, reach) < reach) touched.push(index);
  }
  return touched;
}

/** The largest pocket of the motif's row that no other row of the stack touches, or null where there is none. */
export function innerCircle(stack: Stack): EmptyCircle | null {
  return largestPocket(stack.row, (circle) => rowsTouched(stack, circle).length < 2);
}

/** The largest pocket of the row for itself: no stack has a larger inner circle. */
export function largestOwnPocket(row: Row): EmptyCircle | null {
  return largestPocket(row, () => true);
}

/** Seeds of one sampling step, and the pockets grown from those that were needed so far. */
interface PocketLevel {
  readonly stepMm: number;
  readonly seeds: readonly Seed[];
  readonly grown: (EmptyCircle | undefined)[];
}

const levelsOf = perRow((_row): PocketLevel[] => []);

/** The largest pocket that passes; finer sampling steps are taken only where the coarse ones yield none. */
function largestPocket(row: Row, passes: (circle: EmptyCircle) => boolean): EmptyCircle | null {
  const alone = aloneOf(row);
  for (let depth = 0; ; depth++) {
    const level = pocketLevel(row, depth);
    if (level === null) return null;
    let best: EmptyCircle | null = null;
    for (const [i, seed] of level.seeds.entries()) {
      if (best && !isWorthGrowing(seed, level.stepMm, best)) break;
      // A seed is as large as the circle it stands for: beyond that, the growing one is on its way to another's, or
      // out of a narrow bay that does not hold it.
      const mostMm = seed.radiusMm + level.stepMm / 8;
      level.grown[i] ??= grownCircle(alone, seed.x, seed.y, level.stepMm, mostMm);
      const circle = level.grown[i];
      if (circle.radiusMm > mostMm || circle.radiusMm <= (best?.radiusMm ?? 0)) continue;
      if (isPocket(row, circle) && passes(circle)) best = circle;
    }
    if (best && 2 * best.radiusMm >= fewestSteps * level.stepMm) return best;
  }
}

/** What holds a circle lies around it, so the centre of a pocket is never above or below its row. */
function isPocket({ box }: Row, { y }: EmptyCircle): boolean {
  return y > box.minY && y < box.maxY;
}

function pocketLevel(row: Row, depth: number): PocketLevel | null {
  const levels = levelsOf(row);
  if (depth < levels.length) return levels[depth];
  const before = levels.at(-1);
  const stepMm = before ? Math.max(before.stepMm / 3, finestStepMm) : stepFor(row, row.heightMm);
  if (before && (before.stepMm <= finestStepMm || row.lengthMm / stepMm > mostStepsForPockets)) return null;
  const { box, repeatMm } = row;
  const window = { leftMm: box.minX, rightMm: box.minX + repeatMm, topMm: box.minY, bottomMm: box.maxY };
  const seeds = seedsIn(aloneOf(row), window, stepMm, fewestSteps * stepMm);
  const level = { stepMm, seeds, grown: [] };
  levels.push(level);
  return level;
}
