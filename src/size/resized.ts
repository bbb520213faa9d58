import type { Motif } from '../../shared/motif.js';
import { scaled } from '../geometry/polyline.js';
import { scanScaled } from '../geometry/scan.js';
import { motifOf } from './motif-of.js';
import { requireSane, rowsScaled, scaledNotes } from './scaling.js';

/**
 * The same motif `times` as large, and with it how far its polylines leave their curves.
 *
 * @throws Refusal where it would be of a size that cannot be meant
 */
export function resized(motif: Motif, times: number): Motif {
  requireSane({ minX: 0, minY: 0, maxX: motif.widthMm, maxY: motif.heightMm }, times);
  return motifOf(
    motif.strokes.map((line) => scaled(line, times)),
    {
      ...motif,
      scale: motif.scale * times,
      flattenMm: motif.flattenMm * times,
      notes: scaledNotes(motif.notes, times),
      ...(motif.scan && { scan: scanScaled(motif.scan, times) }),
      ...(motif.rows && { rows: rowsScaled(motif.rows, times) }),
    },
  );
}
