import type { Layout } from '../../shared/layout.js';
import type { Motif } from '../../shared/motif.js';
import type { Setup } from '../../shared/setup.js';
import { requireStitchable, studyOf } from '../measure/index.js';

/** The clearance stored with the motif holds where none was said. */
export function withStoredClearance(setup: Setup, { rows }: Pick<Motif, 'rows'>): Setup {
  return rows === undefined || setup.clearanceSaid ? setup : { ...setup, clearanceMm: rows.clearance };
}

/**
 * The layout chosen, with the spacing asked for or the even one, is stored in the motif.
 *
 * @throws Refusal where its line lies on itself in a lump
 */
export function withRows(motif: Motif, layout: Layout, setup: Setup): Motif {
  const study = studyOf(motif, setup);
  requireStitchable(study);
  const spacing = setup.spacingMm ?? study.nesting(layout).evenSpacingMm;
  return { ...motif, rows: { layout, spacing, clearance: setup.clearanceMm } };
}
