/** A drawing that lay aslant on the scanner: turned as it is, which bends nothing, until its ends are level. */
import levelEnds from '../../rules/level-ends.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { limitsOf } from '../../shared/rule.js';
import type { Setup } from '../../shared/setup.js';
import { firstPoint, lastPoint, pointsOf, polylineOf } from '../geometry/polyline.js';
import type { ReachStep } from './reach-step.js';
import { slantDeg } from './slant.js';

/** A sheet lies no more aslant than this, degrees; a drop that is steeper was drawn. */
const mostDeg = 5;

/** `line` runs to the right. Null where it is level, or too far from it. */
export function turnedLevel(line: Polyline, setup: Setup): ReachStep | null {
  const [start, end] = [firstPoint(line), lastPoint(line)];
  const deg = slantDeg(line);
  if (Math.abs(end.y - start.y) <= limitsOf(levelEnds, setup).dropMm || deg > mostDeg) return null;
  const length = Math.hypot(end.x - start.x, end.y - start.y);
  const [cos, sin] = [(end.x - start.x) / length, (end.y - start.y) / length];
  const place = ({ x, y }: Point): Point => {
    const [dx, dy] = [x - start.x, y - start.y];
    return { x: start.x + cos * dx + sin * dy, y: start.y - sin * dx + cos * dy };
  };
  const turned = polylineOf(Array.from(pointsOf(line), place));
  return {
    line: turned,
    message: `The scan lay aslant: turned level by ${deg.toFixed(1)} degrees.`,
    at: [start, lastPoint(turned)],
    movedMm: farthest(line, turned),
    added: [],
    place,
  };
}

function farthest(line: Polyline, turned: Polyline): number {
  let most = 0;
  for (let i = 0; i < line.length; i += 2)
    most = Math.max(most, Math.hypot(turned[i] - line[i], turned[i + 1] - line[i + 1]));
  return most;
}
