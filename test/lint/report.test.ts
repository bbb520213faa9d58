import { expect, test } from 'vitest';
import { defaultLimits, defaultSetup } from '../../shared/setup.js';
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
