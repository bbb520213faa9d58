/** What is written reads back as the same motif. */
import { Ajv } from 'ajv';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Motif } from '../../shared/motif.js';
import schema from '../../shared/motif.schema.json' with { type: 'json' };
import { defaultLimits, defaultSetup } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { writeCsv, writeMotif, writeSvg } from '../../src/write/index.js';

async function readBack(text: string, file: string): Promise<Motif> {
  const artwork = await readArtwork(new TextEncoder().encode(text), file, {
    take: 'auto',
    limits: defaultLimits,
  });
  return toMotif(artwork, defaultSetup);
}

// JSON knows no minus zero.
const coordinate = fc.double({ min: -500, max: 500, noNaN: true }).map((value) => value || 0);
const stroke = fc
  .array(coordinate, { minLength: 4, maxLength: 60 })
  .map((values) => Float64Array.from(values.slice(0, values.length & ~1)))
  // A stroke that stays within a micron is a dot to any reader.
  .filter((line) => Math.max(...line.map((value, i) => Math.abs(value - line[i % 2]))) > 0.01);
const word = fc.string({ unit: 'binary', minLength: 1, maxLength: 30 });
const credit = fc.record(
  { title: word, creator: word, rights: word, description: word },
  { requiredKeys: [] },
);
const mended = fc.array(
  fc.record({ mend: fc.constantFrom('join', 'thin'), addedMm: coordinate, movedMm: coordinate }),
  { maxLength: 3 },
);
const anyMotif = fc
  .record({ strokes: fc.array(stroke, { minLength: 1, maxLength: 4 }), credit, mended })
  .map(({ strokes, ...rest }) => motifOf(strokes, { name: 'any', ...rest }));

describe('the motif file', () => {
  it('reads back as it was, to 0.001 mm, and written again is the same text', async () => {
    await fc.assert(
      fc.asyncProperty(anyMotif, async (motif) => {
        const text = writeMotif(motif);
        const again = await readBack(text, 'any.motif.json');
        expectSameStrokes(again, motif);
        expect(again.mended).toEqual(motif.mended);
        expect(again.credit).toEqual(motif.credit);
        expect(writeMotif(again)).toBe(text);
      }),
      { seed: 21, numRuns: 200 },
    );
  });

  it('holds to its schema', () => {
    const isMotifFile = new Ajv().compile(schema);
    fc.assert(
      fc.property(anyMotif, (motif) => {
        expect(isMotifFile(JSON.parse(writeMotif(motif))), JSON.stringify(isMotifFile.errors)).toBe(true);
      }),
      { seed: 22, numRuns: 50 },
    );
  });

  it('carries rows, source, history and keys it does not know', async () => {
    const motif = motifOf([Float64Array.of(0, 0, 100, 20, 200, 0)], {
      name: 'swell',
      rows: { layout: 'brick', spacing: 133.35, clearance: 3 },
      source: { file: 'swell.svg', sha256: 'ab', statedSize: [200, 20] },
      mended: [{ mend: 'join', addedMm: 0.2, movedMm: 0.1 }],
      unknown: { studio: { shelf: 4 } },
    });
    const {
      rows,
      source,
      mended: history,
      unknown,
      name,
    } = await readBack(writeMotif(motif), 'x.motif.json');
    expect({ rows, source, mended: history, unknown, name }).toEqual({
      rows: motif.rows,
      source: motif.source,
      mended: motif.mended,
      unknown: motif.unknown,
      name: 'swell',
    });
  });

  it('keeps keys that it does not know inside rows as well, at any size', async () => {
    const rows = { layout: 'brick' as const, spacing: 50, clearance: 3, chosenBy: 'Maren' };
    const text = writeMotif(motifOf([Float64Array.of(0, 0, 100, 20, 200, 0)], { rows }));
    expect(JSON.parse(writeMotif(await readBack(text, 'x.motif.json'))).rows).toEqual(rows);
  });

  const line = '"strokes": [[[0, 0], [100, 0]]]';
  const head = '"format": "linewright-motif", "version": 1, "unit": "mm"';
  it.each([
    [
      'a newer version, by name',
      `{"format": "linewright-motif", "version": 7, "unit": "mm", ${line}}`,
      /version 7/,
    ],
    ['another unit', `{"format": "linewright-motif", "version": 1, "unit": "in", ${line}}`, /unit/],
    ['another format', `{"format": "x", "version": 1, "unit": "mm", ${line}}`, /format/],
    ['a stroke of one point', `{${head}, "strokes": [[[0, 0]]]}`, /strokes\/0/],
    ['a coordinate that is no number', `{${head}, "strokes": [[[0, 0], [1, "2"]]]}`, /strokes\/0\/1\/1/],
    ['a size that contradicts the strokes', `{${head}, "size": [90, 0], ${line}}`, /size.*100/],
    ['a repeat that contradicts them', `{${head}, "repeat": [90, 0], ${line}}`, /repeat/],
    ['no strokes at all', `{${head}, "strokes": []}`, /nothing to stitch/i],
    ['a text cut short', `{${head}, "strokes": [[[0, 0]`, /JSON/],
  ])('refuses %s', async (_, text, sentence) => {
    await expect(readBack(text, 'bad.motif.json')).rejects.toThrow(sentence);
    await expect(readBack(text, 'bad.motif.json')).rejects.toMatchObject({ name: 'Refusal' });
  });
});

describe('the SVG', () => {
  it('reads back as it was, to 0.001 mm, with its credits', async () => {
    // White space at the ends, and control characters, are no part of a title to any XML reader.
    const plainWord = fc
      .stringMatching(/^[ -~]{1,30}$/)
      .filter((text) => text.trim() === text && !/ {2}/.test(text));
    const plainCredit = fc.record({ title: plainWord, creator: plainWord, rights: plainWord });
    await fc.assert(
      fc.asyncProperty(anyMotif, plainCredit, async (motif, own) => {
        const again = await readBack(writeSvg({ ...motif, credit: own }), 'any.svg');
        expectSameStrokes(again, motif);
        expect(again.credit).toMatchObject(own);
        expect(again.assumedSize).toBe(false);
      }),
      {
        seed: 23,
        numRuns: 200,
        examples: [
          [motifOf([Float64Array.of(0, 0, 9, 9)]), { title: ']]>]]>', creator: '<&">', rights: "'" }],
        ],
      },
    );
  });
});

describe('the table of points', () => {
  it('has a line a point, in stitching order, with its unit in the heading', () => {
    const motif = motifOf([Float64Array.of(0, 0, 10, 5.12345), Float64Array.of(10, 5, 20, 0, 30, 0)]);
    expect(writeCsv(motif)).toBe(
      ['stroke,point,x_mm,y_mm', '1,1,0,0', '1,2,10,5.123', '2,1,10,5', '2,2,20,0', '2,3,30,0', ''].join(
        '\r\n',
      ),
    );
  });
});

function expectSameStrokes(again: Motif, motif: Motif): void {
  expect(again.strokes.length).toBe(motif.strokes.length);
  again.strokes.forEach((line, s) => {
    expect(line.length).toBe(motif.strokes[s].length);
    // Half a thousandth from rounding, and as much again where rounding moved the corner of the box.
    const off = line.map((value, i) => Math.abs(value - motif.strokes[s][i]));
    expect(Math.max(...off)).toBeLessThanOrEqual(0.001 + 1e-9);
  });
}
