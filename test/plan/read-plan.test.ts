/** `plan.json` written and read back, and what is no plan. */
import { isDeepStrictEqual } from 'node:util';
import ajv from 'ajv';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import type { Plan } from '../../shared/plan.js';
import schema from '../../shared/plan.schema.json' with { type: 'json' };
import { defaultSetup } from '../../shared/setup.js';
import { flawsAgainst } from '../../src/json-schema.js';
import { planJson } from '../../src/plan/plan-json.js';
import * as plans from '../../src/plan/read-plan.js';
import { strokesApart } from '../../src/plan/strokes-apart.js';
import { planOf, wantedOf } from './planned.js';

/** What is thrown as a rejection. */
const readPlan = async (...given: Parameters<typeof plans.readPlan>) => plans.readPlan(...given);

const bytesOf = (text: string) => new TextEncoder().encode(text);

describe('plan.json', () => {
  let plan: Plan;
  let text: string;
  beforeAll(async () => {
    const setup = {
      ...defaultSetup,
      throatMm: 300,
      bobbinMm: 50_000,
      speed: 1500,
      price: 0.02,
      stitchesPerInch: 10,
    };
    plan = await planOf('swell', wantedOf(600, 500), setup);
    text = planJson(plan, { asFile: true });
  });

  it('is as its schema says, read by an ordinary reader', async () => {
    expect(new ajv.Ajv({ allowUnionTypes: true }).validate(schema, JSON.parse(text))).toBe(true);
    expect(flawsAgainst(schema)(JSON.parse(text))).toBeNull();
  });

  it('reads back the same to a thousandth of a millimetre', async () => {
    const read = await readPlan(bytesOf(text), 'plan.json');
    const again = planJson(read, { asFile: true });
    // A difference would be megabytes long.
    expect(isDeepStrictEqual(JSON.parse(again), JSON.parse(text))).toBe(true);
    expect(read.stitchesPerInch).toBe(10);
    plan.passes.forEach(({ strokes, links }, i) => {
      expect(read.passes[i].links).toEqual(links);
      strokes.forEach((stroke, s) => {
        const back = read.passes[i].strokes[s];
        expect(back).toHaveLength(stroke.length);
        expect(stroke.every((value, k) => Math.abs(back[k] - value) <= 0.00051)).toBe(true);
      });
    });
    // Laid out by another program, and without the keys that may be missing.
    const { stitchesPerInch: _, credit: _credit, ...bare } = JSON.parse(text);
    for (const pass of bare.passes) delete pass.links;
    const other = await readPlan(bytesOf(JSON.stringify(bare, null, '\t')), 'plan.json');
    expect(other.passes.map(({ strokes }) => strokes)).toEqual(read.passes.map(({ strokes }) => strokes));
    expect(other.stitchesPerInch).toBe(defaultSetup.stitchesPerInch);
  });

  it('cut off or garbled anywhere is refused in one sentence', async () => {
    const whole = bytesOf(text);
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: whole.length - 2 }),
        fc.integer({ min: 0, max: 255 }),
        async (at, byte) => {
          const cut = await readPlan(whole.subarray(0, at), 'plan.json').catch((error) => error);
          expect(cut.name).toBe('Refusal');
          const garbled = Uint8Array.from(whole);
          garbled[at] = byte;
          const read = await readPlan(garbled, 'plan.json').catch((error) => error);
          if (read instanceof Error) {
            expect(read.name).toBe('Refusal');
            expect(read.message).toMatch(/^plan\.json: [^\n]*\.$/);
          }
        },
      ),
      { numRuns: 120 },
    );
  });

  const changed = (change: (json: ReturnType<typeof JSON.parse>) => void) => {
    const json = JSON.parse(text);
    change(json);
    return readPlan(bytesOf(JSON.stringify(json)), 'plan.json');
  };

  it('of a newer version, of another kind, damaged or of another top is refused with what is wrong', async () => {
    await expect(changed((json) => Object.assign(json, { version: 2 }))).rejects.toThrow(
      'plan.json: plan version 2 is newer than version 1, the newest this program reads.',
    );
    await expect(readPlan(bytesOf('<svg/>'), 'a.svg')).rejects.toThrow('a.svg: this is no plan');
    await expect(readPlan(bytesOf('{"format":"linewright-motif"}'), 'a.json')).rejects.toThrow('no plan');
    await expect(readPlan(bytesOf('null'), 'a.json')).rejects.toThrow('no plan');
    await expect(readPlan(bytesOf(text.slice(0, 900)), 'plan.json')).rejects.toThrow(
      'plan.json: this plan is damaged, it cannot be read to its end: make it again with linewright plan.',
    );
    await expect(changed((json) => delete json.passes[1].advanceMm)).rejects.toThrow(
      /damaged, "passes\/1".*advanceMm/,
    );
    await expect(changed((json) => Object.assign(json.quilt, { widthMm: 400 }))).rejects.toThrow(
      'another top',
    );
    await expect(changed((json) => Object.assign(json, { chosen: 99 }))).rejects.toThrow('"chosen"');
    await expect(changed((json) => Object.assign(json.passes[0], { strokes: [[[1, 2]]] }))).rejects.toThrow(
      'damaged',
    );
    await expect(changed((json) => Object.assign(json.passes[0], { links: [[7, 0, 1]] }))).rejects.toThrow(
      '"links"',
    );
  });
});

describe('strokes taken apart', () => {
  it('are the numbers that an ordinary reader reads', () => {
    const number = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.integer({ min: -1_000_000, max: 1_000_000 }).map((n) => n / 1000),
    );
    fc.assert(
      fc.property(
        fc.array(fc.array(fc.tuple(number, number), { minLength: 2, maxLength: 6 }), {
          minLength: 1,
          maxLength: 4,
        }),
        fc.constantFrom(undefined, 1, '\t'),
        (strokes, space) => {
          const json = JSON.stringify({ a: '"strokes":[[', strokes, b: '\\"' }, null, space);
          const apart = strokesApart(bytesOf(json))!;
          expect(apart.strokes[0].map((line) => [...line])).toEqual(
            JSON.parse(json).strokes.map((stroke: number[][]) => stroke.flat()),
          );
          expect(JSON.parse(new TextDecoder().decode(apart.rest))).toEqual({
            a: '"strokes":[[',
            strokes: [
              [
                [0, 0],
                [0, 0],
              ],
            ],
            b: '\\"',
          });
        },
      ),
      { numRuns: 500 },
    );
  });

  it('are refused where they are no list of lines', () => {
    for (const value of [
      '1',
      '[]',
      '[[]]',
      '[[[1,2]]]',
      '[[[1,2],[3]]]',
      '[[[1,2],[3,1e999]]]',
      '[[[1,2],[3,]]]',
      '[[[1,2] [3,4]]]',
      '[[[01a,2],[3,4]]]',
      '[[[1.,2],[3,4]]]',
      '[[[-,2],[3,4]]]',
    ])
      expect(strokesApart(bytesOf(`{"strokes":${value}}`)), value).toBeNull();
  });
});
