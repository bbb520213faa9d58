/** Paint: all that matters of a colour here is whether it can be seen. */
import { isColourName } from './colour-names.js';

/**
 * `none`: no paint; `clear`: a fully transparent colour; `solid`: can be seen, also partly transparent ones, patterns
 * and gradients; `current`: whatever the `color` property says.
 */
export type Paint = 'none' | 'clear' | 'solid' | 'current';

/** The paint, or null where the text is no paint at all (the declaration then counts for nothing). */
export function parsePaint(text: string, exists: (id: string) => boolean): Paint | null {
  const paint = text.trim().toLowerCase();
  if (paint === 'none') return 'none';
  if (paint === 'currentcolor') return 'current';
  if (paint.startsWith('context-')) return 'solid';
  if (!paint.startsWith('url(')) return parseColour(paint);
  const match = /^url\(\s*(["']?)([^"')]*)\1\s*\)/i.exec(text.trim());
  if (!match) return null;
  if (match[2].startsWith('#') && exists(match[2].slice(1))) return 'solid';
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
