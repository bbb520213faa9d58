/** Turn: the line runs from left to right. */
import type { Mend, MendAccount } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Point } from '../../shared/plane.js';
import type { Setup } from '../../shared/setup.js';
import { firstPoint, pointsOf, polylineOf, reversed } from '../geometry/polyline.js';
import { scanMoved } from '../geometry/scan.js';
import { studyOf } from '../measure/index.js';
import { motifOf } from '../size/motif-of.js';
import { outcome } from './outcome.js';

export const turn: Mend = {
  name: 'turn',
  safe: true,
  what: 'Reverses a line that starts on the right; with --reshape gives a motif that runs down a quarter turn.',
  apply(motif, setup, reshape) {
    const down = reshape && runsDown(motif, setup);
    const upright = down ? quarterTurned(motif) : motif;
    const backwards = studyOf(upright, setup).runsLeft;
    if (!down && !backwards) return null;
    const strokes = backwards ? upright.strokes.map(reversed).reverse() : upright.strokes;
    const done = [
      ...(down ? ['Gave the motif a quarter turn, since it ran down, not across.'] : []),
      ...(backwards
        ? ['Reversed the line, so that it starts on the left; what is stitched stays the same.']
        : []),
    ];
    const account: MendAccount = {
      mend: 'turn',
      places: [firstPoint(strokes[0])],
      addedMm: 0,
      movedMm: 0,
      message: done.join(' '),
      added: [],
    };
    return outcome(upright, strokes, account, down ? (at) => quarterTurn(at, motif.widthMm) : undefined);
  },
};

/** The ends lie nearer to being above one another than across from one another. */
export function runsDown(motif: Motif, setup: Setup): boolean {
  const { isOneStroke, repeat, start, end, heightMm } = studyOf(motif, setup);
  return isOneStroke && repeat.assumed && Math.abs(end.at.y - start.at.y) > heightMm / 2;
}

/** The top becomes the left side. */
function quarterTurn({ x, y }: Point, widthMm: number): Point {
  return { x: y, y: widthMm - x };
}

/** A spacing chosen for the motif as it was no longer holds. */
export function quarterTurned({ rows: _, ...motif }: Motif): Motif {
  const turned = (at: Point) => quarterTurn(at, motif.widthMm);
  const notes = motif.notes.map((note) => ({ ...note, places: note.places.map(turned) }));
  const strokes = motif.strokes.map((line) => polylineOf(Array.from(pointsOf(line), turned)));
  const scan = motif.scan && scanMoved(motif.scan, turned);
  return motifOf(strokes, { ...motif, notes, ...(scan && { scan }) });
}
