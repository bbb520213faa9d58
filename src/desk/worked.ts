import type { Motif } from '../../shared/motif.js';
import type { Study } from '../../shared/study.js';

/** What a file and choices come to. */
export interface Worked {
  readonly motif: Motif;
  readonly study: Study;
  /** What each of the changes did. */
  readonly done: readonly (readonly string[])[];
}
