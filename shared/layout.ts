/** How rows follow one another down the quilt. */

export const layouts = ['straight', 'brick', 'mirrored', 'turned'] as const;
export type Layout = (typeof layouts)[number];

/** The rows chosen for a motif. */
export interface RowChoice {
  readonly layout: Layout;
  /** Row spacing, mm. */
  readonly spacing: number;
  /** mm */
  readonly clearance: number;
}
