/** The picture of a motif, seen by other eyes: resvg paints it, svg-pathdata measures its outlines. */
import { Resvg } from '@resvg/resvg-js';
import fc from 'fast-check';
import pngjs from 'pngjs';
import { SVGPathData } from 'svg-pathdata';
import { describe, expect, it } from 'vitest';
import type { Finding, Severity } from '../../shared/finding.js';
import type { Motif } from '../../shared/motif.js';
import type { Point } from '../../shared/plane.js';
import { motifPicture } from '../../src/picture/index.js';
import { motifOf } from '../../src/size/motif-of.js';
import { writePng } from '../../src/write/png.js';

/** M. Okabe and K. Ito, Color Universal Design (2008); black aside. */
const okabeIto = ['#E69F00', '#56B4E9', '#009E73', '#F0E442', '#0072B2', '#D55E00', '#CC79A7'];
const flagColours = ['#D55E00', '#E69F00', '#56B4E9'];

function finding(severity: Severity, places: readonly Point[]): Finding {
  return { rule: 'x', severity, message: '', places, measured: null, limit: null, unit: null, mend: null };
}

const wave = motifOf([Float64Array.from({ length: 402 }, (_, i) => (i % 2 ? 30 * Math.sin(i / 40) : i / 2))]);

/** The flags of a picture: outline and colour, in the order of their numbers. */
function flagsIn(svg: string) {
  return [...svg.matchAll(/<path d="([^"]+)" fill="(#\w+)"/g)]
    .filter(([, , fill]) => flagColours.includes(fill))
    .map(([, d, fill]) => ({ d, fill, ...new SVGPathData(d).toAbs().getBounds() }));
}

describe('the line', () => {
  it('is painted in proportion, in a dark neutral ink on white', () => {
    const crossed = motifOf([Float64Array.of(0, 0, 200, 100), Float64Array.of(0, 100, 200, 0)]);
    const { width, pixels } = new Resvg(motifPicture(crossed, { widthPx: 1000 })).render();
    const inked: Point[] = [];
    let coloured = 0;
    for (let i = 0; i < pixels.length; i += 4) {
      const [r, g, b] = pixels.subarray(i, i + 3);
      if (r !== g || g !== b) coloured++;
      if (r < 100) inked.push({ x: (i / 4) % width, y: Math.floor(i / 4 / width) });
    }
    expect(coloured).toBe(0);
    const span = (values: number[]) => Math.max(...values) - Math.min(...values);
    const pen = 3.3;
    const across = span(inked.map(({ x }) => x)) - pen;
    const down = span(inked.map(({ y }) => y)) - pen;
    expect(across / down).toBeCloseTo(2, 1);
  });

  it('reads when the motif is very tall, flat, or has no height or width at all', () => {
    const straight = (width: number, height: number) => motifOf([Float64Array.of(0, 0, width, height)]);
    for (const motif of [straight(5, 4000), straight(4000, 5), straight(300, 0), straight(0, 300)]) {
      const { width, height, pixels } = new Resvg(motifPicture(motif, { widthPx: 480 })).render();
      expect(width).toBe(480);
      expect(height).toBeGreaterThan(48);
      expect(height).toBeLessThanOrEqual(960);
      const inked = pixels.filter((value, i) => i % 4 === 0 && value < 100).length;
      expect(inked).toBeGreaterThan(400);
    }
  });

  it('has nothing in it that depends on the fonts of the machine', () => {
    const svg = motifPicture(wave, { widthPx: 480, findings: [finding('error', [{ x: 20, y: 20 }])] });
    expect(svg).not.toMatch(/<text|font/);
  });
});

describe('the start', () => {
  it('is a triangle that points along the line, whichever way it runs', () => {
    for (let degrees = 0; degrees < 360; degrees += 15) {
      const angle = (degrees * Math.PI) / 180;
      const motif = motifOf([Float64Array.of(0, 0, 100 * Math.cos(angle), 100 * Math.sin(angle))]);
      const points = /<polygon points="([^"]+)"/.exec(motifPicture(motif, { widthPx: 4000 }))?.[1] ?? '';
      const [tip, left, right] = points.split(' ').map((pair) => pair.split(',').map(Number));
      const towards = Math.atan2(tip[1] - (left[1] + right[1]) / 2, tip[0] - (left[0] + right[0]) / 2);
      expect(Math.cos(towards - angle)).toBeCloseTo(1, 4);
    }
  });

  it('is not marked on a motif in pieces, which has no one start', () => {
    const lower = wave.strokes[0].map((v, i) => (i % 2 === 0 ? v : v + 5));
    const pieces: Motif = { ...wave, strokes: [wave.strokes[0], lower] };
    expect(motifPicture(pieces, { widthPx: 480 })).not.toContain('<polygon');
  });

  it('is marked on pieces that meet, as on the one line they are', () => {
    const [line] = wave.strokes;
    const half = 2 * Math.floor(line.length / 4);
    const pieces: Motif = { ...wave, strokes: [line.slice(half - 2), line.slice(0, half)] };
    const mark = /<polygon[^>]*>/;
    const [alone] = mark.exec(motifPicture(wave, { widthPx: 480 }))!;
    expect(mark.exec(motifPicture(pieces, { widthPx: 480 }))?.[0]).toBe(alone);
  });
});

