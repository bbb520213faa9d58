/** Bytes to text, as XML 1.0 tells the encoding: a mark first, then the declaration, else UTF-8 (appendix F). */
import { Refusal } from '../../../shared/refusal.js';

const utf8 = new TextDecoder('utf-8', { fatal: true });

/** Encoding told by a mark or by how the first `<` is laid out, or null where neither tells. */
function fromFirstBytes([a, b, c]: Uint8Array): string | null {
  if (a === 0xef && b === 0xbb && c === 0xbf) return 'utf-8';
  if ((a === 0xff && b === 0xfe) || (a === 0x3c && b === 0)) return 'utf-16le';
  if ((a === 0xfe && b === 0xff) || (a === 0 && b === 0x3c)) return 'utf-16be';
  return null;
}

function declared(bytes: Uint8Array): string | null {
  // Only `<?xml` at the very start is a declaration.
  if (bytes[1] !== 0x3f) return null;
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 200));
  return /^<\?xml[^>]*?\sencoding\s*=\s*["']([^"']*)["']/.exec(head)?.[1] ?? null;
}

/** Throws a Refusal for an encoding nobody knows and for bytes that are not text in the encoding they claim. */
export function decode(bytes: Uint8Array, file: string): string {
  // A declaration that was legible byte by byte cannot be UTF-16, whatever it says.
  const label = (fromFirstBytes(bytes) ?? declared(bytes) ?? 'utf-8').replace(/^(utf-16|ucs-2)$/i, 'utf-8');
  let decoder = utf8;
  try {
    if (label !== 'utf-8') decoder = new TextDecoder(label, { fatal: true });
  } catch {
    throw new Refusal(`${file}, line 1: the encoding "${label}" is not known: save the file as UTF-8.`);
  }
  try {
    return decoder.decode(bytes);
  } catch {
    const readable = new TextDecoder(label).decode(bytes);
    const line = readable.slice(0, readable.indexOf('\ufffd')).split('\n').length;
    throw new Refusal(`${file}, line ${line}: not all of the text is ${decoder.encoding}: save it as UTF-8.`);
  }
}
