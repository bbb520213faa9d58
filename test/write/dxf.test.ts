/**
 * DXF out, held against ezdxf (Debian's python3-ezdxf), a reader and auditor that nobody here made; and read back by
 * our own reader.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { defaultSetup } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';
import { toMotif } from '../../src/size/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { dxfOf, dxfText, writeDxf } from '../../src/write/dxf.js';

const forger = 'Kelp\r\n  0\r\nLINE\r\n — “§”\u001b[31m 🌊 \\U+0041 ';
const strokes = [Float64Array.of(3, 1, 10.1234, 5, 3, 1), Float64Array.of(0, 0, 250.5, -7.25)];

function audited(text: string) {
  const file = join(mkdtempSync(join(tmpdir(), 'linewright-')), 'out.dxf');
  writeFileSync(file, text);
  return JSON.parse(execFileSync('/usr/bin/python3', ['test/ezdxf/audit.py', file], { encoding: 'utf8' }));
}

it('passes the audit, states millimetres and draws the same lines, y up from the lower left corner', () => {
  const motif = motifOf(strokes, { name: 'kelp', credit: { title: forger } });
  const told = audited(writeDxf(motif));
  expect(told).toMatchObject({ version: 'AC1015', units: 4, errors: [], fixes: [] });
  expect(told.strokes.map(({ layer, kind }: { layer: string; kind: string }) => `${layer} ${kind}`)).toEqual([
    'stitch LWPOLYLINE',
    'stitch LWPOLYLINE',
  ]);
  motif.strokes.forEach((stroke, s) => {
    const points: number[][] = told.strokes[s].points;
    expect(points).toHaveLength(stroke.length / 2);
    points.forEach(([x, y], i) => {
      expect(x).toBeCloseTo(stroke[2 * i], 2.9);
      expect(y).toBeCloseTo(motif.heightMm - stroke[2 * i + 1], 2.9);
    });
  });
});

it('takes layers and an origin, for a plan in the coordinates of the top', () => {
  const told = audited(
    dxfOf({
      layers: [
        { name: 'stitch', strokes: [strokes[0]] },
        { name: 'link', strokes: [strokes[1]] },
      ],
      origin: { x: -100, y: 2000 },
      comments: {},
    }),
  );
  expect(told).toMatchObject({ errors: [], fixes: [] });
  expect(told.strokes[0]).toMatchObject({
    layer: 'stitch',
    points: [
      [103, 1999],
      [110.123, 1995],
      [103, 1999],
    ],
  });
  expect(told.strokes[1]).toMatchObject({
    layer: 'link',
    points: [
      [100, 2000],
      [350.5, 2007.25],
    ],
  });
});

it('is read back: the same lines to 0.001 mm, every credit to the letter', async () => {
  const credit = {
    title: forger,
    creator: 'Maren \u00d8stby \\',
    rights: ` ${'long words, '.repeat(40)} `,
    description: 'linewright title: no',
  };
  const motif = motifOf(strokes, { name: 'kelp', credit });
  const artwork = await readArtwork(new TextEncoder().encode(writeDxf(motif)), 'kelp.dxf', defaultSetup);
  expect(artwork).toMatchObject({ credit, assumedSize: false, notes: [], name: 'kelp' });
  const again = toMotif(artwork, defaultSetup);
  again.strokes.forEach((stroke, s) => {
    expect(stroke).toHaveLength(motif.strokes[s].length);
    expect(Math.max(...stroke.map((value, i) => Math.abs(value - motif.strokes[s][i])))).toBeLessThan(0.001);
  });
});

it('writes all text as one line of printable ASCII', () => {
  expect(dxfText(forger)).toMatch(/^[ -~]*$/);
  expect(dxfText('Dune')).toBe('Dune');
  expect(dxfText('Düne\n')).toBe('D\\U+00FCne\\U+000A');
  for (const line of writeDxf(motifOf(strokes, { name: 'x', credit: { title: forger.repeat(50) } })).split(
    '\r\n',
  ))
    expect(line.length).toBeLessThanOrEqual(255);
});
