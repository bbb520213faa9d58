/** Smooth: a line drawn or traced with a shaky hand, made smooth within a tolerance that was asked for. */
import type { Mend } from '../../shared/mend.js';
import { sayIn } from '../../shared/say.js';
import { pointAt, pointCount, totalLength } from '../geometry/polyline.js';
import { smoothed } from '../geometry/smoothing.js';
import { outcome } from './outcome.js';

export const smooth: Mend = {
  name: 'smooth',
  safe: false,
  what: 'Makes a shaky line smooth within the distance given with --smooth; corners stay.',
  apply(motif, setup) {
    const { smoothMm } = setup;
    if (smoothMm === null) return null;
    const made = motif.strokes.map((line) => smoothed(line, smoothMm));
    const changed = made.filter((each) => each !== null);
    if (changed.length === 0) return null;
    const strokes = motif.strokes.map((line, k) => made[k]?.line ?? line);
    const say = sayIn(setup.unit);
    const movedMm = Math.max(...changed.map((each) => each.movedMm));
    return outcome(motif, strokes, {
      mend: 'smooth',
      places: changed.map(({ line }) => pointAt(line, pointCount(line) >> 1)),
      addedMm: totalLength(strokes) - totalLength(motif.strokes),
      movedMm,
      message: `Made ${changed.length === 1 ? 'the line' : say.count(changed.length, 'stroke')} smooth; no place of it lies farther than ${say.length(movedMm)} from where it was drawn.`,
      added: [],
    });
  },
  leaves(_, { smoothMm, unit }, hasMended) {
    if (smoothMm === null || hasMended) return null;
    return `There is no shake in it that a line within ${sayIn(unit).length(smoothMm)} would take out; what is wider is taken for its shape. If it looks shaky, allow more with --smooth.`;
  },
};
