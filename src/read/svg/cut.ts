/**
 * Clips and masks. The line is stitched whole, so all that is asked here is whether a clip takes away any of it:
 * a drawing program often clips a page to its own edges, which cuts nothing and is not worth a word.
 */
import type { Subpath } from '../../../shared/subpath.js';

export interface Cut {
  /** In plain words: "clip 'page'". */
  readonly what: string;
  /** Whether any of the line lies outside. */
  cuts(line: Subpath): boolean;
}

export function cutsOf(): Cut[] {
  return [];
}
