/** DXF that is meant to hurt, or is none: one sentence, or what could be read. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { Refusal } from '../../../shared/refusal.js';
import { read, refusal } from '../read.js';
import { block, dxf, insert, line, tagged } from './text.js';

it('says in one sentence what cannot be read', async () => {
  expect(await refusal('AutoCAD Binary DXF\r\n\u001a\0\0\0SECTION')).toMatch(
    /^folder\/swell\.svg is a binary DXF drawing, not an SVG drawing, .*: save the drawing as ASCII DXF or SVG first\.$/,
  );
  expect(await refusal('AC1015\0\0\0\0')).toMatch(
    /is a DWG drawing, not .*: save the drawing as SVG first\.$/,
  );
  expect(await refusal(dxf(line(0, 0, 1, 1)).replace('20\n0\n', '20\n0\nadrift\n'))).toMatch(
    /^folder\/swell\.svg, line \d+: a DXF group code should stand here; the file is damaged\.$/,
  );
  expect(await refusal(dxf(line(0, 0, 1e12, 1)))).toMatch(/too large: it reaches beyond 1,000 km\.$/);
});

it('bounds copies, nesting and what is visited', async () => {
  const ten = Array.from({ length: 10 }, (_, i) =>
    block(`b${i}`, i === 0 ? line(0, 0, 1, 1) : insert(`b${i - 1}`).repeat(10)),
  ).join('');
  expect(await refusal(dxf(insert('b9'), { blocks: ten }))).toMatch(
    /more than 100,000 copies of blocks, the limit\.$/,
  );
  expect(await refusal(dxf(insert('b0', [70, 30000], [71, 30000]), { blocks: ten }))).toMatch(
    /100,000 copies/,
  );
  const empty = block('words', tagged([0, 'TEXT'], [8, '0']).repeat(1000));
  expect(await refusal(dxf(insert('words', [70, 90000]), { blocks: empty }))).toMatch(
    /entities, copies included/,
  );
  const deep = Array.from({ length: 1200 }, (_, i) => block(`d${i}`, insert(`d${i + 1}`))).join('');
  expect(await refusal(dxf(insert('d0'), { blocks: deep }))).toMatch(/nested more than 1,000 deep/);
  expect(await refusal(dxf(line(0, 0, 1, 1).repeat(20)), { limits: { elements: 10 } })).toMatch(
    /10 entities/,
  );
  expect(await refusal(dxf(line(0, 0, 1, 1).repeat(20)), { limits: { points: 10 } })).toMatch(/10 points/);
});

it('ends in artwork or a sentence, whatever numbers and groups come', async () => {
  const kinds = [
    'LINE',
    'ARC',
    'CIRCLE',
    'ELLIPSE',
    'SPLINE',
    'LWPOLYLINE',
    'POLYLINE',
    'VERTEX',
    'SEQEND',
    'INSERT',
  ];
  const value = fc.oneof(fc.double(), fc.constantFrom(0, 1, 2, 3, -1, 1e300, 1e-300, 0.5), fc.integer());
  const group = fc.tuple(
    fc.constantFrom(
      10,
      20,
      30,
      11,
      21,
      31,
      12,
      22,
      13,
      23,
      40,
      41,
      42,
      50,
      51,
      60,
      70,
      71,
      72,
      73,
      74,
      210,
      220,
      230,
    ),
    value,
  );
  const entity = fc.tuple(fc.constantFrom(...kinds), fc.array(group, { maxLength: 24 }));
  await fc.assert(
    fc.asyncProperty(fc.array(entity, { maxLength: 6 }), async (all) => {
      const text = dxf(all.map(([kind, groups]) => tagged([0, kind], [2, 'b'], ...groups)).join(''), {
        blocks: block('b', line(0, 0, 1, 1)),
      });
      try {
        const { lines } = await read(text);
        for (const { coords } of lines) expect(coords.every(Number.isFinite)).toBe(true);
      } catch (error) {
        expect(error).toBeInstanceOf(Refusal);
      }
    }),
    { seed: 14, numRuns: 400 },
  );
});
