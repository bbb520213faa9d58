/**
 * What a line looks like, as far as people tell lines apart by it: its colour, whether it is dashed, and the layers it
 * lies in. By that lines are chosen, and lines that look like guides are named.
 */
import colorString from 'color-string';
import type { LineChoice } from '../../../shared/artwork.js';

export interface Look {
  /** As the file writes it, in lower case. */
  readonly colour: string;
  readonly dashed: boolean;
  /** Names of the groups around it, outermost first. */
  readonly layers: readonly string[];
}

/** One name for each colour: `#rrggbb`, or the text itself where it is a gradient or a colour of another space. */
export function colourName(text: string): string {
  const read = colorString.get.rgb(text.trim());
  return read
    ? (colorString.to.hex(read[0], read[1], read[2])?.toLowerCase() ?? text)
    : text.trim().toLowerCase();
}

/** Why a line was not chosen, in the words of a note, and the name it goes by; null where it was. */
export function unchosen({ colour, dashed, layers }: Look, choice: LineChoice): Unchosen | null {
  if (choice.skipDashed && dashed) return { why: 'dashed', named: {} };
  const isNamed = (wanted: string) =>
    layers.some((name) => name.toLowerCase() === wanted.trim().toLowerCase());
  if (choice.layers.length > 0 && !choice.layers.some(isNamed))
    return { why: 'in another layer', named: { layer: layers[0] } };
  const name = colourName(colour);
  if (choice.colours.length > 0 && !choice.colours.some((wanted) => colourName(wanted) === name))
    return { why: 'in another colour', named: { colour: name } };
  return null;
}

export interface Unchosen {
  readonly why: string;
  readonly named: { readonly layer?: string; readonly colour?: string };
}

/** A kind of line in a drawing, and all it holds. */
export interface LookedAlike {
  readonly look: Look;
  readonly lengthMm: number;
  /** Whether every line of the kind is straight, or a box of straight sides along the page. */
  readonly plain: boolean;
}

/** The kind with the most line to it, among those that are no guides by themselves where there are any. */
export function mainAmong<T extends LookedAlike>(kinds: readonly T[]): T {
  const among = [
    kinds.filter(({ plain, look }) => !plain && !look.dashed),
    kinds.filter(({ look }) => !look.dashed),
    kinds,
  ].find((some) => some.length > 0)!;
  return among.reduce((most, kind) => (kind.lengthMm > most.lengthMm ? kind : most));
}

export interface Guide {
  /** In words: "dashed line", "line in colour #0000ff". */
  readonly what: string;
  /** How to leave it out. */
  readonly remedy: string;
}

/**
 * Whether a kind of line looks like guides beside the kind with the most line to it: dashed where that is not, or plain
 * straight lines in a colour or in a layer of their own.
 */
export function guideIn(kind: LookedAlike, main: LookedAlike): Guide | null {
  const [own, others] = [kind.look, main.look];
  if (own.dashed && !others.dashed) return { what: 'dashed line', remedy: '--skip-dashed' };
  if (!kind.plain || main.plain) return null;
  const colour = colourName(own.colour);
  if (colour !== colourName(others.colour))
    return {
      what: `straight line in the colour ${colour}`,
      remedy: `--colour "${colourName(others.colour)}"`,
    };
  const layer = own.layers.at(-1);
  const mainLayer = others.layers.at(-1);
  if (layer === undefined || mainLayer === undefined || layer === mainLayer) return null;
  return { what: `straight line in the layer "${layer}"`, remedy: `--layer "${mainLayer}"` };
}

/** Lines of one key look alike. */
export function lookKey({ colour, dashed, layers }: Look): string {
  return JSON.stringify([colourName(colour), dashed, layers.at(-1) ?? null]);
}

/** Whether a dash pattern leaves any gap. */
export function isDashed(pattern: string): boolean {
  const lengths = pattern
    .trim()
    .split(/[\s,]+/)
    .map(Number.parseFloat)
    .filter((mm) => Number.isFinite(mm));
  // An odd number of lengths is gone through twice, so that each of them is a gap once.
  return lengths.some((mm, i) => mm > 0 && (lengths.length % 2 === 1 || i % 2 === 1));
}
