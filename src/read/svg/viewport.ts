/** viewBox and preserveAspectRatio: SVG 1.1 (second edition), 7.7 and 7.8. */
import type { Matrix } from '../../geometry/matrix.js';
import { numberList } from './number-scanner.js';

export interface ViewBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** The box, or null where the attribute is missing or in error. Width or height may be zero. */
export function viewBoxOf(text: string | undefined): ViewBox | null {
  const numbers = text === undefined ? null : numberList(text);
  if (numbers?.length !== 4) return null;
  const [x, y, width, height] = numbers;
  return width >= 0 && height >= 0 ? { x, y, width, height } : null;
}

/** Where the free space goes, by the first three letters of the alignment: nothing, half or all of it before. */
const share: Readonly<Record<string, number>> = { min: 0, mid: 0.5, max: 1 };

/** The map from the units of `box` to those in which the viewport is `width` by `height` at the origin. */
export function fitted(box: ViewBox, width: number, height: number, preserveAspectRatio = ''): Matrix {
  const scaleX = width / box.width;
  const scaleY = height / box.height;
  const match = /^\s*(?:defer\s+)?(none|x(min|mid|max)y(min|mid|max))(?:\s+(meet|slice))?\s*$/i.exec(
    preserveAspectRatio,
  );
  if (match?.[1].toLowerCase() === 'none') return [scaleX, 0, 0, scaleY, -box.x * scaleX, -box.y * scaleY];
  const scale = match?.[4]?.toLowerCase() === 'slice' ? Math.max(scaleX, scaleY) : Math.min(scaleX, scaleY);
  const shareX = share[match?.[2].toLowerCase() ?? 'mid'];
  const shareY = share[match?.[3].toLowerCase() ?? 'mid'];
  const dx = (width - box.width * scale) * shareX;
  const dy = (height - box.height * scale) * shareY;
  return [scale, 0, 0, scale, dx - box.x * scale, dy - box.y * scale];
}
