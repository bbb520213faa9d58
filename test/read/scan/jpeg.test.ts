/**
 * What a JPEG says of itself. Orientations as the Exif standard has them (CIPA DC-008, tag 274): at which side of the
 * picture as it is to be seen the first stored row lies, and the first stored column.
 */
import jpeg from 'jpeg-js';
import { describe, expect, test } from 'vitest';
import { readArtwork } from '../../../src/read/index.js';

type Side = 'top' | 'bottom' | 'left' | 'right';

const sides: Readonly<Record<number, readonly [row: Side, column: Side]>> = {
  1: ['top', 'left'],
  2: ['top', 'right'],
  3: ['bottom', 'right'],
  4: ['bottom', 'left'],
  5: ['left', 'top'],
  6: ['right', 'top'],
  7: ['right', 'bottom'],
  8: ['left', 'bottom'],
};

const [width, height] = [240, 160];
/** As it is to be seen: a line that runs across at the top and down at the left. */
const isInk = (x: number, y: number) =>
  (y >= 20 && y < 28 && x >= 30) || (x >= 30 && x < 38 && y >= 20 && y < 140);

function stored(orientation: number, exif: Uint8Array): Uint8Array {
  const [row, column] = sides[orientation];
  const isTurned = row === 'left' || row === 'right';
  const [wide, high] = isTurned ? [height, width] : [width, height];
  const data = Buffer.alloc(4 * wide * high, 255);
  const from = (side: Side, n: number) =>
    side === 'left' || side === 'top' ? n : side === 'right' ? width - 1 - n : height - 1 - n;
  for (let i = 0; i < high; i++)
    for (let k = 0; k < wide; k++) {
      const [x, y] = isTurned ? [from(row, i), from(column, k)] : [from(column, k), from(row, i)];
      if (isInk(x, y)) data.fill(0, 4 * (i * wide + k), 4 * (i * wide + k) + 3);
    }
  const plain = jpeg.encode({ data, width: wide, height: high }, 95).data;
  // JFIF's own segment, which states no density, is taken out; Exif comes in its place.
  const jfif = 4 + ((plain[4] << 8) | plain[5]);
  return Uint8Array.from([...plain.subarray(0, 2), ...exif, ...plain.subarray(jfif)]);
}

/** An APP1 segment: orientation (short), resolution across and down (ratios), its unit (short), in either byte order. */
function exifOf(
  orientation: number,
  [across, down]: readonly [number, number],
  unit: number,
  little: boolean,
): Uint8Array {
  const tiff = new Uint8Array(8 + 2 + 4 * 12 + 4 + 16);
  const view = new DataView(tiff.buffer);
  tiff.set(little ? [0x49, 0x49] : [0x4d, 0x4d]);
  view.setUint16(2, 42, little);
  view.setUint32(4, 8, little);
  view.setUint16(8, 4, little);
  const ratios = 8 + 2 + 4 * 12 + 4;
  const tags: readonly (readonly [tag: number, kind: number, value: number])[] = [
    [0x112, 3, orientation],
    [0x11a, 5, ratios],
    [0x11b, 5, ratios + 8],
    [0x128, 3, unit],
  ];
  tags.forEach(([tag, kind, value], i) => {
    view.setUint16(10 + 12 * i, tag, little);
    view.setUint16(12 + 12 * i, kind, little);
    view.setUint32(14 + 12 * i, 1, little);
    if (kind === 3) view.setUint16(18 + 12 * i, value, little);
    else view.setUint32(18 + 12 * i, value, little);
  });
  [across, down].forEach((value, i) => {
    view.setUint32(ratios + 8 * i, value * 10, little);
    view.setUint32(ratios + 8 * i + 4, 10, little);
  });
  const body = [...'Exif\0\0'].map((sign) => sign.charCodeAt(0));
  const length = 2 + body.length + tiff.length;
  return Uint8Array.from([0xff, 0xe1, length >> 8, length & 255, ...body, ...tiff]);
}

describe.each([1, 2, 3, 4, 5, 6, 7, 8])('orientation %i', (orientation) => {
  test.each([true, false])('is obeyed (little end first: %s)', async (little) => {
    const bytes = stored(orientation, exifOf(orientation, [200, 200], 2, little));
    const { lines, statedSizeMm } = await readArtwork(bytes, 'photograph.jpg');
    expect(statedSizeMm).toEqual([(width * 25.4) / 200, (height * 25.4) / 200]);
    expect(lines).toHaveLength(1);
    const { coords } = lines[0];
    // The corner lies at the upper left, whichever end the line begins at.
    const corner = [34, 24].map((px) => (px * 25.4) / 200);
    const off = Array.from({ length: coords.length / 2 }, (_, i) =>
      Math.hypot(coords[2 * i] - corner[0], coords[2 * i + 1] - corner[1]),
    );
    expect(Math.min(...off)).toBeLessThan(0.2);
    const ends = [coords[0], coords[1], ...coords.slice(-2)].map((mm) => (mm * 200) / 25.4);
    const [upper, lower] =
      ends[1] < ends[3] ? [ends.slice(0, 2), ends.slice(2)] : [ends.slice(2), ends.slice(0, 2)];
    expect(upper[0]).toBeGreaterThan(225);
    expect(lower[1]).toBeGreaterThan(125);
  });
});

test('a resolution by the centimetre, unequal across and down', async () => {
  const bytes = stored(1, exifOf(1, [60, 80], 3, true));
  const { statedSizeMm } = await readArtwork(bytes, 'scan.jpg');
  expect(statedSizeMm?.[0]).toBeCloseTo((width / 60) * 10, 6);
  expect(statedSizeMm?.[1]).toBeCloseTo((height / 80) * 10, 6);
});

test.each([72, 96])('%i dots to the inch in a photograph state nothing', async (dots) => {
  const { assumedSize, statedSizeMm } = await readArtwork(
    stored(1, exifOf(1, [dots, dots], 2, true)),
    'p.jpg',
  );
  expect([assumedSize, statedSizeMm]).toEqual([true, null]);
});
