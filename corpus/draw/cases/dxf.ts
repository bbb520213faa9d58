/** Cases of the rules about the file, in DXF: its units, hidden layers, what is no line, what is damaged. */
import { boxOf, type Drawing } from '../drawing.js';
import { type DxfOptions, dxfText, type Tag, tags } from '../dxf-text.js';
import { gullWing } from '../motifs/gull-wing.js';
import { kelp } from '../motifs/kelp.js';
import { ripples } from '../motifs/ripples.js';
import { swell } from '../motifs/swell.js';
import { type Case, type Expected, sketch } from './case.js';

const swellSketch = sketch('Swell', swell.stroke);
const kelpSketch = sketch('Kelp', kelp.stroke);
const ripplesSketch = sketch('Ripples', ripples.stroke);

const gullSketch = sketch('Gull Wing', gullWing.stroke);

/** What a drawing would measure if its millimetres were inches. */
function asInches({ strokes }: Drawing): string {
  const { minX, minY, maxX, maxY } = boxOf(strokes);
  return `(${Math.round(25.4 * (maxX - minX))} x ${Math.round(25.4 * (maxY - minY))} mm)`;
}

const line = (layer: string, x1: number, y1: number, x2: number, y2: number, ...more: readonly Tag[]) =>
  tags(
    [0, 'LINE'],
    [100, 'AcDbEntity'],
    [8, layer],
    [100, 'AcDbLine'],
    [10, x1],
    [20, y1],
    [11, x2],
    [21, y2],
    ...more,
  );
const label = tags(
  [0, 'TEXT'],
  [100, 'AcDbEntity'],
  [8, '0'],
  [100, 'AcDbText'],
  [10, 5],
  [20, 5],
  [40, 8],
  [1, 'Swell, 9 in'],
);

/** Four lines round the motif and as wide, from the top left; the lowest 2 mm below it, y being up from its foot. */
function boxLines({ strokes }: Drawing): string {
  const { minX, minY, maxX, maxY } = boxOf(strokes);
  const [w, h] = [maxX - minX, maxY - minY];
  return line('0', 0, h, w, h) + line('0', w, h, w, -2) + line('0', w, -2, 0, -2) + line('0', 0, -2, 0, h);
}

const cases: readonly [rule: string, name: string, text: string, expected?: Expected][] = [
  ['physical-size', 'pass-dxf-inches', dxfText(kelpSketch, { units: 1, perMm: 1 / 25.4 })],
  [
    'physical-size',
    'fail-dxf-without-units',
    dxfText(ripplesSketch, { units: null }),
    { placesMm: [], says: asInches(ripplesSketch) },
  ],
  [
    'physical-size',
    'fail-dxf-unitless',
    dxfText(gullSketch, { units: 0 }),
    { placesMm: [], says: asInches(gullSketch) },
  ],
  ['stray-artwork', 'pass-dxf', dxfText(swellSketch)],
  [
    'stray-artwork',
    'fail-dxf-repeat-box',
    dxfText(swellSketch, { after: boxLines(swellSketch) }),
    { placesMm: [[0, 0]], measured: 1, also: ['one-stroke'] },
  ],
  [
    'stray-artwork',
    'fail-dxf-bars-in-a-layer',
    // A bar stands 20 above the foot, y being up from there.
    dxfText(swellSketch, { layers: { Guides: [0, 3] }, after: line('Guides', 0, 20, 238, 20) }),
    {
      placesMm: [[0, boxOf(swellSketch.strokes).maxY - boxOf(swellSketch.strokes).minY - 20]],
      measured: 1,
      says: '1 straight line in the layer "guides" looks like a guide',
      also: ['one-stroke'],
    },
  ],
  ['stray-artwork', 'fail-dxf-text', dxfText(swellSketch, { after: label }), { placesMm: [], measured: 1 }],
  [
    'stray-artwork',
    'fail-dxf-block-gone',
    dxfText(kelpSketch, {
      after: tags([0, 'INSERT'], [100, 'AcDbEntity'], [8, '0'], [2, 'Buoy'], [10, 0], [20, 0]),
    }),
    { placesMm: [], measured: 1, says: "block 'Buoy'" },
  ],
  ['hidden-artwork', 'pass-dxf-locked-layer', dxfText(ripplesSketch, { layers: { 0: [4, 7] } })],
  hidden('frozen-layer', { layers: { guides: [1, 7] }, after: line('Guides', 0, 20, 238, 20) }),
  hidden('layer-off', { layers: { Guides: [0, -5] }, after: line('guides', 0, 20, 238, 20) }),
  hidden('invisible', { after: line('0', 0, 20, 238, 20, [60, 1]) }),
  ['broken-path', 'pass-dxf', dxfText(ripplesSketch)],
  [
    'broken-path',
    'fail-dxf-cut-short',
    dxfText(kelpSketch, { after: line('0', 0, 0, 9, 9), cut: 30 }),
    { placesMm: [], says: '1 line could not be read' },
  ],
  [
    'broken-path',
    'fail-dxf-count',
    dxfText(swellSketch, {
      after: tags([0, 'LWPOLYLINE'], [8, '0'], [90, 3], [70, 0], [10, 0], [20, 0], [10, 9], [20, 9]),
    }),
    { placesMm: [], says: '1 polyline could not be read' },
  ],
];

function hidden(how: string, options: DxfOptions): [string, string, string, Expected] {
  // The hidden line begins on the left, 20 above the bottom; y runs up in DXF.
  const { minY, maxY } = boxOf(swellSketch.strokes);
  const placesMm = [[0, maxY - minY - 20]] as const;
  return ['hidden-artwork', `fail-dxf-${how}`, dxfText(swellSketch, options), { placesMm, measured: 1 }];
}

export const dxfCases: readonly Case[] = cases.map(([rule, name, text, expected]) => ({
  rule,
  name,
  text,
  ending: '.dxf',
  expected,
}));
