/** The study of small drawings, of which every fact can be read off by eye; and what is not known of large ones. */
import { describe, expect, test } from 'vitest';
import type { Polyline } from '../../shared/plane.js';
import { defaultSetup } from '../../shared/setup.js';
import { moved, reversed } from '../../src/geometry/polyline.js';
import { studyOf } from '../../src/measure/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { curve, line, studied } from './lines.js';

/** Up and down again: 50 mm and 50 mm. */
const roof = line(0, 0, 30, 40, 60, 0);

test('of a plain line size, length, ends and repeat', () => {
  const study = studied([roof]);
  expect(study).toMatchObject({
    strokes: [roof],
    dots: [],
    duplicates: [],
    breaks: [],
    partGapsMm: [],
    marks: [],
    widthMm: 60,
    heightMm: 40,
    lengthMm: 100,
    points: 3,
    isOneStroke: true,
    runsLeft: false,
    start: { at: { x: 0, y: 0 } },
    end: { at: { x: 60, y: 0 } },
    repeat: { dx: 60, dy: 0, assumed: false },
    crossings: { places: [], more: false },
    retraces: { stretches: [], totalMm: 0 },
    spareMm: 0,
    outline: null,
  });
  expect(study.box).toEqual({ minX: 0, minY: 0, maxX: 60, maxY: 40 });
  // Down at 53.13 degrees, and up again at as many.
  expect(study.joinTurnDeg).toBeCloseTo((2 * Math.atan2(40, 30) * 180) / Math.PI, 9);
  // Of 100 mm a stitch over the corner takes less than one and a half lengths.
  expect(Math.abs(study.stitches.count - 100 / (25.4 / 11))).toBeLessThan(1);
  expect(study.cusps(20)).toEqual([]);
  expect(study.cusps(75)).toEqual([{ x: 30, y: 40 }]);
  expect(study.shortSteps(60).count).toBe(0);
  expect(studied([line(0, 0, 30, 0, 30.1, 0, 60, 0)]).shortSteps(0.5).count).toBe(1);
});

test('size is that of the line, wherever it lies', () => {
  const aside = studyOf({ ...motifOf([roof]), strokes: [moved(roof, 7, -90)] }, defaultSetup);
  expect(aside).toMatchObject({ widthMm: 60, heightMm: 40, lengthMm: 100 });
  expect(aside.box).toEqual({ minX: 7, minY: -90, maxX: 67, maxY: -50 });
});

test('each fact is worked out once', () => {
  const study = studied([roof, moved(roof, 0, 60)]);
  const facts = () => [
    study.strokes,
    study.breaks,
    study.partGapsMm,
    study.box,
    study.start,
    study.crossings,
    study.retraces,
    study.stitches,
    study.marks,
    study.cusps(20),
    study.tightCurves(0.4),
    study.tightCurvesEnd(0.4, 20),
    study.crowding(0.8, 5),
    study.piles(4),
    study.shortSteps(0.5),
    study.copies(1, 10),
    study.nesting('straight'),
    study.rowDistance('straight', 50),
  ];
  const [once, again] = [facts(), facts()];
  once.forEach((fact, k) => {
    expect(again[k]).toBe(fact);
  });
});

test('of a line that runs to the left the repeat leads to the right all the same', () => {
  const study = studied([reversed(roof)]);
  expect(study).toMatchObject({ runsLeft: true, repeat: { dx: 60, dy: -0, assumed: false } });
  expect(study.joinTurnDeg).toBeCloseTo(studied([roof]).joinTurnDeg!, 9);
  // One that comes back to where it began leads nowhere.
  const ring = studied([line(60, 0, 0, 0, 0, 40, 60, 40, 60, 0)]);
  expect(ring).toMatchObject({ runsLeft: false, joinTurnDeg: null, repeat: { dx: 60, assumed: true } });
});

test('nothing but dots is no motif', () => {
  expect(() => studied([line(5, 5, 5, 5), line(9, 9, 9.1, 9)]).strokes).toThrow(
    /^There is nothing to stitch in ".*", only dots\.$/,
  );
  const dotted = studied([roof, line(5, 5, 5, 5)]);
  expect(dotted.dots).toEqual([{ x: 5, y: 5 }]);
  expect(dotted.strokes).toEqual([roof]);
});

