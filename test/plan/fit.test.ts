/** The choices of real motifs: every one is what it says, against the definitions and the rows at the size it names. */
import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { Motif } from '../../shared/motif.js';
import { defaultSetup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { planQuilt } from '../../src/plan/index.js';
import { nest, rowDistance, rowOfMotif, rowsAt } from '../../src/rows/index.js';
import { motifIn } from '../checked.js';
import { wantedOf } from './planned.js';

vi.setConfig({ testTimeout: 120_000, hookTimeout: 60_000 });

const setup = { ...defaultSetup, throatMm: 420 };
const path = (name: string) => new URL(`../../corpus/motifs/${name}.svg`, import.meta.url).pathname;

/** Curves drawn finer, as `plan` has them drawn where the size may change. */
const fine = { ...setup, flattenMm: setup.flattenMm / 1.1 };

describe.each(['swell', 'rope-coil', 'net'])('every choice of %s', (name) => {
  let motif: Motif;
  beforeAll(async () => {
    motif = await motifIn(path(name), fine);
  });

  it.each([
    [900, 1100, 25.4],
    [1000, 800, 0],
  ])('on a top of %d x %d mm with a margin of %d is what it says', async (widthMm, heightMm, marginMm) => {
    const study = studyOf(motif, setup);
    const planFor = (choose: number) =>
      planQuilt(study, name, { ...wantedOf(widthMm, heightMm, marginMm), resize: 0.1, choose }).plan!;
    const { choices } = planFor(1);
    expect(choices.map(({ number }) => number)).toEqual(choices.map((_, i) => i + 1));
    for (const choice of choices) {
      const plan = planFor(choice.number);
      expect(plan.chosen).toBe(choice.number);
      expect(plan.totals.rows).toBe(choice.rows);
      expect(plan.totals.passes).toBe(choice.passes);
      expect(plan.totals.lengthMm).toBeCloseTo(choice.lengthMm, 5);
      expect(plan.totals.linkMm).toBeCloseTo(choice.linkMm, 5);
      const { heightMm: size, layout, spacingMm, closestSpacingMm, evenSpacingMm, firstMm, repeats } = choice;
      const scale = size / motif.heightMm;
      expect(Math.abs(scale - 1)).toBeLessThanOrEqual(0.1 + 1e-9);
      // The rows of the motif read at that size.
      const row = rowOfMotif(studyOf(await motifIn(path(name), { ...setup, heightMm: size }), setup));
      const spacings = nest(row, layout, setup.clearanceMm, setup.gapMm);
      expect(Math.abs(spacings.closestSpacingMm - closestSpacingMm)).toBeLessThan(0.1);
      expect(Math.abs(rowsAt(row, layout, spacingMm).largestOpenMm - choice.largestOpenMm)).toBeLessThan(
        0.15,
      );
      expect(rowDistance(row, layout, spacingMm).leastMm).toBeGreaterThan(setup.clearanceMm - 0.05);
      // Across.
      const [fieldWidth, fieldHeight] = [widthMm + 2 * marginMm, heightMm + 2 * marginMm];
      const over = repeats * row.repeatMm - fieldWidth;
      expect(over).toBeGreaterThan(-0.01);
      expect(over).toBeLessThan(row.repeatMm);
      expect(Math.abs(over) < 0.01).toBe(choice.wholeAcross);
      expect(Math.abs(firstMm[0] + marginMm + over / 2)).toBeLessThan(0.01);
      // Down.
      expect(spacingMm).toBeGreaterThan(closestSpacingMm - 0.002);
      expect(spacingMm).toBeLessThan(1.1 * evenSpacingMm + 0.002);
      if (choice.wholeDown) {
        expect((choice.rows - 1) * spacingMm + size).toBeCloseTo(fieldHeight, 2);
        expect(size - spacingMm).toBeLessThanOrEqual(marginMm + 0.002);
        expect(plan.passes[0].topMm).toBeCloseTo(-marginMm, 3);
        expect(plan.passes.at(-1)!.bottomMm).toBeCloseTo(heightMm + marginMm, 3);
      } else expect(spacingMm).toBeCloseTo(evenSpacingMm, 6);
      // Passes.
      for (const { bottomMm, topMm, usableMm } of plan.passes)
        expect(bottomMm - topMm).toBeLessThanOrEqual(usableMm! + 0.001);
    }
    expect(() => planFor(choices.length + 1)).toThrow(/--choose takes/);
  });
});

it('keeps a size that was typed, and the layout and spacing stored with a motif', async () => {
  const motif = {
    ...(await motifIn(path('swell'), setup)),
    rows: { layout: 'brick', spacing: 80, clearance: 3 } as const,
  };
  const { plan } = planQuilt(studyOf(motif, setup), 'swell', wantedOf(900, 1100));
  for (const { heightMm, layout, spacingMm } of plan!.choices) {
    expect([heightMm, layout]).toEqual([expect.closeTo(motif.heightMm, 9), 'brick']);
    expect(spacingMm).toBeCloseTo(80, 2);
  }
});
