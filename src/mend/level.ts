/**
 * Ends brought to one height. A drop up to a quarter of the height, or one that tilts the motif by little, is spread
 * over the whole of it as a slant, which bends nothing. A larger one is eased over the first and last quarter of the
 * line, half of it each, where that turns the line by little; else a curve leads from the end to the height of the
 * start, where it has room. A drop over half the height is no slip: such a line runs across and down at once, and makes
 * no row whatever is done to its ends.
 */
import levelEnds from '../../rules/level-ends.js';
import repeatCollision from '../../rules/repeat-collision.js';
import type { Polyline } from '../../shared/plane.js';
import { limitsOf } from '../../shared/rule.js';
import { sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { boundsOf, chained, firstPoint, lastPoint, lengthOf, pointCount } from '../geometry/polyline.js';
import { eased, easeOf } from './ease.js';
import { leadBetween } from './lead.js';
import { asItIs, headingsOf, isClean, type ReachTry } from './reach-step.js';
import { slantDeg, slanted, slantOf } from './slant.js';

/** Drops up to these shares of the height are slanted, and are mended at all. */
const slantShare = 1 / 4;
const mostShare = 1 / 2;
/** A slant or an ease that turns the line by more than this shows, degrees. */
const easeDeg = 8;
/** How far a lead reaches, in drops: as short as has room. */
const leadReaches = [1.5, 2, 3, 1];

/** `line` runs to the right. */
export function toLevel(line: Polyline, setup: Setup): ReachTry {
  const { dropMm } = limitsOf(levelEnds, setup);
  const { nearMm } = limitsOf(repeatCollision, setup);
  const [start, end] = [firstPoint(line), lastPoint(line)];
  const drop = end.y - start.y;
  if (Math.abs(drop) <= dropMm) return asItIs;
  const box = boundsOf([line]);
  const share = Math.abs(drop) / (box.maxY - box.minY);
  const say = sayIn(setup.unit);
  const uneven = `The ends were ${say.length(drop)} from level`;
  if (share <= slantShare || slantDeg(line) <= easeDeg) {
    const made = slanted(line);
    return {
      step: {
        line: made,
        message: `${uneven}: spread over the whole motif, which is slanted by ${slantDeg(line).toFixed(1)} degrees.`,
        at: [firstPoint(made), lastPoint(made)],
        movedMm: farthest(line, made),
        added: [],
        place: slantOf(line),
      },
      left: null,
    };
  }
  if (share > mostShare)
    return {
      step: null,
      left: `The ends are ${say.length(drop)} from level, more than half the motif's height: the line runs across and down at once, as a corner does, and such a motif makes no row. Draw it so that it ends about as high as it starts.`,
    };
  if (bendDeg(drop, lengthOf(line)) <= easeDeg) {
    const made = eased(line, drop / 2, -drop / 2);
    return {
      step: {
        line: made,
        message: `${uneven}: eased away over the first and the last quarter of the line, half of it each.`,
        at: [firstPoint(made), lastPoint(made)],
        movedMm: Math.abs(drop) / 2,
        added: [],
        place: easeOf(line, drop / 2, -drop / 2),
      },
      left: null,
    };
  }
  const { from: onward, to: away } = headingsOf(line, setup);
  for (const reach of leadReaches) {
    const to = { ...onward, at: { x: end.x + reach * Math.abs(drop), y: start.y } };
    const lead = leadBetween(away, to);
    const made = chained([line, lead], 1e-9);
    if (!isClean(made, line, nearMm, setup)) continue;
    return {
      step: {
        line: made,
        message: `${uneven}, too much to slant or ease without it showing: a curve leads on from the end to the height of the start.`,
        at: [end],
        movedMm: 0,
        added: [lead],
        place: (at) => at,
      },
      left: null,
    };
  }
  return {
    step: null,
    left: `The ends are ${say.length(drop)} from level, too much to slant or ease without it showing, and a curve that leads from the end to the height of the start would run into what is drawn there. Draw it so that it ends about as high as it starts.`,
  };
}

/** The steepest that an ease of half the drop over a quarter of the length turns a line: smoothstep rises by 3/2 there. */
function bendDeg(drop: number, lengthMm: number): number {
  return (Math.atan((1.5 * Math.abs(drop / 2)) / (lengthMm / 4)) * 180) / Math.PI;
}

/** How far the farthest point moved. Both lines have the same points. */
function farthest(line: Polyline, made: Polyline): number {
  let most = 0;
  for (let i = 0; i < pointCount(line); i++)
    most = Math.max(most, Math.abs(made[2 * i + 1] - line[2 * i + 1]));
  return most;
}
