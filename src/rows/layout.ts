/** Where the rows of a layout lie: each is the motif's own row, mirrored or not, and moved. */
import type { Layout } from '../../shared/layout.js';
import type { Row } from './row.js';

/** The map from a row's own coordinates to the quilt's: x' = signX x + dx, y' = signY y + dy. */
export interface Placement {
  readonly signX: 1 | -1;
  readonly signY: 1 | -1;
  readonly dx: number;
  readonly dy: number;
}

/**
 * Row number `index` from the top (0 is the motif itself) at this spacing. Every odd row is changed: shifted by half a
 * repeat, flipped about the middle height of the motif's box and shifted so, or turned by half a turn about that
 * middle height and the point halfway between start and end.
 */
export function placementOf(row: Row, layout: Layout, spacingMm: number, index: number): Placement {
  const down = index * spacingMm;
  const changed = index % 2 !== 0;
  if (!changed || layout === 'straight') return { signX: 1, signY: 1, dx: 0, dy: down };
  const half = row.repeatMm / 2;
  if (layout === 'brick') return { signX: 1, signY: 1, dx: half, dy: down };
  const flipped = row.box.minY + row.box.maxY + down;
  if (layout === 'mirrored') return { signX: 1, signY: -1, dx: half, dy: flipped };
  return { signX: -1, signY: -1, dx: 2 * row.middleXMm, dy: flipped };
}

/** After how many rows the stack looks the same again but for a shift: how many kinds of seam there are. */
export function kindsOfSeam(layout: Layout): 1 | 2 {
  return layout === 'straight' || layout === 'brick' ? 1 : 2;
}
