/** What the page asks its worker, and what it is answered. Plain data, so that it can be posted. */
import type { Finding, MendName } from '../../shared/finding.js';
import type { Layout } from '../../shared/layout.js';
import type { Quilt } from '../../shared/plan.js';
import type { Point, Polyline } from '../../shared/plane.js';
import type { Credit } from '../../shared/provenance.js';
import type { OpenCircle } from '../../shared/rows.js';
import type { Scan } from '../../shared/scan.js';
import type { Status } from '../lint/report.js';
import type { Row } from '../rows/index.js';
import type { Asked, Change, Choices } from './choices.js';

export interface Asking {
  readonly id: number;
  readonly choices: Choices;
}

export const savings = [
  'motif',
  'svg',
  'curves',
  'dxf',
  'csv',
  'png',
  'rows',
  'sheet',
  'paper',
  'plan sheet',
  'plan',
  'passes',
  'passes dxf',
  'rest',
  'aligned',
] as const;
export type Saving = (typeof savings)[number];

export interface Questions {
  look: { readonly asked: Asking; readonly answer: Look };
  offers: {
    /** `only`: the mends that are ticked; null where all are. */
    readonly asked: Asking & { readonly only: readonly MendName[] | null };
    readonly answer: Offers;
  };
  rows: { readonly asked: Asking; readonly answer: Rows };
  spacing: {
    readonly asked: Asking & { readonly layout: Layout; readonly spacingMm: number };
    readonly answer: RowsSeen;
  };
  plan: { readonly asked: Asking; readonly answer: PlanSeen };
  rest: { readonly asked: Asking; readonly answer: RestSeen };
  aligned: { readonly asked: Asking; readonly answer: AlignedSeen };
  save: {
    readonly asked: Asking & { readonly what: Saving; readonly name: string };
    readonly answer: readonly Saved[];
  };
}
export type Kind = keyof Questions;

/** The motif as it is now, and what is to be said of it. */
export interface Look {
  readonly name: string;
  readonly credit: Credit;
  readonly strokes: readonly Polyline[];
  /** What the line was traced from, if it was. */
  readonly scan: Scan | undefined;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly assumedSize: boolean;
  readonly findings: readonly Finding[];
  readonly status: Status;
  /** The numbers in sentences, each with a heading before its colon. */
  readonly facts: readonly string[];
  /** What each of the changes did. */
  readonly done: readonly (readonly string[])[];
  readonly flaws: Readonly<Partial<Record<Asked, string>>>;
}

export interface Offers {
  readonly ways: readonly Offer[];
  /** What none of them can put right, each with why. */
  readonly leaves: readonly string[];
  /** The findings without advice that was tried in vain; null where none was. */
  readonly findings: readonly Finding[] | null;
}

/** A change that would help, with what it would do. */
export interface Offer {
  readonly change: Change;
  readonly title: string;
  readonly does: readonly string[];
  /** SVG text, before and after. */
  readonly picture: string;
  readonly before: Status;
  readonly after: Status;
}

export interface Rows {
  readonly row: Row;
  readonly recommended: Layout;
  readonly advice: readonly string[];
  readonly layouts: readonly LayoutSeen[];
  readonly clearanceMm: number;
  /** What is chosen now: by the person, stored with the motif, or recommended. */
  readonly layout: Layout;
  readonly spacingMm: number;
}

export interface LayoutSeen {
  readonly layout: Layout;
  readonly closestMm: number;
  readonly evenMm: number;
  readonly unevenness: number;
  readonly openMm: number;
  /** SVG text. */
  readonly picture: string;
}

export interface RowsSeen {
  readonly layout: Layout;
  readonly spacingMm: number;
  readonly leastMm: number;
  readonly leastAt: Point;
  readonly clear: boolean;
  readonly inner: OpenCircle | null;
  readonly seam: OpenCircle | null;
  readonly largestOpenMm: number;
  readonly unevenness: number;
}

export interface PlanSeen {
  /** SVG text; null where there is no plan. */
  readonly picture: string | null;
  /** Why there is none, or what is wrong with it all the same. */
  readonly error: string | null;
  readonly choices: readonly string[];
  readonly chosen: number;
  readonly set: string;
  /** Where the motif's size, and with it every figure here, is a guess. */
  readonly assumedSize: readonly string[];
  /** Where more stays open than the batting allows, and where there is no throat to tell passes by: what to do. */
  readonly open: readonly string[];
  readonly noThroat: readonly string[];
  readonly passes: readonly string[];
  /** Of the rows of each pass, from top to bottom, mm. */
  readonly spansMm: readonly (readonly [number, number])[];
  readonly quilt: Quilt | null;
  readonly sums: readonly string[];
}

export const noPlan: PlanSeen = {
  picture: null,
  error: null,
  choices: [],
  chosen: 1,
  set: '',
  assumedSize: [],
  open: [],
  noThroat: [],
  passes: [],
  spansMm: [],
  quilt: null,
  sums: [],
};

/** What is left of a pass after a break. */
export interface RestSeen {
  /** SVG text; null where it is not yet known what is left. */
  readonly picture: string | null;
  readonly words: string | null;
  /** The times that the line comes by, where it does so more than once. */
  readonly ways: readonly string[];
  readonly error: string | null;
}

/** A pass lined up after rolling on. */
export interface AlignedSeen {
  /** Where its two places lie in the plan, on the left and on the right. */
  readonly expected: readonly [string, string] | null;
  /** How it is turned and moved, once both were found. */
  readonly words: readonly string[];
  readonly error: string | null;
}

export interface Saved {
  readonly name: string;
  readonly type: string;
  readonly text: string | Uint8Array;
  /** The text is a picture, to be saved as pixels so wide. */
  readonly pixels?: number;
}
