import type { Motif } from '../../shared/motif.js';
import type { Study } from '../../shared/study.js';
import type { Brought } from '../tasks/motif-from.js';
import type { Choices } from './choices.js';

/** A file, the choices made for it, and what they come to. */
export interface Worked {
  readonly file: Brought;
  readonly choices: Choices;
  readonly motif: Motif;
  readonly study: Study;
  /** What each of the changes did. */
  readonly done: readonly (readonly string[])[];
  /** The same with curves drawn a little finer, for a plan that may make the motif larger by this share. */
  readonly finer: (share: number) => Promise<Pick<Worked, 'motif' | 'study'>>;
}
