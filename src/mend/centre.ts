/** Centre: the outline of a pen stroke becomes the line in its middle (`src/centre/`). */
import type { Mend } from '../../shared/mend.js';
import { sayIn } from '../../shared/say.js';
import { inkEdges, withoutSlivers } from '../centre/area.js';
import { centreOf } from '../centre/index.js';
import { firstPoint, totalLength } from '../geometry/polyline.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import { outcome } from './outcome.js';

/** Points of the border for each width of the pen. */
const stepsAcross = 12;
/** What a file's rounding may move a border by, mm. */
const roundedMm = 0.002;

export const centre: Mend = {
  name: 'centre',
  safe: false,
  what: 'Puts the line in the middle where a drawing holds the outline of a pen stroke.',
  apply(motif, setup) {
    const { outline } = studyOf(motif, setup);
    if (!outline) return null;
    const drawn = joinedStrokes(motif.strokes).strokes.map(({ line }) => line);
    const outlines = drawn.filter((_, k) => outline.strokes.includes(k));
    const left = drawn.filter((_, k) => !outline.strokes.includes(k));
    const rings = withoutSlivers(inkEdges(outlines, setup.limits.crossings), outline.penMm);
    const { strokes, pen, widths } = centreOf(rings, { step: outline.penMm / stepsAcross, blur: roundedMm });
    if (strokes.length === 0) return null;
    const say = sayIn(setup.unit);
    const even = Math.max(widths[1] - pen, pen - widths[0]);
    const evenly = even <= 0.02 * pen ? 'as even as can be' : `even to ${say.length(even)}`;
    const shapes =
      left.length === 0
        ? ''
        : ` ${say.count(left.length, 'closed line')} that ${left.length === 1 ? 'is' : 'are'} no pen stroke ${left.length === 1 ? 'is' : 'are'} left as ${left.length === 1 ? 'it is' : 'they are'}.`;
    return outcome(motif, [...strokes, ...left], {
      mend: 'centre',
      places: strokes.map(firstPoint),
      addedMm: totalLength(strokes) - totalLength(outlines),
      movedMm: pen / 2,
      message: `Put the line in the middle of the outline of a pen stroke; the pen was ${say.length(pen)} wide, ${evenly}.${shapes}`,
      added: strokes,
    });
  },
};
