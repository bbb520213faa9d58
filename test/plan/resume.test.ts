/** Going on after a break, held against walking the line of the pass. */
import fc from 'fast-check';
import { beforeAll, describe, expect, it, vi } from 'vitest';
import type { Plan } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import { lengthOf, placeAlong, polylineOf, runningLengths } from '../../src/geometry/polyline.js';
import { layersOf } from '../../src/plan/line-layers.js';
import { restInWords, resumePass } from '../../src/plan/resume.js';
import { planOf, wantedOf } from './planned.js';

/** On a machine that may be busy. */
vi.setConfig({ testTimeout: 120_000 });

const total = (lines: readonly Polyline[]) => lines.reduce((sum, line) => sum + lengthOf(line), 0);

/** The place so far along strokes that follow one another. */
function placeOn(lines: readonly Polyline[], alongMm: number) {
  let left = alongMm;
  for (const line of lines) {
    const run = runningLengths(line);
    if (left <= run[run.length - 1]) return placeAlong(line, run, left);
    left -= run[run.length - 1];
  }
  throw new Error('beyond the end');
}

describe('the rest of a pass', () => {
  let plans: Plan[] = [];
  beforeAll(async () => {
    const setup = { ...defaultSetup, throatMm: 220 };
    plans = [
      await planOf('rope-coil', wantedOf(300, 350), setup),
      await planOf('kelp', { ...wantedOf(260, 300), runs: 'one-way' }, setup),
    ];
  });

  it('is the tail of the line from a place on it, wherever it was stopped', () => {
    fc.assert(
      fc.property(
        fc.boolean(),
        fc.nat(),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (which, n, share) => {
          const { passes } = plans[which ? 0 : 1];
          const pass = passes[n % passes.length];
          const whole = total(pass.strokes);
          const alongMm = share * whole;
          const at = placeOn(pass.strokes, alongMm);
          const atMm = [at.x, at.y] as const;
          const first = resumePass(pass, { atMm, which: null, overlapMm: 0 }, defaultSetup);
          const way = first.ways.reduce((a, b) =>
            Math.abs(b.alongMm - alongMm) < Math.abs(a.alongMm - alongMm) ? b : a,
          );
          expect(way.alongMm).toBeCloseTo(alongMm, 6);
          expect(first.rest === null).toBe(first.ways.length > 1);
          const { rest } = resumePass(pass, { atMm, which: way.which, overlapMm: 0 }, defaultSetup);
          expect(rest!.leftMm).toBeCloseTo(whole - alongMm, 6);
          expect(total(rest!.strokes)).toBeCloseTo(whole - alongMm, 6);
          for (const part of [0, 0.3, 0.9]) {
            const a = placeOn(rest!.strokes, part * rest!.leftMm);
            const b = placeOn(pass.strokes, alongMm + part * rest!.leftMm);
            expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeLessThan(1e-6);
          }
          // What is link stays link.
          const tail = total(layersOf(rest!.strokes, rest!.links).link);
          const head = layersOf(pass.strokes, pass.links).link;
          expect(tail).toBeLessThanOrEqual(total(head) + 1e-6);
          if (alongMm < 1) expect(tail).toBeCloseTo(total(head), 3);
        },
      ),
      { numRuns: 200 },
    );
  });

  const straight = { pass: 2, strokes: [Float64Array.of(0, 0, 1000, 0)], links: [] };

  it('begins so far before the place, and never before the stroke', () => {
    const from = (x: number) =>
      resumePass(straight, { atMm: [x, 5], which: null, overlapMm: 12.7 }, defaultSetup).rest!;
    expect(from(500).strokes[0][0]).toBeCloseTo(487.3, 9);
    expect(from(500).leftMm).toBeCloseTo(500, 9);
    expect(from(4).strokes[0][0]).toBe(0);
    // 512.7 mm at 11 stitches to 25.4 mm are 222.03: 223 with the last, short one.
    expect(from(500).stitchesLeft).toBe(223);
  });

  it('is refused where the place lies off the line, naming how far and where the line is', () => {
    const off = () => resumePass(straight, { atMm: [254, 25.4], which: null, overlapMm: 0 }, defaultSetup);
    expect(off).toThrow(/lies 1 in \(25\.4 mm\) off .* nearest at 10 in across, 0 in down/);
    const beyond = () => resumePass(straight, { atMm: [1005, 0], which: null, overlapMm: 0 }, defaultSetup);
    expect(beyond).toThrow('Pass 2 is stitched to its end there: go on with the next pass.');
  });

  it('asks which time it was where the line comes by more than once', () => {
    // Across at y = 0, back at y = 2, and a third time at y = 4 - beyond the 3 mm by which a way may be farther off.
    const points = [0, 2, 4].flatMap((y, i) => {
      const ends = [
        { x: 0, y },
        { x: 300, y },
      ];
      return i % 2 === 0 ? ends : ends.reverse();
    });
    const pass = { pass: 1, strokes: [polylineOf(points)], links: [] };
    const asked = (which: number | null) =>
      resumePass(pass, { atMm: [100, -1], which, overlapMm: 0 }, defaultSetup);
    expect(asked(null)).toMatchObject({
      rest: null,
      ways: [
        { which: 1, alongMm: 100, offMm: 1 },
        { which: 2, alongMm: 502, offMm: 3 },
      ],
    });
    expect(asked(2).rest!.leftMm).toBeCloseTo(904 - 502, 9);
    // What is told of the one chosen is told of that one alone: where it lies, and which way it goes there.
    const told = [1, 2].map((which) => restInWords(1, asked(which).rest!, sayIn('mm')).split(':')[0]);
    expect(told).toEqual([
      'Pass 1, stopped at 100 mm across, 0 mm down, on its way to the right',
      'Pass 1, stopped at 100 mm across, 2 mm down, on its way to the left',
    ]);
    expect(() => asked(3)).toThrow('--which takes a number from 1 to 2: the line comes by twice.');
  });

  it('is told so that the little that is done or left is no nothing', () => {
    const say = sayIn('in');
    for (const { passes } of plans) {
      for (const pass of passes) {
        const whole = total(pass.strokes);
        // Half a millimetre, and half a stitch, half an inch and half a yard.
        for (const littleMm of [0.5, 1.2, 12.7, 457.2]) {
          for (const alongMm of [littleMm, whole - littleMm]) {
            const { x, y } = placeOn(pass.strokes, alongMm);
            const wanted = { atMm: [x, y] as const, overlapMm: 0 };
            const { ways } = resumePass(pass, { ...wanted, which: null }, defaultSetup);
            const { which } = ways.reduce((a, b) =>
              Math.abs(b.alongMm - alongMm) < Math.abs(a.alongMm - alongMm) ? b : a,
            );
            const { rest } = resumePass(pass, { ...wanted, which }, defaultSetup);
            const told = restInWords(pass.pass, rest!, say);
            const [done, left] = /: (.+) of its line are done, (.+) are left:/.exec(told)!.slice(1);
            const metres = [done, left].map((each) => {
              const [, number, unit] = /\(([\d.]+) (m|mm)\)$/.exec(each)!;
              return Number(number) / (unit === 'mm' ? 1000 : 1);
            });
            expect(done).not.toBe(left);
            expect(restInWords(1, { ...rest!, stitchesLeft: 1 }, say)).toContain(' 1 stitch from');
            expect(metres[0]).toBeCloseTo(alongMm / 1000, alongMm === littleMm ? 4 : 2);
            expect(metres[1]).toBeCloseTo((whole - alongMm) / 1000, alongMm === littleMm ? 2 : 4);
          }
        }
      }
    }
  });
});
