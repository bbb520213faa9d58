/** The motif file back into artwork: straight lines in real millimetres, with all that goes along. */

import { grouped } from '../../../shared/grouped.js';
import { type MotifFile, motifKeys } from '../../../shared/motif-file.js';
import type { Polyline } from '../../../shared/plane.js';
import { Refusal } from '../../../shared/refusal.js';
import type { Limits } from '../../../shared/setup.js';
import { Op, type Subpath } from '../../../shared/subpath.js';
import { pointCount } from '../../geometry/polyline.js';
import type { Drawn, Importer } from '../intake/importer.js';
import { requireAgreement } from './agreement.js';
import { parseJson } from './json.js';
import { requireMotifFile } from './validate.js';

export const motifImporter: Importer = {
  what: 'a motif file',
  endings: ['.motif.json'],
  recognises: looksLikeMotifFile,
  read: (bytes, file, { limits }) => readMotifFile(bytes, file, limits),
};

/** Whether the bytes look like JSON, so that they can only be meant as a motif file. */
export function looksLikeMotifFile(bytes: Uint8Array): boolean {
  const mark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  const first = bytes
    .subarray(mark)
    .find((byte) => byte !== 0x20 && byte !== 0x0a && byte !== 0x0d && byte !== 0x09);
  return first === 0x7b || first === 0x5b;
}

/**
 * Reads a motif file (`NAME.motif.json`).
 *
 * @throws Refusal naming the place where it is no JSON, the version where it is newer than this program knows, the
 *   path of a bad value, or the contradiction between its size or repeat and its strokes
 */
export async function readMotifFile(bytes: Uint8Array, file: string, limits: Limits): Promise<Drawn> {
  const json = parseJson(bytes, file, limits.nesting);
  const motif = requireMotifFile(json, file);
  requireFew(motif, file, limits);
  const strokes = motif.strokes.map(polyline);
  requireAgreement(motif, strokes, file);
  const { source } = motif;
  return {
    lines: strokes.map(straightLines),
    assumedSize: motif.assumedSize ?? false,
    statedSizeMm: motif.size ?? null,
    credit: motif.credit ?? {},
    notes: [],
    carried: {
      ...(motif.name !== undefined && { name: motif.name }),
      ...(source && { source: { ...source, statedSize: source.statedSize ?? null } }),
      ...(motif.rows && { rows: motif.rows }),
      ...(motif.flatten !== undefined && { flattenMm: motif.flatten }),
      mended: motif.mended ?? [],
      unknown: Object.fromEntries(Object.entries(motif).filter(([key]) => !motifKeys.includes(key))),
    },
  };
}

function requireFew({ strokes }: MotifFile, file: string, most: Limits): void {
  const points = strokes.reduce((sum, stroke) => sum + stroke.length, 0);
  if (points > most.points)
    throw new Refusal(`${file}: ${grouped(points)} points; at most ${grouped(most.points)} are read.`);
  if (strokes.length > most.lines)
    throw new Refusal(`${file}: ${grouped(strokes.length)} lines; at most ${grouped(most.lines)} are read.`);
}

function polyline(points: readonly (readonly [number, number])[]): Polyline {
  const line = new Float64Array(2 * points.length);
  points.forEach(([x, y], i) => {
    line[2 * i] = x;
    line[2 * i + 1] = y;
  });
  return line;
}

function straightLines(coords: Polyline): Subpath {
  return { ops: new Uint8Array(pointCount(coords) - 1).fill(Op.line), coords, closed: false };
}
