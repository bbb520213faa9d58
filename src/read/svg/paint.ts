/** Paint: all that matters of a colour here is whether it can be seen. */
import { isColourName } from './colour-names.js';
import type { SvgNode } from './node.js';

/**
 * `none`: no paint; `clear`: a fully transparent colour; `solid`: can be seen, also partly transparent ones, patterns
 * and gradients; `current`: whatever the `color` property says; `context-…`: whatever the `use` is painted with.
 */
export type Paint = 'none' | 'clear' | 'solid' | 'current' | 'context-fill' | 'context-stroke';

/** Whether an element can be painted with: a gradient without a stop paints nothing (SVG 2, 14.2.4). */
export function isPaintServer({ name, children, attributes }: SvgNode): boolean {
  if (name === 'pattern' || name === 'meshgradient' || name === 'hatch' || name === 'solidcolor') return true;
  if (name !== 'linearGradient' && name !== 'radialGradient') return false;
  return (
    children.some((child) => child.name === 'stop') ||
    (attributes.href ?? attributes['xlink:href']) !== undefined
  );
}

/** The paint, or null where the text is no paint at all (the declaration then counts for nothing). */
export function parsePaint(text: string, isPaint: (id: string) => boolean): Paint | null {
  const paint = text.trim().toLowerCase();
  if (paint === 'none') return 'none';
  if (paint === 'currentcolor') return 'current';
  if (paint === 'context-fill' || paint === 'context-stroke') return paint;
  if (!paint.startsWith('url(')) return parseColour(paint);
  const match = /^url\(\s*(["']?)([^"')]*)\1\s*\)/i.exec(text.trim());
  if (!match) return null;
  if (match[2].startsWith('#') && isPaint(match[2].slice(1))) return 'solid';
  // What is there but is no paint counts as missing (SVG 2, 13.2).
  const fallback = paint.slice(match[0].length).trim();
  if (fallback === '' || fallback === 'none') return 'none';
  return fallback === 'currentcolor' ? 'current' : parseColour(fallback);
}

/**
 * `clear` or `solid`, or null where it is no colour. `text` is lower case and trimmed. A colour may have the same in a
 * colour profile after it (SVG 1.1, section 11.2), which does not matter here.
 */
export function parseColour(paint: string): 'clear' | 'solid' | null {
  const text = paint.replace(/(?<=\S)\s+icc-color\([^)]*\)$/, '');
  if (text === 'transparent') return 'clear';
  if (text.startsWith('#')) return hexColour(text.slice(1));
  const open = text.indexOf('(');
  if (open < 0) return isColourName(text) ? 'solid' : null;
  if (!/^(?:rgba?|hsla?|hwb|lab|lch|oklab|oklch|color|icc-color|device-cmyk)$/.test(text.slice(0, open)))
    return null;
  return functionAlpha(text.slice(open + 1)) === 0 ? 'clear' : 'solid';
}

function hexColour(digits: string): 'clear' | 'solid' | null {
  if (!/^(?:[\da-f]{3,4}|[\da-f]{6}|[\da-f]{8})$/.test(digits)) return null;
  const alpha = digits.length === 4 ? digits[3] : digits.length === 8 ? digits.slice(6) : 'f';
  return /^0+$/.test(alpha) ? 'clear' : 'solid';
}

/** The alpha of a colour function's arguments: after a slash, or the fourth after commas; 1 where there is none. */
function functionAlpha(args: string): number {
  const inside = args.split(')')[0];
  const alpha = inside.includes('/') ? inside.split('/')[1] : inside.split(',')[3];
  return alpha === undefined ? 1 : Number.parseFloat(alpha);
}
