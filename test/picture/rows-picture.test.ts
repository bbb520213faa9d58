/** The rows picture, seen by other eyes: svg-pathdata reads its lines, resvg paints it. */
import { Resvg } from '@resvg/resvg-js';
import { SVGPathData } from 'svg-pathdata';
import { describe, expect, test } from 'vitest';
import { layouts } from '../../shared/layout.js';
import { sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import { studyOf } from '../../src/measure/index.js';
import { rowsLegend, rowsPicture, rowsToShow } from '../../src/picture/index.js';
import { motifOf } from '../../src/size/motif-of.js';

/** A level line that runs once around a ring: its inside is the inner circle, midway between rings is the seam one. */
const ring = 20;
const buoy = motifOf([
  Float64Array.from([
    ...[0, 2 * ring, 100, 2 * ring],
    ...Array.from({ length: 720 }, (_, i) => {
      const angle = (2 * Math.PI * (i + 1)) / 720;
      return [100 + ring * Math.sin(angle), ring + ring * Math.cos(angle)];
    }).flat(),
    ...[200, 2 * ring],
  ]),
]);
const study = studyOf(buoy, defaultSetup);

describe.each(layouts)('%s', (layout) => {
  const { even } = study.nesting(layout);
  const svg = rowsPicture(study, { layout, rows: even, tooNear: null, chosen: false }, { widthPx: 1000 });
  const lines = [...svg.matchAll(/<path d="([^"]+)"[^>]*stroke="#222222"/g)].map(([, d]) => d);

  test('shows three rows of three repeats', () => {
    expect(lines).toHaveLength(3);
    const repeatPx = 860 / (layout === 'straight' || layout === 'turned' ? 3 : 3.5);
    for (const d of lines) {
      const { minX, maxX } = new SVGPathData(d).toAbs().getBounds();
      expect(maxX - minX).toBeCloseTo(3 * repeatPx, -0.5);
      expect(d.match(/M/g)).toHaveLength(3);
    }
  });

  test('shows rows at their spacing, shifted or turned as the layout has it', () => {
    const boxes = lines.map((d) => new SVGPathData(d).toAbs().getBounds());
    const pxPerMm = (boxes[0].maxX - boxes[0].minX) / 600;
    expect(boxes[1].minY - boxes[0].minY).toBeCloseTo(even.spacingMm * pxPerMm, 0);
    expect(boxes[2].minY - boxes[0].minY).toBeCloseTo(2 * even.spacingMm * pxPerMm, 0);
    const shift = layout === 'brick' || layout === 'mirrored' ? 100 : 0;
    expect(boxes[1].minX - boxes[0].minX).toBeCloseTo(shift * pxPerMm, 0);
    expect(boxes[2].minX).toBeCloseTo(boxes[0].minX, 0);
  });

  test('draws both circles to scale, inside the picture, clear of the lines, told apart without colour', () => {
    const rings = [
      ...svg.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)" r="([\d.]+)" stroke-dasharray="([\d. ]+)"/g),
    ].map(([, cx, cy, r, dash]) => ({ cx: Number(cx), cy: Number(cy), r: Number(r), dash }));
    // Two in the rows, and their likes in the legend, no larger than letters.
    expect(rings).toHaveLength(4);
    const likes = rings.splice(2);
    expect(likes.map(({ dash }) => dash)).toEqual(rings.map(({ dash }) => dash));
    const [{ minX, maxX }] = lines.map((d) => new SVGPathData(d).toAbs().getBounds());
    const pxPerMm = (maxX - minX) / 600;
    expect(rings[0].r).toBeCloseTo((even.seam!.diameterMm / 2) * pxPerMm, 0);
    expect(rings[1].r).toBeCloseTo((even.inner!.diameterMm / 2) * pxPerMm, 0);
    expect(rings[0].dash).not.toBe(rings[1].dash);
    const bare = svg.replace(/<g fill="none"[\s\S]*?<\/g>/g, '').replace(/<circle[^>]*\/>/g, '');
    const { width, height, pixels } = new Resvg(bare).render();
    for (const { cx, cy, r } of rings) {
      expect(cx - r).toBeGreaterThan(0);
      expect(cx + r).toBeLessThan(width);
      expect(cy - r).toBeGreaterThan(0);
      expect(cy + r).toBeLessThan(height);
      for (let y = Math.ceil(cy - r); y < cy + r; y++)
        for (let x = Math.ceil(cx - r); x < cx + r; x++) {
          const depth = r - Math.hypot(x + 0.5 - cx, y + 0.5 - cy);
          if (depth > 3) expect(pixels[4 * (y * width + x)], `${x}, ${y}`).toBe(255);
        }
    }
  });

  test('says below the rows what the circles are, and hides no line with it', () => {
    const legend = svg.slice(svg.lastIndexOf(lines[2]) + lines[2].length).split('</g>');
    const words = legend.filter((mark) => mark.includes('scale('));
    // "largest open circle", "between rows", "within a row", and what the rows are: a letter each, spaces left out.
    const { spacingMm } = even;
    const caption = `${layout} rows, ${sayIn('in').spacing(spacingMm)} apart`.replaceAll(' ', '');
    expect(words.map((mark) => mark.match(/<path/g)!.length)).toEqual([17, 11, 10, caption.length]);
    const lowest = Math.max(...lines.map((d) => new SVGPathData(d).toAbs().getBounds().maxY));
    for (const mark of words) {
      const [, x, y] = /translate\(([\d.]+) ([\d.]+)\) scale/.exec(mark)!;
      expect(Number(x)).toBeGreaterThan(0);
      expect(Number(y)).toBeGreaterThan(lowest);
    }
    const { width, height, pixels } = new Resvg(svg).render();
    const isWhite = (x: number, y: number) => pixels[4 * (y * width + x)] === 255;
    for (let y = 0; y < height; y++) expect(isWhite(2, y) && isWhite(width - 3, y), `row ${y}`).toBe(true);
    for (let x = 0; x < width; x++) expect(isWhite(x, height - 2), `column ${x}`).toBe(true);
  });
});

