/** One drawing read by us and by the reference, and how far apart the two readings are. */
import type { Take } from '../../shared/artwork.js';
import { defaultLimits } from '../../shared/setup.js';
import { readArtwork } from '../../src/read/index.js';
import { densely, diagonalOf, hausdorff } from './dense.js';
import { referenceLines } from './reference.js';

/**
 * An empty string where both agree to 0.05 mm or 0.1 % of the diagonal, whichever is larger; else what is wrong. Our
 * dots are noted, not drawn; the reference draws them as lines without length: they are compared as such. `forReference` is what the reference is
 * given, where that is not the same.
 */
export async function disagreement(
  svg: string,
  name: string,
  take: Take,
  forReference = svg,
): Promise<string> {
  const artwork = await readArtwork(new TextEncoder().encode(svg), name, { take, limits: defaultLimits });
  const dots = artwork.notes.filter(({ kind }) => kind === 'dot').flatMap(({ places }) => places);
  const ours = [...artwork.lines.map(densely), ...dots.map(({ x, y }) => [x, y, x, y])];
  const theirs = referenceLines(forReference, take === 'shapes' ? 'painted' : 'stroked');
  const allowed = Math.max(0.05, diagonalOf(theirs) / 1000);
  const distance = hausdorff(ours, theirs, allowed / 2);
  if (distance <= allowed) return '';
  if (ours.length === 0 || theirs.length === 0)
    return `${name}: ${ours.length} lines, the reference ${theirs.length}`;
  return `${name}: ${distance.toFixed(3)} mm apart`;
}
