import type { IntakeNote, MendRecord } from './artwork.js';
import { boundsOf, moved, type Polyline } from './polyline.js';

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
  readonly statedSizeMm: readonly [number, number] | null;
  /** Millimetres of the motif per millimetre of the artwork it came from. */
  readonly scale: number;
  readonly credit: Credit;
  readonly source?: Source;
  /** The layout and spacing chosen for it, if any. */
  readonly rows?: RowChoice;
  readonly mended: readonly MendRecord[];
  /** Places are in the motif's coordinates. */
  readonly notes: readonly IntakeNote[];
  /** Keys of a motif file that this version does not know, kept as they came. */
  readonly unknown: Readonly<Record<string, unknown>>;
}

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

export const layouts = ['straight', 'brick', 'mirrored', 'turned'] as const;
export type Layout = (typeof layouts)[number];

export interface RowChoice {
  readonly layout: Layout;
  /** Row spacing, mm. */
  readonly spacing: number;
  /** mm */
  readonly clearance: number;
}

/** A motif of these strokes, moved so that their box begins at the origin; `rest` gives what is not the default. */
export function motifOf(strokes: readonly Polyline[], rest: Partial<Omit<Motif, 'strokes'>> = {}): Motif {
  const box = boundsOf(strokes);
  const atOrigin = box.minX === 0 && box.minY === 0;
  const notes = (rest.notes ?? []).map((note) =>
    atOrigin || note.places.length === 0
      ? note
      : { ...note, places: note.places.map(({ x, y }) => ({ x: x - box.minX, y: y - box.minY })) },
  );
  return {
    name: 'motif',
    flattenMm: 0.01,
    assumedSize: false,
    statedSizeMm: null,
    scale: 1,
    credit: {},
    mended: [],
    unknown: {},
    ...rest,
    notes,
    strokes: atOrigin ? strokes : strokes.map((stroke) => moved(stroke, -box.minX, -box.minY)),
    widthMm: box.maxX - box.minX,
    heightMm: box.maxY - box.minY,
  };
}
