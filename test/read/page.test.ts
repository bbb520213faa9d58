/**
 * Sizes. 1in = 2.54cm = 25.4mm = 96px = 72pt = 6pc = 101.6Q (CSS Values and Units Level 3, 6.2); a viewBox in its
 * viewport (SVG 1.1, 7.7 and 7.8).
 */
import { describe, expect, it } from 'vitest';
import { read } from './read.js';

const line = '<path stroke="#000" d="M0 0h100"/>';
const page = (attributes: string) =>
  read(`<svg xmlns="http://www.w3.org/2000/svg" ${attributes}>${line}</svg>`);

async function reach(attributes: string): Promise<number> {
  const { lines } = await page(attributes);
  return lines[0].coords[2];
}

describe('a page that states its size', () => {
  it.each([
    ['2in', 50.8],
    ['5.08cm', 50.8],
    ['50.8mm', 50.8],
    ['144pt', 50.8],
    ['12pc', 50.8],
    ['203.2Q', 50.8],
  ])('%s', async (width, mm) => {
    const artwork = await page(`width="${width}" height="${width}" viewBox="0 0 100 100"`);
    expect(artwork.lines[0].coords[2]).toBeCloseTo(mm, 9);
    expect(artwork.statedSizeMm?.[0]).toBeCloseTo(mm, 9);
    expect(artwork.assumedSize).toBe(false);
  });

  it('with one side stated keeps the proportion of the viewBox', async () => {
    const artwork = await page('height="30mm" viewBox="0 0 100 60"');
    expect(artwork.statedSizeMm).toEqual([50, 30]);
    expect(artwork.lines[0].coords[2]).toBeCloseTo(50, 9);
    expect(artwork.assumedSize).toBe(false);
  });

  it('without a viewBox draws at 96 to the inch', async () => {
    const artwork = await page('width="100mm" height="2in"');
    expect(artwork.lines[0].coords[2]).toBeCloseTo((100 * 25.4) / 96, 9);
    expect(artwork.statedSizeMm).toEqual([100, 50.8]);
  });
});

describe('a page that states no size', () => {
  it.each([
    ['a bare viewBox', 'viewBox="0 0 100 100"', (100 * 25.4) / 96],
    ['bare numbers', 'width="200" height="200" viewBox="0 0 100 100"', (200 * 25.4) / 96],
    ['px', 'width="200px" height="200px" viewBox="0 0 100 100"', (200 * 25.4) / 96],
    ['per cent', 'width="100%" height="100%" viewBox="0 0 100 100"', (100 * 25.4) / 96],
    ['em, sixteen to each', 'width="10em" height="10em" viewBox="0 0 100 100"', (160 * 25.4) / 96],
    ['nothing at all', '', (100 * 25.4) / 96],
    ['a size below nothing', 'width="-5mm" viewBox="0 0 100 100"', (100 * 25.4) / 96],
    ['no numbers', 'width="NaN" height="auto" viewBox="0 0 NaN 1e999"', (100 * 25.4) / 96],
  ])('%s', async (_, attributes, mm) => {
    const artwork = await page(attributes);
    expect(artwork.lines[0].coords[2]).toBeCloseTo(mm, 9);
    expect(artwork.assumedSize).toBe(true);
    expect(artwork.statedSizeMm).toBeNull();
  });
});

describe('a flat drawing', () => {
  it('is scaled by the side it has', async () => {
    expect(await reach('width="50mm" height="0" viewBox="0 0 100 0"')).toBeCloseTo(50, 9);
    expect(await reach('width="50mm" viewBox="0 0 0 0"')).toBeCloseTo((100 * 25.4) / 96, 9);
  });
});
