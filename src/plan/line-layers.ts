/** The line of a pass told apart: the rows' own, and what links them. */
import type { LinkRange } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';

export interface LineLayers {
  readonly stitch: readonly Polyline[];
  readonly link: readonly Polyline[];
}

/** Every step of the strokes is in one of the two, in the order of the walk. */
export function layersOf(strokes: readonly Polyline[], links: readonly LinkRange[]): LineLayers {
  const stitch: Polyline[] = [];
  const link: Polyline[] = [];
  strokes.forEach((line, stroke) => {
    let at = 0;
    const last = line.length / 2 - 1;
    const upTo = (index: number, into: Polyline[]) => {
      if (index > at) into.push(line.subarray(2 * at, 2 * index + 2));
      at = Math.max(at, index);
    };
    for (const [own, from, to] of links) {
      if (own !== stroke) continue;
      upTo(from, stitch);
      upTo(to, link);
    }
    upTo(last, stitch);
  });
  return { stitch, link };
}
