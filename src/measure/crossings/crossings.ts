/**
 * Where passes of the line properly cross: they meet (`meetings.ts`), and part on other sides than they came from
 * (`weaving.ts`). Crossings nearer to one another than can be told apart are one place (`places.ts`).
 */
import type { AtLeast, Crossing } from '../../../shared/study.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { meetingsOf } from '../../network/meetings.js';
import { placesOf } from './places.js';
import { withoutWeaving } from './weaving.js';

/**
 * The crossings of all strokes with themselves and each other. `flattenMm` is how far the polylines may lie off the
 * true curves. After `most` meetings of two passes the search ends and `more` is true.
 */
export function crossingsOf(index: SegmentIndex, flattenMm: number, most: number): AtLeast<Crossing> {
  const { meetings, more } = meetingsOf(index, most);
  return { places: placesOf(withoutWeaving(meetings, index, flattenMm), index), more };
}
