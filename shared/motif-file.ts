/** The motif file, `NAME.motif.json`, as JSON holds it; `motif.schema.json` describes the same for everyone. */

import type { RowChoice } from './layout.js';
import type { Credit, MendRecord, Source } from './provenance.js';

export const motifFormat = 'linewright-motif';
export const motifVersion = 1;

type Pair = readonly [number, number];

/** Lengths and coordinates are millimetres. */
export interface MotifFile {
  readonly format: typeof motifFormat;
  readonly version: typeof motifVersion;
  readonly name?: string;
  readonly unit: 'mm';
  readonly size?: Pair;
  readonly strokes: readonly (readonly Pair[])[];
  readonly repeat?: Pair;
  /** There only where nobody has said how large the motif is. */
  readonly assumedSize?: boolean;
  readonly flatten?: number;
  readonly rows?: RowChoice;
  readonly source?: Omit<Source, 'statedSize'> & Partial<Pick<Source, 'statedSize'>>;
  readonly credit?: Credit;
  readonly mended?: readonly MendRecord[];
}

/** The keys this version knows; all others are kept as they came. */
export const motifKeys: readonly string[] = [
  'format',
  'version',
  'name',
  'unit',
  'size',
  'strokes',
  'repeat',
  'assumedSize',
  'flatten',
  'rows',
  'source',
  'credit',
  'mended',
] satisfies readonly (keyof MotifFile)[];