test('a wave, which closes no pocket, gets no word of a circle that it has not', () => {
  const wave = studyOf(
    motifOf([Float64Array.from({ length: 402 }, (_, i) => (i % 2 ? 10 * Math.sin(i / 32) : i / 4))]),
    defaultSetup,
  );
  const { even } = wave.nesting('straight');
  expect(even.inner).toBeNull();
  expect(
    rowsPicture(
      wave,
      { layout: 'straight', rows: even, tooNear: null, chosen: false },
      { widthPx: 500 },
    ).match(/stroke-dasharray/g),
  ).toHaveLength(2);
  expect(rowsLegend({ rows: even, tooNear: null })).toBe(
    'Dashed, with an upright cross: the largest open circle between two rows.',
  );
});

test('shows the spacing that was asked for, and where rows come too near', () => {
  const asked = studyOf(buoy, { ...defaultSetup, layout: 'straight', spacingMm: 30 });
  const shown = rowsToShow(asked, 'brick');
  expect(shown).toMatchObject({ layout: 'straight', chosen: true, rows: { spacingMm: 30 } });
  // Rings 40 mm high every 30 mm: each crosses the next.
  expect(shown.tooNear).not.toBeNull();
  expect(rowsLegend(shown)).toContain('cross or come too near');
  const rings = (svg: string) => [...svg.matchAll(/<circle [^>]*r="[\d.]+"\/><path/g)].length;
  const [near, clear] = [30, 60].map((spacingMm) => {
    const each = studyOf(buoy, { ...defaultSetup, layout: 'straight', spacingMm });
    return rings(rowsPicture(each, rowsToShow(each, 'brick'), { widthPx: 1000 }));
  });
  // One on the picture, one in its legend.
  expect(near - clear).toBe(2);
});

test('shows the rows stored with the motif, and else the even ones of the layout that is recommended', () => {
  const stored = studyOf({ ...buoy, rows: { layout: 'turned', spacing: 55, clearance: 3 } }, defaultSetup);
  expect(rowsToShow(stored, 'brick')).toMatchObject({
    layout: 'turned',
    chosen: true,
    rows: { spacingMm: 55 },
  });
  expect(rowsToShow(study, 'brick')).toMatchObject({ layout: 'brick', chosen: false });
});
