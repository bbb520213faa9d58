import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { boundsOf, movedTogether } from '../geometry/polyline.js';
import { scanMoved } from '../geometry/scan.js';

/** A motif of these strokes, moved so that their box begins at the origin; `rest` gives what is not the default. */
export function motifOf(strokes: readonly Polyline[], rest: Partial<Omit<Motif, 'strokes'>> = {}): Motif {
  const box = boundsOf(strokes);
  const atOrigin = box.minX === 0 && box.minY === 0;
  const toOrigin = ({ x, y }: Point) => ({ x: x - box.minX, y: y - box.minY });
  const notes = (rest.notes ?? []).map((note) =>
    atOrigin || note.places.length === 0 ? note : { ...note, places: note.places.map(toOrigin) },
  );
  return {
    name: 'motif',
    flattenMm: 0.01,
    assumedSize: false,
    statedSizeMm: null,
    scale: 1,
    credit: {},
    mended: [],
    unknown: {},
    ...rest,
    notes,
    ...(rest.scan && !atOrigin && { scan: scanMoved(rest.scan, toOrigin) }),
    strokes: atOrigin ? strokes : movedTogether(strokes, -box.minX, -box.minY),
    widthMm: box.maxX - box.minX,
    heightMm: box.maxY - box.minY,
  };
}
