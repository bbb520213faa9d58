/** Where a motif comes from, and what happened to it since. */

export interface Credit {
  readonly title?: string;
  readonly creator?: string;
  readonly rights?: string;
  /** The file's own description, where it has one. */
  readonly description?: string;
}

export interface Source {
  readonly file: string;
  readonly sha256: string;
  readonly statedSize: readonly [number, number] | null;
}

export interface MendRecord {
  readonly mend: string;
  readonly addedMm: number;
  readonly movedMm: number;
}
