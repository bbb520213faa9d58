/** A spacing that was asked for, or is stored with the motif, judged: against the clearance and the batting's limit. */
import type { Layout } from '../../shared/layout.js';
import type { Point } from '../../shared/plane.js';
import { type ChosenRows, chosenRows, keepsClear, type RowsAtSpacing } from '../../shared/rows.js';
import type { Say } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';

export interface JudgedRows extends ChosenRows {
  readonly spacingMm: number;
  readonly rows: RowsAtSpacing;
  /** How near two neighbouring rows come, mm, 0 where they cross, and where. */
  readonly leastMm: number;
  readonly at: Point;
  readonly clear: boolean;
}

/** Null where no spacing was asked for in this layout, nor one is stored for it. */
export function judgedRows(study: Study, layout: Layout): JudgedRows | null {
  const chosen = chosenRows(study.motif, { ...study.setup, layout });
  const { spacingMm, clearanceMm } = chosen;
  if (spacingMm === null) return null;
  const { leastMm, at } = study.rowDistance(layout, spacingMm);
  const rows = study.rowsAt(layout, spacingMm);
  return { ...chosen, spacingMm, rows, leastMm, at, clear: keepsClear(leastMm, clearanceMm) };
}

/** "At 2 in (50.8 mm), brick rows cross; the largest open circle is 7/8 in (22.6 mm)." */
export function judgementWords(judged: JudgedRows, battingMm: number | null, say: Say): string {
  const { layout, spacingMm, clearanceMm, leastMm, rows, clear } = judged;
  const tooOpen = battingMm !== null && rows.largestOpenMm > battingMm;
  const limit = tooOpen ? `, more than the ${say.length(battingMm)} that the batting allows` : '';
  const open = `the largest open circle is ${tooOpen ? say.beside(rows.largestOpenMm, battingMm) : say.length(rows.largestOpenMm)}${limit}`;
  const at = `At ${say.length(spacingMm)}, ${layout} rows`;
  if (leastMm === 0) return `${at} cross; ${open}.`;
  const near = `${say.beside(leastMm, clearanceMm)} apart at the nearest`;
  if (clear) return `${at} keep clear of each other, ${near}; ${open}.`;
  return `${at} come too near to each other, ${near}, where the clearance is ${say.length(clearanceMm)}; ${open}.`;
}
