/** The page that people read: 80 columns, colour on a terminal only, nothing of a file's text taken for a command. */

import stringWidth from 'fast-string-width';
import { wrapAnsi } from 'fast-wrap-ansi';
import { createColors } from 'picocolors';

export const columns = 80;

export interface Page {
  readonly isColoured: boolean;
  readonly paint: ReturnType<typeof createColors>;
  /** Text from outside with its control characters shown, not obeyed. */
  plain(text: string): string;
  /** A paragraph in lines of 80 columns: the first after `first`, the others after `rest`. */
  wrap(text: string, first?: string, rest?: string): string;
  /** One line of 80 columns, cut with an ellipsis where there is more, but never within `whole`, its beginning. */
  fit(text: string, whole: string): string;
}

/** The page for a stream; `NO_COLOR` (no-color.org) and a dumb terminal keep it black and white. */
export function pageOn(stream: { readonly isTTY?: boolean }, env: NodeJS.ProcessEnv = process.env): Page {
  const colour = stream.isTTY === true && !env.NO_COLOR && env.TERM !== 'dumb';
  return { isColoured: colour, paint: createColors(colour), plain, wrap, fit };
}

/** Control characters, and those that turn the direction of writing round, as `\u001b`. */
export function plain(text: string): string {
  return text.replace(
    // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
    /[\u0000-\u001f\u007f-\u009f\u200e\u200f\u2028-\u202e\u2066-\u2069]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, '0')}`,
  );
}

export function wrap(text: string, first = '', rest = first): string {
  const room = columns - Math.max(stringWidth(first), stringWidth(rest));
  return wrapAnsi(held(text), room, { hard: true })
    .replaceAll(noBreak, ' ')
    .split('\n')
    .map((line, i) => (i === 0 ? first : rest) + line)
    .join('\n');
}

function fit(text: string, whole: string): string {
  if (stringWidth(text) <= columns) return text;
  const room = columns - 2;
  if (stringWidth(whole) > room) return whole;
  const [first] = wrapAnsi(text, room, { hard: true }).split('\n');
  return stringWidth(first) < stringWidth(whole) ? whole : `${first.trimEnd()} …`;
}

const noBreak = '\u00a0';

/** Lengths stay on one line: `9 7/16 in` is read in one go. */
function held(text: string): string {
  return text.replace(/(?<=\d) (?=(?:\d+\/\d+ )?(?:in|mm|m|yd)\b)/g, noBreak);
}
