/** Pictures in every form that PNG has, packed here as the standard says: read to the brightness that went in, or refused in a sentence. */
import { deflateSync } from 'node:zlib';
import pngjs from 'pngjs';
import { expect, test } from 'vitest';
import { Refusal } from '../../../shared/refusal.js';
import { readArtwork } from '../../../src/read/index.js';
import { readPng } from '../../../src/read/scan/png.js';

function chunk(name: string, data: Uint8Array): Uint8Array {
  const out = new Uint8Array(12 + data.length);
  new DataView(out.buffer).setUint32(0, data.length);
  out.set(Buffer.from(name, 'latin1'), 4);
  out.set(data, 8);
  return out;
}

interface Form {
  readonly size: readonly [number, number];
  readonly depth: number;
  readonly colour: number;
  readonly interlace?: number;
  readonly extra?: readonly Uint8Array[];
}

function png({ size, depth, colour, interlace = 0, extra = [] }: Form, raw: Uint8Array): Uint8Array {
  const head = new Uint8Array(13);
  new DataView(head.buffer).setUint32(0, size[0]);
  new DataView(head.buffer).setUint32(4, size[1]);
  head.set([depth, colour, 0, 0, interlace], 8);
  const mark = Uint8Array.of(137, 80, 78, 71, 13, 10, 26, 10);
  return Buffer.concat([
    mark,
    chunk('IHDR', head),
    ...extra,
    chunk('IDAT', deflateSync(raw)),
    chunk('IEND', new Uint8Array()),
  ]);
}

test.each([
  ['grey, 1 bit', { depth: 1, colour: 0 }, [0, 0b01000000], [0, 255]],
  ['grey, 2 bits', { depth: 2, colour: 0 }, [0, 0b01100000], [85, 170]],
  ['grey, 16 bits', { depth: 16, colour: 0 }, [0, 10, 99, 200, 99], [10, 200]],
  ['grey, the difference to the left', { depth: 8, colour: 0 }, [1, 10, 20], [10, 30]],
  // 0.299 red + 0.587 green + 0.114 blue (BT.601).
  ['colour', { depth: 8, colour: 2 }, [0, 255, 0, 0, 0, 255, 0], [76, 150]],
  ['grey and alpha: clear is white', { depth: 8, colour: 4 }, [0, 0, 0, 0, 255], [255, 0]],
  ['colour and alpha, half over white', { depth: 8, colour: 6 }, [0, 0, 0, 0, 51, 9, 9, 9, 255], [204, 9]],
  [
    'palette, with a clear colour',
    {
      depth: 4,
      colour: 3,
      extra: [chunk('PLTE', Uint8Array.of(50, 50, 50, 0, 0, 0)), chunk('tRNS', Uint8Array.of(255, 0))],
    },
    [0, 0b00000001],
    [50, 255],
  ],
] as const)('%s', async (_name, form, raw, grey) => {
  const picture = await readPng(png({ size: [2, 1], ...form }, Uint8Array.from(raw)), 'a.png');
  expect([...picture.grey]).toEqual(grey);
});

test('interlaced, by the reading of pngjs', async () => {
  // Adam7 of a 5 x 5 picture: passes of 1 x 1, 1 x 1, 2 x 1, 1 x 2, 3 x 1, 2 x 3 and 5 x 2 pixels.
  const widths = [1, 1, 2, 1, 1, 3, 2, 2, 2, 5, 5];
  let level = 0;
  const raw = Uint8Array.from(
    widths.flatMap((width) => [0, ...Array.from({ length: width }, () => (level += 10))]),
  );
  const bytes = png({ size: [5, 5], depth: 8, colour: 0, interlace: 1 }, raw);
  const theirs = pngjs.PNG.sync.read(Buffer.from(withSums(bytes))).data;
  const { grey } = await readPng(bytes, 'a.png');
  expect([...grey]).toEqual(Array.from({ length: 25 }, (_, i) => theirs[4 * i]));
});

/** The check sums that pngjs asks for: CRC-32 of name and data (annex D of the standard). */
function withSums(bytes: Uint8Array): Uint8Array {
  const out = bytes.slice();
  const view = new DataView(out.buffer, out.byteOffset);
  for (let at = 8; at < out.length; ) {
    const length = view.getUint32(at);
    let sum = 0xffffffff;
    for (const byte of out.subarray(at + 4, at + 8 + length)) {
      sum ^= byte;
      for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
    }
    view.setUint32(at + 8 + length, ~sum >>> 0);
    at += 12 + length;
  }
  return out;
}

test('resolution in metres is read, also unequal; 96 to the inch states nothing', async () => {
  const dots = (across: number, down: number) => {
    const data = new Uint8Array(9);
    new DataView(data.buffer).setUint32(0, across);
    new DataView(data.buffer).setUint32(4, down);
    data[8] = 1;
    return png({ size: [1, 1], depth: 8, colour: 0, extra: [chunk('pHYs', data)] }, Uint8Array.of(0, 0));
  };
  const [across, down] = (await readPng(dots(11811, 7874), 'a.png')).dpi ?? [];
  expect(across).toBeCloseTo(300, 1);
  expect(down).toBeCloseTo(200, 1);
  expect((await readPng(dots(3780, 3780), 'a.png')).dpi).toBeNull();
});

const grey8 = { depth: 8, colour: 0 } as const;
test.each([
  [
    'more pixels than are read',
    png({ size: [100_000, 100_000], ...grey8 }, new Uint8Array(9)),
    /100,000 x 100,000 pixels/,
  ],
  [
    'fewer rows than stated',
    png({ size: [99, 99], ...grey8 }, new Uint8Array(500)),
    /breaks off or is damaged/,
  ],
  [
    'broken off',
    png({ size: [99, 99], ...grey8 }, new Uint8Array(9900)).subarray(0, 50),
    /breaks off or is damaged/,
  ],
  ['a depth that is none', png({ size: [9, 9], depth: 3, colour: 0 }, new Uint8Array(99)), /damaged/],
  ['no palette', png({ size: [9, 9], depth: 8, colour: 3 }, new Uint8Array(90)), /damaged/],
  ['a thousand times too much', png({ size: [10, 10], ...grey8 }, new Uint8Array(30_000_000)), /no drawing/],
  ['all black', png({ size: [200, 200], ...grey8 }, new Uint8Array(40_200)), /no drawing/],
  ['a JPEG that is only its first bytes', Uint8Array.of(255, 216, 255), /JPEG picture that breaks off/],
])('%s', async (_name, bytes, said) => {
  const error = await readArtwork(bytes, 'a.png').catch((caught: unknown) => caught);
  expect(error).toBeInstanceOf(Refusal);
  expect((error as Refusal).message).toMatch(said);
});
