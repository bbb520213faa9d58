/** The DXF importer; what reads the drawing is loaded when there is one. */
import type { Importer } from '../intake/importer.js';

export const dxfImporter: Importer = {
  what: 'a DXF drawing',
  endings: ['.dxf'],
  recognises: looksLikeDxf,
  read: async (bytes, file, options) => (await import('./read.js')).readDxf(bytes, file, options),
};

/**
 * Group 0 SECTION (or, of a drawing that holds nothing, EOF) comes first, or comments (group 999) of any length before
 * it. A comment's own line may be anything, so where the bytes begin with one the first 64 KB are looked through.
 */
function looksLikeDxf(bytes: Uint8Array): boolean {
  const head = new TextDecoder('latin1').decode(bytes.subarray(0, 65536)).replace(/^\u00ef\u00bb\u00bf/, '');
  const lines = head.split(/\r\n|\n|\r/);
  let i = 0;
  while (i < lines.length && lines[i].trim() === '') i++;
  while (lines[i]?.trim() === '999') i += 2;
  // Comments that fill the head leave nothing to tell by but themselves.
  if (i >= lines.length - 1) return i >= 2 && bytes.length > 65536;
  return lines[i].trim() === '0' && /^\s*(?:SECTION|EOF)\s*$/.test(lines[i + 1]);
}
