/** The picture, pale and small, to lie under the line in pictures and sheets: a PNG of sixteen greys as a `data:` address. */

/** Its longer side has at most so many pixels. */
const longestPx = 1600;
/** How dark the darkest ink stays. */
const paleShare = 0.45;
const depth = 4;

export interface Pale {
  readonly href: string;
  /** As much of the picture as whole pixels of the small one show. */
  readonly widthPx: number;
  readonly heightPx: number;
}

/** `dark` is 0 for paper and 255 for black, row by row. */
export async function palePicture(dark: Uint8Array, width: number, height: number): Promise<Pale> {
  const by = Math.max(1, Math.ceil(Math.max(width, height) / longestPx));
  const [wide, high] = [Math.max(1, Math.floor(width / by)), Math.max(1, Math.floor(height / by))];
  const rowBytes = 1 + ((wide * depth + 7) >> 3);
  const rows = new Uint8Array(rowBytes * high);
  for (let y = 0; y < high; y++)
    for (let x = 0; x < wide; x++) {
      let sum = 0;
      for (let row = y * by; row < (y + 1) * by && row < height; row++)
        for (let i = row * width + x * by; i < row * width + Math.min((x + 1) * by, width); i++)
          sum += dark[i];
      const level = 15 - Math.round((paleShare * sum * 15) / (255 * by * by));
      rows[y * rowBytes + 1 + (x >> 1)] |= x & 1 ? level : level << 4;
    }
  const size = new Uint8Array(13);
  const view = new DataView(size.buffer);
  view.setUint32(0, wide);
  view.setUint32(4, high);
  size[8] = depth;
  const signature = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a);
  const parts = [
    signature,
    chunk('IHDR', size),
    chunk('IDAT', await deflated(rows)),
    chunk('IEND', new Uint8Array(0)),
  ];
  let text = '';
  for (const part of parts) for (const byte of part) text += String.fromCharCode(byte);
  return { href: `data:image/png;base64,${btoa(text)}`, widthPx: wide * by, heightPx: high * by };
}

async function deflated(bytes: Uint8Array): Promise<Uint8Array> {
  const stream = new Blob([bytes as BlobPart]).stream().pipeThrough(new CompressionStream('deflate'));
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  for (let next = await reader.read(); !next.done; next = await reader.read()) parts.push(next.value);
  const out = new Uint8Array(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    out.set(part, at);
    at += part.length;
  }
  return out;
}

function chunk(name: string, data: Uint8Array): Uint8Array {
  const out = new Uint8Array(12 + data.length);
  const view = new DataView(out.buffer);
  view.setUint32(0, data.length);
  for (let i = 0; i < 4; i++) out[4 + i] = name.charCodeAt(i);
  out.set(data, 8);
  view.setUint32(8 + data.length, checkSum(out.subarray(4, 8 + data.length)));
  return out;
}

/** CRC-32, as PNG's annex D has it. */
function checkSum(bytes: Uint8Array): number {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let bit = 0; bit < 8; bit++) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return ~sum >>> 0;
}
