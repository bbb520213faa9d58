/**
 * What a line looks like, as far as people tell lines apart by it: its colour, whether it is dashed, and the layers it
 * lies in. By that lines are chosen, and lines that look like guides are named.
 */
import colorString from 'color-string';
import { everyLine, type LineChoice } from '../../../shared/artwork.js';
import type { Point } from '../../../shared/plane.js';
import { coincideMm } from '../../../shared/study.js';
import { Op, type Subpath } from '../../../shared/subpath.js';
import { distanceBetween } from '../../geometry/point.js';
import { once } from '../../once.js';
import type { DrawnApart, Intake } from './intake.js';

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
interface LookedAlike {
  readonly look: Look;
  readonly paths: readonly Subpath[];
  readonly lengthMm: number;
  /** Whether every line of the kind is straight, or a box of straight sides along the page. */
  readonly plain: boolean;
}

/**
 * Names the lines that look like guides, `all` being those that are read, by their look. They are drawn apart from the
 * kind with the most line to it: dashed where that is not, or plain straight lines in a colour or in a layer of their
 * own, but for those that link two others.
 */
export function nameGuides(all: Iterable<readonly [Look, readonly Subpath[]]>, intake: Intake): void {
  const kinds = Array.from(all, ([look, paths]) => ({
    look,
    paths,
    lengthMm: paths.reduce((sum, path) => sum + reachOf(path), 0),
    plain: paths.every(isPlain),
  }));
  if (kinds.length < 2) return;
  const main = mainAmong(kinds);
  const apart = kinds.map((kind) => apartBy(kind, main));
  const isLink = linksBetween(kinds.flatMap(({ paths }, i) => (apart[i] === null ? paths : [])));
  const guides = kinds.map(({ paths }, i) => {
    if (apart[i] === null) return [];
    return apart[i] === 'dash' ? paths : paths.filter((path) => !isLink(path));
  });
  const kept = kinds.filter(({ paths }, i) => guides[i].length < paths.length);
  const remedies = remediesFor(main, kept);
  kinds.forEach(({ look }, i) => {
    const by = apart[i];
    if (by === null) return;
    const { option, choice } = remedies[by];
    const remedy = choice && unchosen(look, choice) ? option : undefined;
    const name = by === 'layer' ? `"${look.layers.at(-1)}"` : colourName(look.colour);
    for (const path of guides[i]) intake.guide(by, name, remedy, startAt(path));
  });
}

/** Whether a path goes from where one of the lines ends to where another does. */
function linksBetween(lines: readonly Subpath[]): (path: Subpath) => boolean {
  const place = (x: number, y: number) => `${Math.round(x / coincideMm)} ${Math.round(y / coincideMm)}`;
  const endsOf = ({ coords }: Subpath) => [
    place(coords[0], coords[1]),
    place(coords[coords.length - 2], coords[coords.length - 1]),
  ];
  const endingAt = once(() => {
    const lineAt = new Map<string, Subpath | 'several'>();
    for (const line of lines)
      for (const end of endsOf(line)) lineAt.set(end, (lineAt.get(end) ?? line) === line ? line : 'several');
    return lineAt;
  });
  return (path) => {
    const [from, to] = endsOf(path);
    const [a, b] = [endingAt().get(from), endingAt().get(to)];
    return from !== to && a !== undefined && b !== undefined && (a !== b || a === 'several');
  };
}

/** The kind with the most line to it, among those that are no guides by themselves where there are any. */
function mainAmong(kinds: readonly LookedAlike[]): LookedAlike {
  const among = [
    kinds.filter(({ plain, look }) => !plain && !look.dashed),
    kinds.filter(({ look }) => !look.dashed),
    kinds,
  ].find((some) => some.length > 0)!;
  return among.reduce((most, kind) => (kind.lengthMm > most.lengthMm ? kind : most));
}

function apartBy({ look, plain }: LookedAlike, main: LookedAlike): DrawnApart | null {
  if (look.dashed && !main.look.dashed) return 'dash';
  if (!plain || main.plain) return null;
  if (colourName(look.colour) !== colourName(main.look.colour)) return 'colour';
  const layer = look.layers.at(-1);
  return layer === undefined || layer === main.look.layers.at(-1) ? null : 'layer';
}

/** For each way of being drawn apart the option, and the choice it makes; null where that would leave out others as well. */
function remediesFor({ look: { colour, layers } }: LookedAlike, kept: readonly LookedAlike[]) {
  const remedy = (option: string, some: Partial<LineChoice>) => {
    const choice = { ...everyLine, ...some };
    return { option, choice: kept.every(({ look }) => unchosen(look, choice) === null) ? choice : null };
  };
  const [name, layer] = [colourName(colour), layers.at(-1) ?? ''];
  return {
    dash: remedy('--skip-dashed', { skipDashed: true }),
    colour: remedy(`--colour "${name}"`, { colours: [name] }),
    layer: remedy(`--layer "${layer}"`, { layers: [layer] }),
  };
}

/** How far a path reaches from point to point, mm; of curves a rough length, which is all that is asked here. */
function reachOf({ coords }: Subpath): number {
  let sum = 0;
  for (let i = 2; i + 1 < coords.length; i += 2)
    sum += distanceBetween(coords[i - 2], coords[i - 1], coords[i], coords[i + 1]);
  return sum;
}

/** One straight line, or straight sides along the page. */
function isPlain({ ops, coords }: Subpath): boolean {
  if (ops.some((op) => op !== Op.line)) return false;
  if (ops.length === 1) return true;
  for (let i = 2; i < coords.length; i += 2)
    if (coords[i] !== coords[i - 2] && coords[i + 1] !== coords[i - 1]) return false;
  return true;
}

export function startAt({ coords }: Subpath): Point {
  return { x: coords[0], y: coords[1] };
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
