import type { Flavour } from '../flavours.js';
import type { Stroke } from '../stroke.js';

/** One motif of the studio: its line in millimetres, its credits, and the flavour its file is written in. */
export interface MotifDrawing {
  /** File name without the ending. */
  readonly name: string;
  readonly title: string;
  readonly creator: string;
  readonly description: string;
  readonly flavour: Flavour;
  readonly stroke: Stroke;
}
