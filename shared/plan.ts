/** The plan of a whole quilt, as JSON holds it; `plan.schema.json` describes the same for everyone. */
import type { Layout } from './layout.js';
import type { Polyline } from './plane.js';
import type { Credit } from './provenance.js';

export const planFormat = 'linewright-plan';
export const planVersion = 1;

export type Pair = readonly [number, number];

export const runsOf = ['back-and-forth', 'one-way'] as const;
/** How rows follow one another: to and fro in one stroke a pass, or each a stroke of its own from the left. */
export type Runs = (typeof runsOf)[number];

/** The top, and how far the stitching goes past it. */
export interface Quilt {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly marginMm: number;
}

/** One way to cover the quilt. */
export interface PlanChoice {
  readonly heightMm: number;
  readonly layout: Layout;
  /** Across, start to end, the fewest that cover the field. */
  readonly repeats: number;
  readonly rows: number;
  /** Where the first repeat of row 1 starts. */
  readonly firstMm: Pair;
  readonly spacingMm: number;
  readonly closestSpacingMm: number;
  readonly evenSpacingMm: number;
  readonly largestOpenMm: number;
  /** The openness at that spacing. */
  readonly evenness: number;
  readonly wholeAcross: boolean;
  readonly wholeDown: boolean;
  readonly passes: number;
}

export interface NumberedChoice extends PlanChoice {
  readonly number: number;
  readonly linkMm: number;
  readonly lengthMm: number;
}

/** Points `from` to `to` of a stroke, counted from 0: what is link. */
export type LinkRange = readonly [stroke: number, from: number, to: number];

/** What is stitched without rolling the quilt on. */
export interface Pass {
  readonly pass: number;
  readonly rows: readonly number[];
  readonly topMm: number;
  readonly bottomMm: number;
  readonly usableMm: number | null;
  readonly advanceMm: number;
  readonly startMm: Pair;
  readonly endMm: Pair;
  readonly checkMm: readonly [Pair, Pair] | null;
  readonly lengthMm: number;
  readonly linkMm: number;
  readonly stitches: number;
  readonly needleThreadM: number;
  readonly bobbinThreadM: number;
  readonly minutes: number | null;
  readonly strokes: readonly Polyline[];
  /** In the order of the walk. */
  readonly links: readonly LinkRange[];
}

export interface Bobbins {
  readonly needed: number;
  readonly changeAfterRows: readonly number[];
  readonly runsOutAt: readonly { readonly row: number; readonly atMm: Pair }[];
}

export interface PlanTotals {
  readonly rows: number;
  readonly passes: number;
  readonly lengthMm: number;
  readonly linkMm: number;
  readonly stitches: number;
  readonly needleThreadM: number;
  readonly bobbinThreadM: number;
  readonly minutes: number | null;
  readonly price: number | null;
}

/** Why there is no plan, or what is wrong with it. */
export interface PlanError {
  readonly message: string;
  readonly row: number | null;
  readonly largestHeightMm: number | null;
}

export interface Plan {
  readonly file: string;
  /** There only where nobody has said how large the motif is. */
  readonly assumedSize?: true;
  readonly quilt: Quilt;
  readonly choices: readonly NumberedChoice[];
  readonly chosen: number;
  readonly passes: readonly Pass[];
  readonly bobbins: Bobbins | null;
  readonly totals: PlanTotals;
  readonly stitchesPerInch: number;
  readonly credit: Credit;
}
