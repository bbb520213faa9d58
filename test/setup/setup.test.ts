/** Settings: defaults, file and typed options, and the sentence for each mistake. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rules } from '../../rules/index.js';
import { sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import {
  inches,
  lengthAtMost,
  lengthBeside,
  lengthText,
  millimetres,
  parseLength,
  sizeText,
} from '../../shared/units.js';
import { setupFrom } from '../../src/setup/index.js';

const file = (json: unknown) => ({ rules, settingsFile: { file: 'linewright.json', json } });

describe('lengths as people type them', () => {
  it.each([
    ['9.5in', 241.3],
    ['9 1/2in', 241.3],
    ['9-1/2"', 241.3],
    ['9½ in', 241.3],
    ['9,5 in', 241.3],
    ['1/2', 12.7],
    ['240mm', 240],
    ['24cm', 240],
    ['24 CM', 240],
    // W3C, CSS Values and Units Level 3, 6.2: 1in = 2.54cm = 72pt = 6pc.
    ['72pt', 25.4],
    ['6pc', 25.4],
    ['2.54cm', 25.4],
    ['9.5', 241.3],
    // NIST Handbook 44, appendix C: a foot has 12 inches, a yard 36.
    ["9 1/2''", 241.3],
    ['2 feet', 609.6],
    ['120 yards', 109_728],
  ])('%s is %f mm', (typed, mm) => {
    expect(parseLength(typed, 'in')).toBeCloseTo(mm, 9);
  });

  it('takes a bare number in the current unit', () => {
    expect(parseLength('240', 'mm')).toBe(240);
  });

  it.each(['', 'in', 'abc', '1/0', '1 2', '9 1/2 furlongs', '1e3in', 'NaN', 'Infinity'])(
    'refuses %j',
    (typed) => {
      expect(() => parseLength(typed, 'in', '--height')).toThrow(/--height .*is not a length/);
    },
  );

  it('says of one below 0 what is wrong with it', () => {
    for (const typed of ['-3', '-3in', '−1/2in', '-.5'])
      expect(() => parseLength(typed, 'in', '--height')).toThrow(
        `--height cannot be ${typed}: no length is below 0.`,
      );
  });

  it('says them back as a ruler has them', () => {
    expect(inches(133.35)).toBe('5 1/4 in');
    expect(inches(22.225)).toBe('7/8 in');
    expect(inches(25.4)).toBe('1 in');
    expect(inches(0)).toBe('0 in');
    expect(inches(1)).toBe('1/32 in');
    expect(inches(2.5)).toBe('3/32 in');
    expect(inches(0.5)).toBe('0.02 in');
    expect(lengthText(133.35, 'in')).toBe('5 1/4 in (133.4 mm)');
    expect(lengthText(133.35, 'mm')).toBe('133.4 mm (5 1/4 in)');
    // 0.9 mm and 1 mm are both 1/32 in on the ruler; beside each other they are told finer.
    expect(lengthText(0.9, 'in')).toBe('1/32 in (0.9 mm)');
    expect(lengthText(1, 'in')).toBe('1/32 in (1 mm)');
    expect(lengthBeside(0.9, 1, 'in')).toBe('0.035 in (0.9 mm)');
    expect(lengthBeside(0.9, 3, 'in')).toBe('1/32 in (0.9 mm)');
    // 5.31 in and 134.9 mm: down to a sixteenth, down to a tenth.
    expect(lengthAtMost(134.94, 'in')).toBe('5 5/16 in (134.9 mm)');
    expect(lengthAtMost(134.9, 'in')).toBe('5 1/4 in (133.4 mm)');
    expect(lengthAtMost(134.99, 'mm')).toBe('134.9 mm (5 5/16 in)');
    expect(sizeText(203.2, 114.3, 'in')).toBe('8 x 4 1/2 in (203.2 x 114.3 mm)');
  });
});

describe('a length that is the least that will do', () => {
  it('is enough when it is typed as it was told, and hardly more', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 900, noNaN: true }), (mm) => {
        for (const [text, step] of [
          [inches(mm, mm), 25.4 / 16],
          [millimetres(mm, mm), 0.1],
        ] as const) {
          const typed = parseLength(text, 'in');
          expect(typed).toBeGreaterThanOrEqual(mm - 1e-6);
          expect(typed).toBeLessThan(mm + step);
        }
        expect(lengthText(mm, 'in', mm)).toBe(`${inches(mm, mm)} (${millimetres(mm, mm)})`);
      }),
    );
  });
});

describe('a setup', () => {
  it('is the defaults where nothing is said', () => {
    expect(setupFrom({}, { rules })).toEqual(defaultSetup);
  });

  it('takes the file over the defaults and what was typed over the file', () => {
    const { json } = {
      json: {
        unit: 'mm',
        height: 200,
        throat: '18in',
        spi: 10,
        rules: { 'level-ends': { limits: { dropMm: 1 } } },
      },
    };
    expect(setupFrom({ spi: '12', width: '10in' }, file(json))).toEqual({
      ...defaultSetup,
      unit: 'mm',
      // The width typed settles the size, whatever the file says.
      heightMm: null,
      widthMm: 254,
      throatMm: 457.2,
      stitchesPerInch: 12,
      rules: { 'level-ends': { limits: { dropMm: 1 } } },
    });
  });

  it.each([
    [{ hieght: 3 }, /"hieght".*"height"/],
    [{ height: true }, /"height" takes a length/],
    [{ height: 0 }, /"height"/],
    [{ unit: 'inch' }, /"unit" takes one of "in", "mm".*"in"/],
    [{ height: 3, width: 4 }, /cannot be set together/],
    [{ layout: 'bricks' }, /"layout".*"brick"/],
    [{ spi: 'ten' }, /"spi" takes a number from 1 to 100/],
    [{ rules: { 'level-end': {} } }, /"level-end".*"level-ends"/],
    [{ rules: { 'level-ends': { severity: 'warn' } } }, /severity.*"warning"/],
    [{ rules: { 'level-ends': { limits: { drop: 1 } } } }, /drop.*"dropMm"/],
    [{ rules: { 'level-ends': { limits: { dropMm: -1 } } } }, /dropMm" takes a number from 0 up/],
    [{ rules: [] }, /"rules" has to be an object/],
    [{ limits: { point: 1 } }, /point.*"points"/],
    [[], /has to be an object/],
    [null, /has to be an object/],
  ])('answers %j with the nearest right one', (json, sentence) => {
    expect(() => setupFrom({}, file(json))).toThrow(sentence);
    expect(() => setupFrom({}, file(json))).toThrow(/^linewright\.json/);
  });

  it('names the option where it was typed', () => {
    expect(() => setupFrom({ height: 'tall' }, { rules })).toThrow(/^--height "tall" is not a length/);
    expect(() => setupFrom({ height: '3', width: '4' }, { rules })).toThrow(/^--height and --width/);
  });
});

describe('what may be meant', () => {
  it.each([
    ['unit', 'inch', 'in'],
    ['unit', 'Inches', 'in'],
    ['layout', 'mir', 'mirrored'],
    ['layout', 'tunred', 'turned'],
  ])('for --%s %s is %s', (option, typed, meant) => {
    expect(() => setupFrom({ [option]: typed }, { rules })).toThrow(
      new RegExp(` Did you mean "${meant}"\\?$`),
    );
  });

  it.each([
    ['unit', 'feet'],
    ['unit', 'cm'],
    ['unit', 'yd'],
    ['unit', ''],
    ['layout', 'herringbone'],
    ['take', 'everything'],
  ])('is not guessed for --%s %j, which is near to none', (option, typed) => {
    expect(() => setupFrom({ [option]: typed }, { rules })).toThrow(/ takes one of .*, not "[^"]*"\.$/);
  });
});

describe('places as people read them', () => {
  it.each([
    [25.4, 12.7, '1 in from the left, 1/2 in down'],
    [25.4, -28.575, '1 in from the left, 1 1/8 in above the motif'],
    [-6.35, 12.7, '1/4 in left of the motif, 1/2 in down'],
    [-0.004, -0.004, '0 in from the left, 0 in down'],
  ])('%d, %d', (x, y, told) => {
    expect(sayIn('in').place({ x, y })).toBe(told);
  });
});
