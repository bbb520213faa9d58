/** The motif as `NAME.motif.json`: strokes to 0.001 mm, and all that goes along with a motif. */
import type { Motif } from '../../shared/motif.js';
import { type MotifFile, motifFormat, motifVersion } from '../../shared/motif-file.js';
import type { Polyline } from '../../shared/plane.js';
import { boundsOf } from '../geometry/polyline.js';
import { toMicron } from '../markup/number-text.js';
import { pointsText } from '../markup/points-text.js';
import { repeatAlong } from '../size/repeat.js';

/** JSON text, one stroke a line. Keys that an earlier file had and this version does not know are kept. */
export function writeMotif(motif: Motif): string {
  const strokes = motif.strokes.map((stroke) => stroke.map(toMicron));
  const { strokes: _, ...rest } = motifFile(motif, strokes);
  const head = JSON.stringify({ ...rest, ...motif.unknown }, null, 2).slice(0, -2);
  const lines = strokes.map((stroke) => `    ${pointsText(stroke)}`);
  return `${head},\n  "strokes": [\n${lines.join(',\n')}\n  ]\n}\n`;
}

function motifFile(motif: Motif, strokes: readonly Polyline[]): MotifFile {
  const { credit, source, rows, mended } = motif;
  const box = boundsOf(strokes);
  const size = [toMicron(box.maxX - box.minX), toMicron(box.maxY - box.minY)] as const;
  const repeat = repeatOf(strokes, size[0]);
  return {
    format: motifFormat,
    version: motifVersion,
    name: motif.name,
    unit: 'mm',
    size,
    ...(repeat && { repeat }),
    ...(motif.assumedSize && { assumedSize: true }),
    flatten: motif.flattenMm,
    ...(rows && {
      rows: { ...rows, spacing: toMicron(rows.spacing), clearance: toMicron(rows.clearance) },
    }),
    ...(source && { source }),
    ...(Object.keys(credit).length > 0 && { credit }),
    ...(mended.length > 0 && { mended }),
    strokes: [],
  };
}

/** Of several strokes the repeat depends on which ends count as joined; a reader works it out again. */
function repeatOf(strokes: readonly Polyline[], widthMm: number): readonly [number, number] | null {
  if (strokes.length !== 1) return null;
  const along = repeatAlong(strokes[0], widthMm);
  return along ? [toMicron(along.dx), toMicron(along.dy)] : [widthMm, 0];
}
