import { expect, test } from 'vitest';
import { rules } from '../../rules/index.js';
import { defaultLimits, defaultSetup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { lint } from '../../src/lint/index.js';
import { reportOf } from '../../src/lint/report.js';
import { studyOf } from '../../src/measure/index.js';
import { motifOf } from '../../src/size/motif-of.js';

test('crossings past the limit are marked as at least so many, others are not', () => {
  // Ten upright lines across one level line: ten crossings.
  const strokes = [
    Float64Array.of(0, 50, 110, 50),
    ...Array.from({ length: 10 }, (_, i) => Float64Array.of(10 * i + 5, 0, 10 * i + 5, 100)),
  ];
  const counted = (crossings: number) => {
    const setup = { ...defaultSetup, limits: { ...defaultLimits, crossings } };
    return reportOf('a.svg', studyOf(motifOf(strokes), setup), []).motif!;
  };
  expect(counted(10)).toMatchObject({ crossings: 10 });
  expect(counted(10)).not.toHaveProperty('crossingsAtLeast');
  expect(counted(4)).toMatchObject({ crossings: 4, crossingsAtLeast: true });
});

test('what a line is too thick to be counted out for is told as at least so much, in words and in the report', () => {
  // 40 passes of a wave, each 0.02 mm above the one before: every one runs beside nearly all others within 0.8 mm.
  const steps = 1000;
  const line = Float64Array.from(
    Array.from({ length: 40 * steps }, (_, i) => {
      const pass = Math.floor(i / steps);
      const along = pass % 2 ? steps - 1 - (i % steps) : i % steps;
      return [0.3 * along, 20 * Math.sin(along / 20) + 0.02 * pass];
    }).flat(),
  );
  const study = studyOf(motifOf([line]), defaultSetup);
  const findings = lint(study, rules);
  const { motif, findings: told } = reportOf('a.svg', study, findings);
  const pile = told!.find(({ rule }) => rule === 'thread-pile')!;
  expect(pile.atLeast).toBe(true);
  expect(pile.message).toContain('at least');
  // Retraces are all known: every pass but the first, on which it is 0.02 mm from the one before.
  expect(motif).not.toHaveProperty('retraceAtLeast');
  expect(Math.abs(study.retraces.totalMm - (39 / 40) * study.lengthMm)).toBeLessThan(1e-3 * study.lengthMm);
  const cutShort = Object.create(study, { retraces: { value: { ...study.retraces, more: true } } }) as Study;
  const repeated = lint(
    cutShort,
    rules.filter(({ id }) => id === 'repeated-line'),
  )[0];
  expect(repeated.atLeast).toBe(true);
  expect(repeated.message).toMatch(/^At least /);
  expect(reportOf('a.svg', cutShort, [repeated]).motif).toMatchObject({ retraceAtLeast: true });
});
