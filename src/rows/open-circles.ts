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

import { type EmptyCircle, grownCircle, isOutside } from './grow.js';
import { perRowAnd, type Row } from './row.js';
import { seamSeeds, seamsOf, seedsIn } from './seeds.js';
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

/**
 * The circle that is found by the longest step by which there is one: at first the step for circles as wide as the lines are
 * apart on average, or as `alsoMm`, whichever is wider, mm.
 */
function byFinerSteps(
  { repeatMm, lengthMm }: Row,
  spacingMm: number,
  alsoMm: number,
  finestMm: number,
  find: (stepMm: number) => EmptyCircle | null,
): EmptyCircle | null {
  const meanLineSpacingMm = (repeatMm * spacingMm) / lengthMm;
  let step = Math.max(meanLineSpacingMm / stepsAcross, alsoMm / stepsAcross, lengthMm / mostSteps);
  for (; ; step = Math.max(step / 3, finestMm)) {
    const circle = find(step);
    if (circle || step <= finestMm) return circle;
  }
}

/**
 * The largest circle that touches two rows or more, or null where there is none. It is looked for by steps that suit
 * circles as large as `innerMm`, the inner one's diameter, and by finer ones only where there are none of that kind.
 */
export function seamCircle(stack: Stack, innerMm = 0): EmptyCircle | null {
  const { row, spacingMm } = stack;
  const seams = seamsOf(stack);
  const finestMm = row.lengthMm / mostSteps;
  return byFinerSteps(row, spacingMm, innerMm, finestMm, (stepMm) => {
    let best: EmptyCircle | null = null;
    for (const seed of seamSeeds(stack, seams, stepMm, stepMm > finestMm ? fewestSteps * stepMm : 0)) {
      if (best && seed.radiusMm < best.radiusMm + mostLostMm) break;
      const { x, y, radiusMm } = seed;
      // Where rows cross, a circle may touch both at once though its samples are all of one.
      if (rowsTouched(stack, { x, y, radiusMm: radiusMm + stepMm / 4 }).length < 2) continue;
      const circle = grownCircle(stack, x, y, stepMm);
      if (circle.radiusMm > (best?.radiusMm ?? 0) && rowsTouched(stack, circle).length > 1) best = circle;
    }
    return best;
  });
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

/** Seeds of pockets by one sampling step, and the circles grown from those that were needed so far. */
const pocketsBy = perRowAnd((row, stepMm: number) => {
  const { box, repeatMm } = row;
  const window = { leftMm: box.minX, rightMm: box.minX + repeatMm, topMm: box.minY, bottomMm: box.maxY };
  const grown: EmptyCircle[] = [];
  return { seeds: seedsIn(aloneOf(row), window, stepMm, fewestSteps * stepMm), grown };
});

/** The largest pocket of the motif's row that no other row of the stack touches, or null where there is none. */
export function innerCircle(stack: Stack): EmptyCircle | null {
  const { row } = stack;
  const alone = aloneOf(row);
  const finestMm = Math.max(finestStepMm, row.lengthMm / mostStepsForPockets);
  return byFinerSteps(row, row.heightMm, 0, finestMm, (stepMm) => {
    const { seeds, grown } = pocketsBy(row, stepMm);
    let best: EmptyCircle | null = null;
    for (const [i, seed] of seeds.entries()) {
      if (best && seed.radiusMm < best.radiusMm + mostLostMm) break;
      // A seed is as large as the circle it stands for: beyond that, the growing one is on its way to another's, or
      // out of a narrow bay that does not hold it.
      const mostMm = seed.radiusMm + stepMm / 8;
      grown[i] ??= grownCircle(alone, seed.x, seed.y, stepMm, mostMm);
      const circle = grown[i];
      if (circle.radiusMm > mostMm || circle.radiusMm <= (best?.radiusMm ?? 0)) continue;
      if (!isOutside(alone, circle.y) && rowsTouched(stack, circle).length < 2) best = circle;
    }
    return best;
  });
}
