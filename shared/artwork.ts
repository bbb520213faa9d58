import type { RowChoice } from './layout.js';
import type { Point } from './plane.js';
import type { Credit, MendRecord, Source } from './provenance.js';
import type { Scan } from './scan.js';
import type { Subpath } from './subpath.js';

/**
 * What a file draws, before a working size is chosen: lines and curves in millimetres at the size the file states
 * (or at 96 units to the inch where it states none), in the order of the file. Importers make it.
 */
export interface Artwork {
  /** Base name of the file without its extension. */
  readonly name: string;
  /** The lines to stitch: already chosen by `take`, styles and transforms resolved. */
  readonly lines: readonly Subpath[];
  /** True where neither the file, nor the one that its motif was made from, states a real size. */
  readonly assumedSize: boolean;
  /** What was taken then, where that is known: a motif file does not keep it. */
  readonly assumedScale?: AssumedScale;
  /** Width and height the file states for its page, in mm, or null. The drawing need not fill it. */
  readonly statedSizeMm: readonly [number, number] | null;
  readonly credit: Credit;
  /** What a careful reader noticed on the way in; the rules judge it. */
  readonly notes: readonly IntakeNote[];
  /** Only from pictures. */
  readonly scan?: Scan;
  /** Only from motif files: what went along with the motif. */
  readonly carried?: Carried;
}

/** The scale taken where a file states none, and the other one in use. */
export interface AssumedScale {
  /** In words: "1 mm to the unit". */
  readonly taken: string;
  readonly other: string;
  /** How many times as large the drawing is in the other. */
  readonly timesAsLarge: number;
}

/** What a motif file carries from motif to motif. */
export interface Carried {
  readonly name?: string;
  readonly source?: Source;
  readonly rows?: RowChoice;
  readonly mended: readonly MendRecord[];
  /** The flattening the strokes were made with, mm. */
  readonly flattenMm?: number;
  /** Keys this version does not know, kept as they came. */
  readonly unknown: Readonly<Record<string, unknown>>;
}

/**
 * - `hidden`: a line the file hides; `what` says how (not displayed, invisible, transparent, no paint)
 * - `text`, `image`, `other`: drawn in the file, but no line: named in `what`
 * - `unchosen`: a line that was not asked for by its layer, colour or dash; `what` says which
 * - `guide`: a line that is read, but looks like a guide; `remedy` is the option that leaves it out, where one does
 * - `outlines`: a painted shape without a line that was read by its outline
 * - `fill`: a painted shape without a line that was left out
 * - `dot`: a path of one point
 * - `cut`: a clip or mask that cuts something; the line is read whole
 * - `broken-path`: path data or a point list that breaks off, `offset` is the character, counted from 1; without one,
 *   an entity that is damaged or not whole and was left out
 * - `not-flat`: a line that does not lie in a plane seen from above, and was taken so
 * - `missing`: a reference that leads nowhere or back to itself
 * - `no-namespace`: the root is `svg` without the SVG namespace
 */
export type IntakeKind =
  | 'hidden'
  | 'text'
  | 'image'
  | 'other'
  | 'unchosen'
  | 'guide'
  | 'outlines'
  | 'fill'
  | 'dot'
  | 'cut'
  | 'not-flat'
  | 'broken-path'
  | 'missing'
  | 'no-namespace';

/** Notes of the same kind and `what` are gathered into one, so that a million hidden lines are one note. */
export interface IntakeNote {
  readonly kind: IntakeKind;
  /** In plain words: "text", "picture", "not displayed", "path 'leaf-3'". */
  readonly what: string;
  readonly count: number;
  /** Where, in millimetres of the artwork; the first twenty, none where there is no place to tell. */
  readonly places: readonly Point[];
  /** Line of the file on which the first one stands, counted from 1, where known. */
  readonly fileLine?: number;
  /** `broken-path`: the character of the path data at which reading stopped, counted from 1. */
  readonly offset?: number;
  /** `guide`, `outlines`: the option that leaves it out, where one does. */
  readonly remedy?: string;
  /** `unchosen`: the name of the layer it lies in, and its colour, where it has them. */
  readonly layer?: string;
  readonly colour?: string;
}

/** Which of a file's lines are to be stitched; where nothing is named, all. */
export interface LineChoice {
  /** Names of layers, in any case of letters. */
  readonly layers: readonly string[];
  /** Colours as style sheets write them. */
  readonly colours: readonly string[];
  readonly skipDashed: boolean;
}

export const everyLine: LineChoice = { layers: [], colours: [], skipDashed: false };

export type Take = 'lines' | 'shapes' | 'auto';
