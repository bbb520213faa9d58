/** Held against ajv, the reference for JSON Schema: the same verdict, in the same words, on our schemas and on values near them. */
import { Ajv, type ErrorObject } from 'ajv';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import librarySchema from '../../shared/library.schema.json' with { type: 'json' };
import motifSchema from '../../shared/motif.schema.json' with { type: 'json' };
import tagsSchema from '../../shared/tags.schema.json' with { type: 'json' };
import { flawsAgainst } from '../../src/json-schema.js';

const motif = {
  format: 'linewright-motif',
  version: 1,
  name: 'swell',
  unit: 'mm',
  size: [10, 5],
  repeat: [10, 0],
  flatten: 0.01,
  rows: { layout: 'brick', spacing: 4, clearance: 0 },
  source: { file: 'swell.svg', sha256: 'ab', statedSize: [10, 5] },
  credit: { title: 'Swell' },
  mended: [{ mend: 'join', addedMm: 0.3, movedMm: 0.15 }],
  strokes: [
    [
      [0, 0],
      [10, 5],
    ],
  ],
};

const entry = {
  source: 'a/swell.svg',
  sha256: 'ab',
  setup: 'cd',
  status: 'clean',
  motif: {
    name: 'swell',
    widthMm: 10,
    heightMm: 5,
    lengthMm: 20,
    assumedSize: false,
    stitches: 9,
    needleThreadM: 0.1,
    recommended: 'brick',
    rows: [{ layout: 'brick', closestMm: 3, evenMm: 4, openMm: 2, evenness: 1.5 }],
    findings: [
      { rule: 'near-gap', severity: 'error', message: 'x', measured: null, limit: 0.01, unit: 'mm' },
    ],
    mended: ['join'],
    files: [{ path: 'motifs/swell.svg', bytes: 12, sha256: '0'.repeat(64) }],
    shape: Array.from({ length: 33 }, (_, i) => i),
    same: [{ name: 'other', how: 'mirrored' }],
  },
};
const library = {
  format: 'linewright-library',
  version: 1,
  linewright: '1.0.0',
  unit: 'in',
  entries: [entry, { source: 'torn.svg', sha256: '', setup: '', status: 'unreadable', reason: 'torn' }],
};
const tags = { swell: { tags: ['baby'], note: 'ask' }, '~a/b': {} };

const cases = [
  ['motif file', motifSchema, motif],
  ['library index', librarySchema, library],
  ['tags', tagsSchema, tags],
] as const;

/** Another value in the place of one somewhere in the tree, or nothing in its place. */
function changed(value: unknown, steps: readonly number[], other: unknown): unknown {
  if (typeof value !== 'object' || value === null || steps.length === 0) return other;
  const keys = Object.keys(value);
  if (keys.length === 0) return other;
  const key = keys[steps[0] % keys.length];
  const copy = structuredClone(value) as Record<string, unknown>;
  const inner = changed(copy[key], steps.slice(1), other);
  if (inner === undefined && Array.isArray(copy)) copy.splice(Number(key), 1);
  else if (inner === undefined) delete copy[key];
  else copy[key] = inner;
  return copy;
}

const others = fc.oneof(
  fc.constantFrom(undefined, null, true, -1, 0, 1.5, 2, '', 'brick', 'clean', 'unreadable', 'mm', [], {}),
  fc.constant([[0, 0]]),
  fc.constant([1, 2, 3]),
  fc.string(),
);

/** What `anyOf`, `if` and `not` add to the first error of a branch is of no use to people. */
function firstOf(errors: readonly ErrorObject[] | null | undefined): string {
  const { instancePath, message } = errors![0];
  return `${instancePath.slice(1)} ${message}`;
}

describe.each(cases)('%s', (_, schema, value) => {
  const byAjv = new Ajv({ allowUnionTypes: true }).compile(schema);
  const flawOf = flawsAgainst(schema);

  it('passes what is right', () => {
    expect(byAjv(value)).toBe(true);
    expect(flawOf(value)).toBeNull();
  });

  it('gives the same verdict as ajv on what was changed somewhere', () => {
    let wrong = 0;
    fc.assert(
      fc.property(fc.array(fc.nat(40), { maxLength: 6 }), others, (steps, other) => {
        const odd = changed(value, steps, other);
        const isRight = byAjv(odd);
        if (!isRight) wrong++;
        expect(flawOf(odd) === null, JSON.stringify(byAjv.errors)).toBe(isRight);
      }),
      { numRuns: 2000 },
    );
    expect(wrong).toBeGreaterThan(200);
  });
});

it('names the same place in the same words as ajv', () => {
  const byAjv = new Ajv({ allowUnionTypes: true }).compile(motifSchema);
  const flawOf = flawsAgainst(motifSchema);
  for (const odd of [
    { ...motif, strokes: [[[0, 0]]] },
    { ...motif, strokes: [[[0, 0], [1]]] },
    { ...motif, strokes: [[[0, 0], 'x']] },
    { ...motif, strokes: 'no' },
    { ...motif, size: [1, 2, 3] },
    { ...motif, size: [-1, 2] },
    { ...motif, rows: { layout: 'brick', spacing: 0, clearance: 0 } },
    { ...motif, rows: { layout: 'brick', clearance: 0 } },
    { ...motif, source: { file: 1, sha256: '' } },
    [],
  ]) {
    expect(byAjv(odd)).toBe(false);
    const [where, ...words] = firstOf(byAjv.errors).split(' ');
    expect(flawOf(odd)).toBe(`${where === '' ? 'the file' : `"${where}"`} ${words.join(' ')}`);
  }
});

it('refuses a schema that asks what it does not know, at any depth', () => {
  expect(() => flawsAgainst({ type: 'string', maxLength: 3 })).toThrow('maxLength');
  expect(() => flawsAgainst({ properties: { a: { items: { format: 'date' } } } })).toThrow('format');
  expect(() => flawsAgainst({ additionalProperties: false })).toThrow('not known');
});
