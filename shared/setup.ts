/**
 * The setup: everything a user can choose, with its default. Lengths are millimetres. Rule severities and limits
 * can be overridden here; what they are by default stands in the rule's own file.
 */
import { everyLine, type LineChoice, type Take } from './artwork.js';
import type { Severity } from './finding.js';
import type { Layout } from './layout.js';

export type LengthUnit = 'in' | 'mm';

export interface Setup extends LineChoice {
  readonly unit: LengthUnit;
  /** Working height or width; at most one of them is set. */
  readonly heightMm: number | null;
  readonly widthMm: number | null;
  readonly take: Take;
  /** Of pictures: dots to the inch, before what the file states; or null. */
  readonly dpi: number | null;
  /** Of pictures: ink is what is darker than this share of the way from paper to ink. */
  readonly ink: number | null;
  readonly flattenMm: number;
  readonly joinToleranceMm: number;
  /** What new line that links weighs against line stitched twice, length for length. */
  readonly linkWeight: number;
  /** How far the mend `smooth` may move a shaky line, or null where it is not wanted. */
  readonly smoothMm: number | null;
  readonly stitchesPerInch: number;
  /** Top, batting and backing together, pressed as they are sewn: T in the thread formula. */
  readonly quiltThicknessMm: number;
  /** Added to the thread for waste. */
  readonly threadWastePercent: number;
  /** Usable depth of the throat, or null where none was given. */
  readonly throatMm: number | null;
  readonly clearanceMm: number;
  /** Whether somebody said so: a clearance stored with the motif then gives way. */
  readonly clearanceSaid: boolean;
  /** The open circle wanted between rows of a motif that closes no pocket of its own. */
  readonly gapMm: number;
  /** Row spacing asked for, or null. */
  readonly spacingMm: number | null;
  readonly layout: Layout | null;
  /** Largest open circle (diameter) the batting's label allows, or null where none was given. */
  readonly battingMm: number | null;
  /** Diameter of the empty take-up roller. */
  readonly rollerMm: number;
  /** Of the throat, kept free. */
  readonly reserveMm: number;
  /** How far the stitching goes past the top on every side. */
  readonly marginMm: number;
  /** Thread on a bobbin, or null where it was not given. */
  readonly bobbinMm: number | null;
  /** Stitches a minute, or null. */
  readonly speed: number | null;
  /** Of a square inch of the top, or with `unit` mm of a square metre; or null. */
  readonly price: number | null;
  readonly rules: Readonly<Record<string, RuleSetting>>;
  readonly limits: Limits;
}

export interface RuleSetting {
  readonly severity?: Severity | 'off';
  /** Overrides by name; each is one of the rule's own limits. */
  readonly limits?: Readonly<Record<string, number>>;
}

/** What bounds the work, so that hostile or broken input ends in one sentence. */
export interface Limits {
  readonly fileBytes: number;
  readonly elements: number;
  readonly nesting: number;
  readonly useCopies: number;
  readonly entityBytes: number;
  readonly points: number;
  /** As drawn: thousands of them may join into one. */
  readonly lines: number;
  /** Strokes, where the ends that meet are joined; more is no motif. */
  readonly pieces: number;
  /** Pieces of the line between the places where it meets itself, for a mend that finds one line through them. */
  readonly routed: number;
  readonly crossings: number;
  readonly stitches: number;
  readonly overhangingRepeats: number;
  /** Pairs of passes in square millimetres that a dozen and more run through, all told; more is no motif. */
  readonly pairsOfPasses: number;
  /** Of many files one that takes longer is given up, so that the others are done. */
  readonly secondsAFile: number;
}

export const defaultLimits: Limits = {
  fileBytes: 64 * 2 ** 20,
  elements: 2_000_000,
  nesting: 1_000,
  useCopies: 100_000,
  entityBytes: 10 * 2 ** 20,
  points: 5_000_000,
  lines: 100_000,
  pieces: 50_000,
  routed: 8_000,
  crossings: 1_000_000,
  stitches: 10_000_000,
  overhangingRepeats: 10_000,
  pairsOfPasses: 5_000_000,
  secondsAFile: 120,
};

export const defaultSetup: Setup = {
  unit: 'in',
  heightMm: null,
  widthMm: null,
  take: 'auto',
  ...everyLine,
  dpi: null,
  ink: null,
  flattenMm: 0.01,
  joinToleranceMm: 1,
  linkWeight: 2,
  smoothMm: null,
  stitchesPerInch: 11,
  quiltThicknessMm: 3,
  threadWastePercent: 10,
  throatMm: null,
  clearanceMm: 3,
  clearanceSaid: false,
  gapMm: 25.4,
  spacingMm: null,
  layout: null,
  battingMm: null,
  rollerMm: 63.5,
  reserveMm: 0,
  marginMm: 25.4,
  bobbinMm: null,
  speed: null,
  price: null,
  rules: {},
  limits: defaultLimits,
};

/** One stitch, mm. */
export function stitchLengthMm(setup: Pick<Setup, 'stitchesPerInch'>): number {
  return 25.4 / setup.stitchesPerInch;
}