describe('flags', () => {
  const place = fc.record({
    x: fc.double({ min: 0, max: wave.widthMm, noNaN: true }),
    y: fc.double({ min: 0, max: wave.heightMm, noNaN: true }),
  });
  const someFindings = fc.array(
    fc
      .record({ severity: fc.constantFrom<Severity>('error', 'warning', 'info'), near: place })
      .map(({ severity, near }) =>
        finding(
          severity,
          Array.from({ length: 5 }, (_, i) => ({ x: near.x + 0.6 * i, y: near.y + 0.4 * (i % 3) })),
        ),
      ),
    { minLength: 1, maxLength: 4 },
  );

  it('stay on the paper and apart from one another, also in heaps', () => {
    fc.assert(
      fc.property(someFindings, (findings) => {
        const svg = motifPicture(wave, { widthPx: 480, findings });
        const height = Number(/height="([\d.]+)"/.exec(svg)?.[1]);
        const flags = flagsIn(svg);
        expect(flags).toHaveLength(5 * findings.length);
        flags.forEach((flag, i) => {
          expect(Math.min(flag.minX, flag.minY)).toBeGreaterThanOrEqual(-0.1);
          expect(flag.maxX).toBeLessThanOrEqual(480.1);
          expect(flag.maxY).toBeLessThanOrEqual(height + 0.1);
          for (const other of flags.slice(0, i)) {
            const apart =
              flag.minX >= other.maxX ||
              other.minX >= flag.maxX ||
              flag.minY >= other.maxY ||
              other.minY >= flag.maxY;
            expect(apart, `${flag.d} over ${other.d}`).toBe(true);
          }
        });
      }),
      { seed: 10, numRuns: 100 },
    );
  });

  it('and the places they mark are on the paper, also beside the motif', () => {
    const beside = fc.record({
      x: fc.double({ min: -300, max: 500, noNaN: true }),
      y: fc.double({ min: -200, max: 250, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(beside, { minLength: 1, maxLength: 5 }), (places) => {
        const svg = motifPicture(wave, { widthPx: 480, findings: [finding('error', places)] });
        const height = Number(/height="([\d.]+)"/.exec(svg)?.[1]);
        const dots = [...svg.matchAll(/<circle cx="([-\d.]+)" cy="([-\d.]+)" r="([\d.]+)"/g)];
        expect(dots).toHaveLength(places.length);
        for (const [cx, cy, r] of dots.map(([, ...numbers]) => numbers.map(Number))) {
          expect(Math.min(cx, cy)).toBeGreaterThan(r);
          expect(cx).toBeLessThan(480 - r);
          expect(cy).toBeLessThan(height - r);
        }
        for (const flag of flagsIn(svg)) {
          expect(Math.min(flag.minX, flag.minY)).toBeGreaterThanOrEqual(-0.1);
          expect(flag.maxX).toBeLessThanOrEqual(480.1);
          expect(flag.maxY).toBeLessThanOrEqual(height + 0.1);
        }
      }),
      { seed: 10, numRuns: 100 },
    );
  });

  it('do not shrink the motif to a speck for a place far away', () => {
    const far = finding('error', [{ x: 1e6, y: 10 }]);
    const svg = motifPicture(wave, { widthPx: 480, findings: [far] });
    const [, path] = /<path[^>]* d="(M[^"]+)"/.exec(svg) ?? [];
    const { minX, maxX } = new SVGPathData(path!).toAbs().getBounds();
    expect(maxX - minX).toBeGreaterThan(480 / 5);
  });

  it('tell severities apart by their outline as well as by colour', () => {
    const at = { x: 60, y: 30 };
    const outlines = (['error', 'warning', 'info'] as const).map((severity) => {
      const [flag] = flagsIn(motifPicture(wave, { widthPx: 480, findings: [finding(severity, [at])] }));
      return flag.d.replace(/[\d.\s-]+/g, '');
    });
    expect(new Set(outlines).size).toBe(3);
  });

  it('show ten different digits', () => {
    const places = Array.from({ length: 5 }, (_, i) => ({ x: 20 * i, y: 10 }));
    const svg = motifPicture(wave, {
      widthPx: 480,
      findings: [1, 2, 3, 4].map(() => finding('error', places)),
    });
    const glyphs = new Set(
      [...svg.matchAll(/<path transform="translate\([^"]*" d="([^"]+)"/g)].map(([, d]) => d),
    );
    expect(glyphs.size).toBe(10);
  });

  it('take their colours from the palette that everyone can tell apart (Okabe and Ito)', () => {
    const findings = (['error', 'warning', 'info'] as const).map((each) => finding(each, [{ x: 50, y: 20 }]));
    const used = motifPicture(wave, { widthPx: 480, findings }).match(/#[0-9A-Fa-f]{6}/g) ?? [];
    const neutral = /^#(..)\1\1$/;
    expect(used.filter((colour) => !neutral.test(colour) && !okabeIto.includes(colour))).toEqual([]);
  });
});

describe('the PNG', () => {
  it("has the very pixels of resvg's own PNG", async () => {
    const svg = motifPicture(wave, { widthPx: 480 });
    const ours = pngjs.PNG.sync.read(Buffer.from(await writePng(svg, 300)));
    const theirs = pngjs.PNG.sync.read(
      new Resvg(svg, { fitTo: { mode: 'width', value: 300 }, background: '#fff' }).render().asPng(),
    );
    expect([ours.width, ours.height]).toEqual([theirs.width, theirs.height]);
    expect(Buffer.compare(ours.data, theirs.data)).toBe(0);
  });
});
