import type { MendName } from './finding.js';
import type { Motif } from './motif.js';
import type { Point, Polyline } from './plane.js';
import type { Setup } from './setup.js';

/** Ends are joined across at most this share of the shorter stroke, so that small shapes do not collapse. */
export const joinShareOfStroke = 1 / 4;

/** What one mend did. */
export interface MendAccount {
  readonly mend: MendName;
  /** In the mended motif's coordinates, as `added` is. */
  readonly places: readonly Point[];
  /** Line added, mm; negative where line was taken out. */
  readonly addedMm: number;
  /** The farthest any point moved, mm. */
  readonly movedMm: number;
  /** What was done and why, in a sentence. */
  readonly message: string;
  /** The line that was added or is stitched again, for the picture. */
  readonly added: readonly Polyline[];
}

/** What a mend could not put right, and why. */
export interface NotMended {
  readonly mend: MendName;
  readonly message: string;
}

export interface Mend {
  readonly name: MendName;
  /** True where it belongs to the default set, which never changes what the eye sees. */
  readonly safe: boolean;
  readonly what: string;
  /** The mended motif and the account, or null where there is nothing to do. Pure. */
  apply(motif: Motif, setup: Setup, reshape: boolean): MendOutcome | null;
  /**
   * Why a motif in which there is nothing more to mend is still not as it should be, in a sentence; null where it is.
   * `hasMended` says whether this mend did anything to it.
   */
  leaves?(motif: Motif, setup: Setup, hasMended: boolean): string | null;
}

export interface MendOutcome {
  readonly motif: Motif;
  readonly account: MendAccount;
  /** Where a place of the motif before lies in the mended one, whose box may begin elsewhere. */
  place(at: Point): Point;
}
