/**
 * JPEG to brightness, by `jpeg-js`; its resolution from JFIF or Exif, turned upright as Exif says (CIPA DC-008).
 *
 * Limit: plain JavaScript takes half a second a megapixel, so that larger pictures than 30 megapixels are refused.
 */
import { grouped } from '../../../shared/grouped.js';
import { Refusal } from '../../../shared/refusal.js';
import { greyOf, type Picture, statedDpi } from './picture.js';

const mostJpegPixels = 30_000_000;
/** What the decoder may take, megabytes. */
const mostMemoryMb = 1000;

export async function readJpeg(bytes: Uint8Array, file: string): Promise<Picture> {
  const broken = () =>
    new Refusal(`${file} is a JPEG picture that breaks off or is damaged: save or scan it again.`);
  const { size, dpi, orientation } = headOf(bytes);
  if (!size || size[0] === 0 || size[1] === 0) throw broken();
  if (size[0] * size[1] > mostJpegPixels)
    throw new Refusal(
      `${file} has ${grouped(size[0])} x ${grouped(size[1])} pixels; of a JPEG more than ${grouped(mostJpegPixels)} are not read: save it smaller, or as PNG.`,
    );
  const { default: jpeg } = await import('jpeg-js');
  let pixels: { width: number; height: number; data: Uint8Array };
  try {
    pixels = jpeg.decode(bytes, {
      useTArray: true,
      formatAsRGBA: false,
      tolerantDecoding: false,
      maxResolutionInMP: mostJpegPixels / 1e6,
      maxMemoryUsageInMB: mostMemoryMb,
    });
  } catch {
    throw broken();
  }
  const { width, height, data } = pixels;
  const grey = new Uint8Array(width * height);
  for (let i = 0; i < grey.length; i++) grey[i] = greyOf(data[3 * i], data[3 * i + 1], data[3 * i + 2], 255);
  return upright({ width, height, grey, dpi }, orientation);
}

interface Head {
  readonly size: readonly [number, number] | null;
  readonly dpi: Picture['dpi'];
  readonly orientation: number;
}

function headOf(bytes: Uint8Array): Head {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  let size: Head['size'] = null;
  let dpi: Picture['dpi'] = null;
  let exif: Exif | null = null;
  for (let at = 2; at + 9 < bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1];
    if (marker === 0xff) {
      at++;
      continue;
    }
    if (marker === 0xda) break;
    const length = view.getUint16(at + 2);
    const text = String.fromCharCode(...bytes.subarray(at + 4, at + 8));
    // Start of frame: C0 to CF but for tables (C4), extensions (C8) and arithmetic conditioning (CC).
    if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker))
      size = [view.getUint16(at + 7), view.getUint16(at + 5)];
    else if (marker === 0xe0 && text === 'JFIF' && length >= 14 && at + 16 <= bytes.length) {
      const times = [0, 1, 2.54][bytes[at + 11]] ?? 0;
      dpi = statedDpi(view.getUint16(at + 12) * times, view.getUint16(at + 14) * times);
    } else if (marker === 0xe1 && text === 'Exif') exif = exifOf(bytes.subarray(at + 10, at + 2 + length));
    at += 2 + length;
  }
  return { size, dpi: dpi ?? exif?.dpi ?? null, orientation: exif?.orientation ?? 1 };
}

interface Exif {
  readonly orientation: number;
  readonly dpi: Picture['dpi'];
}

/** Tags of the first directory; anything out of place counts as not there. */
function exifOf(tiff: Uint8Array): Exif | null {
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength);
  try {
    const little = view.getUint16(0) === 0x4949;
    const first = view.getUint32(4, little);
    const tags = new Map<number, number>();
    for (let i = 0; i < view.getUint16(first, little); i++) {
      const at = first + 2 + 12 * i;
      const kind = view.getUint16(at + 2, little);
      const value = kind === 3 ? view.getUint16(at + 8, little) : view.getUint32(at + 8, little);
      const isRatio = kind === 5;
      tags.set(
        view.getUint16(at, little),
        isRatio ? view.getUint32(value, little) / view.getUint32(value + 4, little) : value,
      );
    }
    const times = [1, 1, 1, 2.54][tags.get(0x128) ?? 2] ?? 1;
    const [across, down] = [tags.get(0x11a) ?? 0, tags.get(0x11b) ?? 0];
    return { orientation: tags.get(0x112) ?? 1, dpi: statedDpi(across * times, down * times) };
  } catch {
    return null;
  }
}

/** Turned and mirrored as the eight orientations of Exif say. */
function upright(picture: Picture, orientation: number): Picture {
  if (!(orientation >= 2 && orientation <= 8)) return picture;
  const { width, height, grey, dpi } = picture;
  const isTurned = orientation >= 5;
  const [w, h] = isTurned ? [height, width] : [width, height];
  const out = new Uint8Array(grey.length);
  // The corner of the stored picture at which reading starts, and whether rows become columns.
  const fromRight = [2, 3, 7, 8].includes(orientation);
  const fromBottom = [3, 4, 6, 7].includes(orientation);
  for (let y = 0; y < h; y++)
    for (let x = 0; x < w; x++) {
      const [i, k] = isTurned ? [y, x] : [x, y];
      out[y * w + x] = grey[(fromBottom ? height - 1 - k : k) * width + (fromRight ? width - 1 - i : i)];
    }
  return { width: w, height: h, grey: out, dpi: dpi && isTurned ? [dpi[1], dpi[0]] : dpi };
}
