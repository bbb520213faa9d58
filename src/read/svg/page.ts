/**
 * The page: how large one user unit of the root element is.
 *
 * Only widths and heights in units of real size (mm, in, pt, …) count as stated. Bare numbers, px and font units are
 * taken at 96 to the inch, percentages say nothing. Where one of the two is left open, the viewBox gives it in
 * proportion; a viewBox that is flat in one direction (a level line has no height) scales by the other.
 */

import type { AssumedScale } from '../../../shared/artwork.js';
import { mmPerPx } from '../../../shared/units.js';
import { type Matrix, multiply } from '../../geometry/matrix.js';
import { lengthIn, mmPerUnit, parseCssLength } from './length.js';
import { fitted, type ViewBox, viewBoxOf } from './viewport.js';

export interface Page {
  /** User units of the root's content to millimetres. */
  readonly toMm: Matrix;
  /** What percentages inside are of, user units. */
  readonly width: number;
  readonly height: number;
  readonly assumedSize: boolean;
  readonly assumedScale?: AssumedScale;
  readonly statedSizeMm: readonly [number, number] | null;
}

/** Taken where no size is stated; 72 to the inch is the other scale in use. */
const bareUnits: AssumedScale = { taken: '96 units to the inch', other: '72', timesAsLarge: 96 / 72 };

interface Side {
  readonly mm: number;
  readonly stated: boolean;
}

function sideOf(text: string | undefined, fontSize: number): Side | null {
  const length = text === undefined ? null : parseCssLength(text);
  if (text === undefined || !length || length.unit === '%' || !(length.value > 0)) return null;
  const stated = mmPerUnit.get(length.unit);
  if (stated !== undefined) return { mm: length.value * stated, stated: true };
  const px = lengthIn(text, { fontSize, width: 0, height: 0 }, 'both');
  return px === null ? null : { mm: px * mmPerPx, stated: false };
}

/** `attributes`, `fontSize` (px) and `transform`, if it has one, are the root's own. */
export function pageOf(
  attributes: Readonly<Record<string, string>>,
  fontSize: number,
  transform: Matrix | null,
): Page {
  const box = viewBoxOf(attributes.viewBox);
  const usable = box && (box.width > 0 || box.height > 0) ? box : null;
  const [width, height] = sides(
    sideOf(attributes.width, fontSize),
    sideOf(attributes.height, fontSize),
    usable,
  );
  const stated = (width?.stated || height?.stated) ?? false;
  const pxToMm: Matrix = [mmPerPx, 0, 0, mmPerPx, 0, 0];
  const inner = usable && width && height ? pageMap(usable, width.mm, height.mm, attributes) : pxToMm;
  return {
    toMm: transform ? multiply(inPx(transform), inner) : inner,
    width: usable?.width ?? (width?.mm ?? 0) / mmPerPx,
    height: usable?.height ?? (height?.mm ?? 0) / mmPerPx,
    assumedSize: !stated,
    ...(!stated && { assumedScale: bareUnits }),
    statedSizeMm: stated && width && height ? [width.mm, height.mm] : null,
  };
}

/** A map between px, as the same map between millimetres. */
function inPx([a, b, c, d, e, f]: Matrix): Matrix {
  return [a, b, c, d, e * mmPerPx, f * mmPerPx];
}

/** Both sides, the missing ones worked out from the viewBox where there is one. */
function sides(width: Side | null, height: Side | null, box: ViewBox | null): [Side | null, Side | null] {
  if (!box || (width && height)) return [width, height];
  const fromWidth = width && box.width > 0 ? width.mm / box.width : null;
  const fromHeight = height && box.height > 0 ? height.mm / box.height : null;
  const perUnit = fromWidth ?? fromHeight ?? mmPerPx;
  const stated = (width?.stated || height?.stated) ?? false;
  return [width ?? { mm: box.width * perUnit, stated }, height ?? { mm: box.height * perUnit, stated }];
}

function pageMap(
  box: ViewBox,
  width: number,
  height: number,
  attributes: Readonly<Record<string, string>>,
): Matrix {
  if (box.width > 0 && box.height > 0) return fitted(box, width, height, attributes.preserveAspectRatio);
  const scale = box.width > 0 ? width / box.width : height / box.height;
  return [scale, 0, 0, scale, -box.x * scale, -box.y * scale];
}
