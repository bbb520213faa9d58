/** The pale scan under the line that was traced from it. */
import type { Scan } from '../../shared/scan.js';
import { numberText } from '../markup/number-text.js';
import type { SheetOfPaper } from './sheet-of-paper.js';

/** A line this wide, in pens, leaves the ink to be seen on both sides. */
export const overScan = 0.7;

/** One element; none where there is no scan, or it cannot lie under the line. */
export function scanUnder(scan: Scan | undefined, sheet: SheetOfPaper): string[] {
  if (!scan?.pale) return [];
  const { href, topLeft, topRight, bottomLeft } = scan.pale;
  const [from, across, down] = [topLeft, topRight, bottomLeft].map(sheet.at);
  // Laid out at its size on the paper: some renderers take an image of a unit's width for one pixel.
  const width = Math.hypot(across.x - from.x, across.y - from.y);
  const height = Math.hypot(down.x - from.x, down.y - from.y);
  const map = [
    (across.x - from.x) / width,
    (across.y - from.y) / width,
    (down.x - from.x) / height,
    (down.y - from.y) / height,
    from.x,
    from.y,
  ];
  return [
    `<image href="${href}" width="${numberText(width)}" height="${numberText(height)}" preserveAspectRatio="none" transform="matrix(${map.map(numberText).join(' ')})"/>`,
  ];
}
