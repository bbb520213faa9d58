/** The field: the top and its margin, in the top's coordinates. */

import type { Quilt } from '../../shared/plan.js';
import type { Box } from '../../shared/plane.js';

export function topOf({ widthMm, heightMm }: Quilt): Box {
  return { minX: 0, minY: 0, maxX: widthMm, maxY: heightMm };
}

export function fieldOf({ widthMm, heightMm, marginMm }: Quilt): Box {
  return { minX: -marginMm, minY: -marginMm, maxX: widthMm + marginMm, maxY: heightMm + marginMm };
}
