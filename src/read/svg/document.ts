import type { Limits } from '../../../shared/setup.js';
import type { Declaration } from './declarations.js';
import type { SvgNode } from './node.js';

/** One file being read: what every part of the drawing needs to know of the whole. */
export interface Document {
  /** Named in complaints. */
  readonly file: string;
  readonly limits: Limits;
  /** Elements by their id; of two the first. */
  readonly byId: ReadonlyMap<string, SvgNode>;
  /** The style sheets' declarations for an element, weakest first. */
  readonly matchRules: (node: SvgNode) => readonly Declaration[];
}
