/** Centre: the outline of a pen stroke becomes the line in its middle (`src/centre/`). */
import type { IntakeNote } from '../../shared/artwork.js';
import type { Mend } from '../../shared/mend.js';
import type { Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import { inkEdges, withoutSlivers } from '../centre/area.js';
import { centreOf } from '../centre/index.js';
import { firstPoint, totalLength } from '../geometry/polyline.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import { outcome } from './outcome.js';

/** Points of the border for each width of the pen. */
const stepsAcross = 12;
/** The pen's width may differ by so much, as a share, from what its outline told. */
const offShare = 0.3;
/** What a file's rounding may move a border by, mm. */
const roundedMm = 0.002;

export const centre: Mend = {
  name: 'centre',
  safe: false,
  what: 'Puts the line in the middle where a drawing holds the outline of a pen stroke.',
  apply(motif, setup) {
    const { outline } = studyOf(motif, setup);
    if (!outline) return null;
    const drawn = joinedStrokes(motif.strokes).strokes;
    const outlines = drawn.filter((_, k) => outline.strokes.includes(k));
    const left = drawn.filter((_, k) => !outline.strokes.includes(k)).map(({ line }) => line);
    // A shape whose outline comes in pieces is painted as one that says nothing of it.
    const fills = outlines.map(({ parts }) =>
      parts.length === 1 ? (motif.fills?.[parts[0]] ?? null) : null,
    );
    const edges = inkEdges(
      outlines.map(({ line }) => line),
      setup.limits.crossings,
      fills,
    );
    const rings = withoutSlivers(edges, outline.penMm);
    const { strokes, pen, widths } = centreOf(rings, { step: outline.penMm / stepsAcross, blur: roundedMm });
    // What looked like an outline may be painted all over.
    if (strokes.length === 0 || Math.abs(pen - outline.penMm) > offShare * outline.penMm) return null;
    const say = sayIn(setup.unit);
    const even = Math.max(widths[1] - pen, pen - widths[0]);
    const evenly = even <= 0.02 * pen ? 'as even as can be' : `even to ${say.length(even)}`;
    const shapes =
      left.length === 0
        ? ''
        : ` ${say.count(left.length, 'closed line')} that ${left.length === 1 ? 'is' : 'are'} no pen stroke ${left.length === 1 ? 'is' : 'are'} left as ${left.length === 1 ? 'it is' : 'they are'}.`;
    return outcome({ ...motif, notes: notesOf(motif.notes, left) }, [...strokes, ...left], {
      mend: 'centre',
      places: strokes.map(firstPoint),
      addedMm: totalLength(strokes) - totalLength(outlines.map(({ line }) => line)),
      movedMm: pen / 2,
      message: `Put the line in the middle of the outline of a pen stroke; the pen was ${say.length(pen)} wide, ${evenly}.${shapes}`,
      added: [],
    });
  },
};

/** Shapes were read by their outline only as far as they are still there. */
function notesOf(notes: readonly IntakeNote[], left: readonly Polyline[]): readonly IntakeNote[] {
  return notes.flatMap((note) => {
    if (note.kind !== 'outlines') return [note];
    const places = note.places.filter(({ x, y }) =>
      left.some((line) => {
        const at = firstPoint(line);
        return Math.hypot(at.x - x, at.y - y) <= roundedMm;
      }),
    );
    return left.length === 0 ? [] : [{ ...note, count: Math.min(note.count, left.length), places }];
  });
}
