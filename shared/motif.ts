import type { AssumedScale, IntakeNote } from './artwork.js';
import type { RowChoice } from './layout.js';
import type { Polyline } from './plane.js';
import type { Credit, MendRecord, Source } from './provenance.js';
import type { Scan } from './scan.js';
import type { Fill } from './subpath.js';

/**
 * A drawing at its working size. The origin is the top-left corner of its bounding box; y runs down the quilt.
 * Strokes are as the file has them, one a subpath: what counts as joined is measured, not stored.
 */
export interface Motif {
  readonly name: string;
  /** Two points or more each. */
  readonly strokes: readonly Polyline[];
  readonly widthMm: number;
  readonly heightMm: number;
  /** No polyline leaves its true curve by more than this. */
  readonly flattenMm: number;
  /** True where neither the file nor the user said how large the motif is. */
  readonly assumedSize: boolean;
  /** What was taken then, where that is known. */
  readonly assumedScale?: AssumedScale;
  readonly statedSizeMm: readonly [number, number] | null;
  /** For each stroke how the shape that it bounds is painted, or null where it is a line; only as long as strokes are as read. */
  readonly fills?: readonly (Fill | null)[];
  /** Millimetres of the motif per millimetre of the artwork it came from. */
  readonly scale: number;
  readonly credit: Credit;
  readonly source?: Source;
  /** The layout and spacing chosen for it, if any. */
  readonly rows?: RowChoice;
  readonly mended: readonly MendRecord[];
  /** Places are in the motif's coordinates. */
  readonly notes: readonly IntakeNote[];
  /** The picture it was traced from, in the motif's coordinates; not kept in files. */
  readonly scan?: Scan;
  /** Keys of a motif file that this version does not know, kept as they came. */
  readonly unknown: Readonly<Record<string, unknown>>;
}