describe('of several strokes', () => {
  const gapped = (gapMm: number) => [roof, moved(roof, 60 + gapMm, 0)];
  const study = (strokes: Polyline[], joinToleranceMm: number) =>
    studyOf(motifOf(strokes), { ...defaultSetup, joinToleranceMm });

  test('it is one line where the breaks are within the join tolerance', () => {
    expect(study(gapped(0.3), 0.2).isOneStroke).toBe(false);
    expect(study(gapped(0.3), 0.4).isOneStroke).toBe(true);
    expect(study([...gapped(0.3), moved(roof, 121, 0)], 0.4).isOneStroke).toBe(false);
    expect(study(gapped(0.3), 0.2).repeat.assumed).toBe(true);
    expect(study(gapped(0.3), 0.4).repeat).toEqual({ dx: 120.3, dy: 0, assumed: false });
  });

  test('lengths and points are those of all, and how far apart they lie is told', () => {
    const found = studied(gapped(7));
    expect(found).toMatchObject({ lengthMm: 200, points: 6, widthMm: 127, heightMm: 40, partGapsMm: [7] });
    expect(found.breaks.map(({ gapMm }) => gapMm)).toEqual([7]);
    expect(found.spareMm).toBeNull();
  });

  test('a stroke drawn twice is set aside, a line beside another is a copy of it', () => {
    const twice = studied([roof, reversed(roof)]);
    expect(twice.strokes).toHaveLength(1);
    expect(twice.duplicates).toHaveLength(1);
    expect(twice.lengthMm).toBe(100);
    expect(twice.copies(2, 10).places).toEqual([]);
    expect(studied([roof, moved(roof, 0, 1)]).copies(2, 10).places).toHaveLength(1);
    expect(studied([roof, moved(roof, 0, 1)]).copies(0.5, 10).places).toEqual([]);
  });
});

describe('what takes too long is not known', () => {
  test('how far apart more than a thousand strokes lie', () => {
    const strokes = (count: number) => Array.from({ length: count }, (_, k) => line(3 * k, 0, 3 * k + 1, 0));
    expect(studied(strokes(200)).partGapsMm).toHaveLength(199);
    expect(studied(strokes(1001)).partGapsMm).toBeNull();
  });

  test('what could be left out of a line of more than 20,000 points', () => {
    // Out and back over 20 mm on the way.
    const drawn = (points: number) => {
      const way = curve(points - 4, (t) => [200 * t, 30 * Math.sin(7 * t)]);
      const [x, y] = way.slice(-2);
      return Float64Array.of(...way, x + 20, y, x, y, x, y - 30);
    };
    expect(studied([drawn(2000)]).spareMm).toBe(0);
    expect(studied([drawn(20_001)]).spareMm).toBeNull();
  });

  test('nor that where passes meet too often; how far apart parts lie is known all the same', () => {
    const limits = { ...defaultSetup.limits, crossings: 3 };
    const net = [0, 1, 2].flatMap((k) => [line(0, 9 * k, 40, 9 * k), line(9 * k, -5, 9 * k, 40)]);
    const study = studyOf(motifOf(net), { ...defaultSetup, limits });
    expect(study.crossings.more).toBe(true);
    expect(study.partGapsMm).toEqual([]);
    expect(studied(net).crossings).toMatchObject({ more: false });
    expect(studied(net).partGapsMm).toEqual([]);
    const zigzag = [line(0, 0, 40, 0, 40, 9, 0, 9, 0, 18, 40, 18, 40, -9, 30, 30, 20, -9, 10, 30)];
    expect(studyOf(motifOf(zigzag), { ...defaultSetup, limits }).spareMm).toBeNull();
    expect(studied(zigzag).spareMm).not.toBeNull();
  });

  test('nothing of a line in too many pieces; those whose ends meet are one', () => {
    const limits = { ...defaultSetup.limits, pieces: 3 };
    const steps = (count: number, gap: number) =>
      Array.from({ length: count }, (_, k) => line((10 + gap) * k, 0, (10 + gap) * k + 10, 0));
    const studyWith = (strokes: readonly Polyline[]) =>
      studyOf(motifOf(strokes), { ...defaultSetup, limits });
    expect(() => studyWith(steps(4, 5)).strokes).toThrow(/is in 4 separate pieces, more than the limit of 3/);
    expect(studyWith(steps(3, 5)).strokes).toHaveLength(3);
    expect(studyWith(steps(9, 0)).strokes).toHaveLength(1);
  });

  test('what the batting allows, where it is not said which', () => {
    expect(studied([roof]).battingRows('straight')).toBeNull();
    const study = studyOf(motifOf([roof]), { ...defaultSetup, battingMm: 100 });
    expect(study.battingRows('straight')!.spacingMm).toBeGreaterThan(
      study.nesting('straight').closestSpacingMm,
    );
    expect(study.rowsAt('straight', 70).spacingMm).toBe(70);
  });
});
