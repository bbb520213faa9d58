/** What a person does to a motif by hand, beside mending it: none of it bends the line. */
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { nearestAlong, reversed, runningLengths } from '../geometry/polyline.js';
import { scanMoved } from '../geometry/scan.js';
import { cutAt } from '../mend/row-cut.js';
import { quarterTurned } from '../mend/turn.js';
import { motifOf } from '../size/motif-of.js';

export type HandChange =
  /** Stitched the other way. */
  | { readonly by: 'reverse' }
  /** Left and right changed about. */
  | { readonly by: 'mirror' }
  /** Top and bottom changed about. */
  | { readonly by: 'flip' }
  /** A quarter turn: the top becomes the left side. */
  | { readonly by: 'quarter turn' }
  /** The endless row cut at the place of the line nearest to this one, in the motif's millimetres. */
  | { readonly by: 'start'; readonly at: readonly [number, number] };

/** @throws Refusal where a motif in several strokes is to begin elsewhere: there is no one line to cut */
export function changedByHand(motif: Motif, change: HandChange): Motif {
  switch (change.by) {
    case 'reverse':
      return { ...motif, strokes: motif.strokes.map(reversed).reverse() };
    case 'mirror':
      return moved(motif, ({ x, y }) => ({ x: motif.widthMm - x, y }));
    case 'flip':
      return moved(motif, ({ x, y }) => ({ x, y: motif.heightMm - y }));
    case 'quarter turn':
      return quarterTurned(motif);
    case 'start': {
      if (motif.strokes.length !== 1)
        throw new Refusal(
          'The motif is in several pieces, so there is no one line to begin elsewhere: join them first.',
        );
      const [line] = motif.strokes;
      const alongMm = nearestAlong(line, runningLengths(line), { x: change.at[0], y: change.at[1] });
      return motifOf([cutAt(line, alongMm)], motif);
    }
  }
}

/** Mirrored lines nest otherwise: rows chosen for the motif as it was no longer hold. */
function moved({ rows: _, ...motif }: Motif, to: (at: Point) => Point): Motif {
  const strokes = motif.strokes.map((line) => mapped(line, to));
  const notes = motif.notes.map((note) => ({ ...note, places: note.places.map(to) }));
  const scan = motif.scan && scanMoved(motif.scan, to);
  return motifOf(strokes, { ...motif, notes, ...(scan && { scan }) });
}

function mapped(line: Polyline, to: (at: Point) => Point): Polyline {
  const out = new Float64Array(line.length);
  for (let i = 0; i < line.length; i += 2) {
    const { x, y } = to({ x: line[i], y: line[i + 1] });
    out[i] = x;
    out[i + 1] = y;
  }
  return out;
}
