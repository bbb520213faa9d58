/** What a file is, told from its first bytes, and named in plain words where it is nothing we can read. */
import { Refusal } from '../../../shared/refusal.js';

const headBytes = 512;

/** The first characters of the file as text, whatever its encoding; a mark and leading spaces are left out. */
function headOf(bytes: Uint8Array): string {
  const head = bytes.subarray(0, headBytes);
  const wide =
    head[0] === 0xff || head[1] === 0 ? 'utf-16le' : head[0] === 0xfe || head[0] === 0 ? 'utf-16be' : null;
  return new TextDecoder(wide ?? 'latin1')
    .decode(head)
    .replace(/^\u00ef\u00bb\u00bf/, '')
    .trimStart();
}

/** Whether the first character is `<`, in any encoding of XML; a mark and spaces may stand before it. */
export function startsWithTag(bytes: Uint8Array): boolean {
  return (
    bytes.find(
      (byte) => !(byte <= 0x20 || byte === 0xef || byte === 0xbb || byte === 0xbf || byte >= 0xfe),
    ) === 0x3c
  );
}

/** Such as a sheet or the page of a library. */
export function isWebPage(bytes: Uint8Array): boolean {
  return /^<(?:!doctype html|html)\b/i.test(headOf(bytes));
}

/** First bytes, as Latin-1 text. */
const kinds: readonly (readonly [start: string, name: string])[] = [
  ['GIF8', 'a GIF picture'],
  ['RIFF', 'a picture, sound or film'],
  ['BM', 'a BMP picture'],
  ['AutoCAD Binary DXF', 'a binary DXF drawing'],
  ['AC10', 'a DWG drawing'],
  ['II*\0', 'a TIFF picture'],
  ['MM\0*', 'a TIFF picture'],
  ['%PDF', 'a PDF document'],
  ['%!PS', 'a PostScript drawing'],
  ['\u00c5\u00d0\u00d3\u00c6', 'a PostScript drawing'],
  ['PK\u0003\u0004', 'a ZIP archive'],
  ['PK\u0005\u0006', 'a ZIP archive'],
  ['\u001f\u008b', 'a compressed file'],
];

/** The Refusal for a file that no importer knows; `read` names what could be read: "an SVG drawing". */
export function unknownKind(bytes: Uint8Array, file: string, read: readonly string[]): Refusal {
  if (bytes.length === 0) return new Refusal(`${file} is empty: there is nothing in it to read.`);
  const raw = new TextDecoder('latin1').decode(bytes.subarray(0, headBytes));
  if (headOf(bytes) === '')
    return new Refusal(`${file} holds only blank space: there is nothing in it to read.`);
  const name = isWebPage(bytes) ? 'a web page' : kinds.find(([start]) => raw.startsWith(start))?.[1];
  const what = name ?? (raw.includes('\0') ? 'a file of unknown kind' : 'a text file');
  const others = `${read.slice(0, -1).join(', ')} or ${read.at(-1)}`;
  const instead = name?.endsWith('DXF drawing') ? 'ASCII DXF or SVG' : 'SVG';
  return new Refusal(`${file} is ${what}, not ${others}: save the drawing as ${instead} first.`);
}
