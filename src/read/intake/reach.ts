import { Refusal } from '../../../shared/refusal.js';
import type { Subpath } from '../../../shared/subpath.js';

/** Coordinates beyond this, mm, are a mistake in the file: nothing larger can be worked out, let alone stitched. */
const farthestMm = 1e9;

/** @throws Refusal, which begins with `where`, where a number of the path is too large to be meant */
export function requireReach({ coords }: Subpath, where: string, what: string): void {
  for (const value of coords) {
    if (!(Math.abs(value) <= farthestMm))
      throw new Refusal(`${where}: the numbers of this ${what} are too large: it reaches beyond 1,000 km.`);
  }
}
