/** What is said of the outline of a pen: a bar 150 long and 1.5 wide has its line in the middle, whatever lies beside it. */
import { expect, test } from 'vitest';
import type { Motif } from '../../shared/motif.js';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { distance } from '../../src/geometry/point.js';
import { firstPoint, lengthOf } from '../../src/geometry/polyline.js';
import { mendMotif } from '../../src/mend/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { line } from './drawings.js';

const setup = { ...defaultSetup, unit: 'mm' } as const;
const bar = (left: number, right = left) => line(0, 0, 150, 0, 150, right, 0, left, 0, 0);
const square = (x: number) => line(x, 20, x + 30, 20, x + 30, 50, x, 50, x, 20);

function centred(strokes: readonly Polyline[], notes: Motif['notes'] = []) {
  const { motif, accounts } = mendMotif({ ...motifOf(strokes), notes }, setup, { only: ['centre'] });
  return { motif, account: accounts[0] };
}

const said = 'Put the line in the middle of the outline of a pen stroke; the pen was 1.5 mm (1/16 in) wide, ';

test('an even pen', () => {
  const { motif, account } = centred([bar(1.5)]);
  expect(motif.strokes).toHaveLength(1);
  expect(lengthOf(motif.strokes[0])).toBeGreaterThan(148);
  expect(account.message).toBe(`${said}as even as can be.`);
  expect(account.movedMm).toBeCloseTo(0.75, 2);
  expect(account.addedMm).toBeCloseTo(lengthOf(motif.strokes[0]) - 303, 2);
  expect(account.places).toHaveLength(1);
  expect(distance(account.places[0], firstPoint(motif.strokes[0]))).toBeLessThan(0.002);
  expect(account.added).toEqual([]);
});

test('a pen that grew wider says by how much', () => {
  // From 1.4 to 1.6 wide: nine in ten places are within 0.09 of the middle.
  expect(centred([bar(1.4, 1.6)]).account.message).toMatch(
    /1\.5 mm .* wide, even to 0\.09 mm \(0\.00\d in\)\.$/,
  );
  // Where only the last third grows, by 0.2, nine in ten places are within nearly that.
  const blunt = line(0, 0, 150, 0, 150, 1.7, 100, 1.5, 0, 1.5, 0, 0);
  expect(centred([blunt]).account.message).toMatch(/1\.5 mm .* wide, even to 0\.1[67]\d? mm /);
});

test('shapes beside it are left as they are, and said', () => {
  const one = centred([bar(1.5), square(40)]);
  expect(one.motif.strokes).toHaveLength(2);
  expect([...one.motif.strokes[1]].slice(0, 2)).toEqual(
    [40, 20].map((v, i) => v - (i === 1 ? 0.75 : 40 - one.motif.strokes[1][0])),
  );
  expect(one.account.message).toBe(
    `${said}as even as can be. 1 closed line that is no pen stroke is left as it is.`,
  );
  expect(centred([bar(1.5), square(10), square(60)]).account.message).toBe(
    `${said}as even as can be. 2 closed lines that are no pen stroke are left as they are.`,
  );
});

test('of shapes that were read by their outline those are told that are still there', () => {
  const note = (kind: string, count: number, ...places: { x: number; y: number }[]) =>
    ({ kind, what: 'filled shape', count, places }) as Motif['notes'][number];
  const cut = note('cut', 1, { x: 5, y: 5 });
  const outlines = note('outlines', 2, { x: 0, y: 0 }, { x: 40, y: 20 });
  const [still, told] = centred([bar(1.5), square(40)], [cut, outlines]).motif.notes;
  expect([still, told].map(({ kind, count }) => [kind, count])).toEqual([
    ['cut', 1],
    ['outlines', 1],
  ]);
  // The box begins half a pen lower now.
  expect(told.places).toHaveLength(1);
  expect(distance(told.places[0], { x: 40, y: 19.25 })).toBeLessThan(0.01);
  expect(centred([bar(1.5)], [cut, outlines]).motif.notes.map(({ kind }) => kind)).toEqual(['cut']);
});
