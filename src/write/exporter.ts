/** What an exporter is. */
import type { Motif } from '../../shared/motif.js';
import type { LinkRange } from '../../shared/plan.js';
import type { Point } from '../../shared/plane.js';

export interface ExportOptions {
  /** Width of a picture. */
  readonly pixels: number;
  /** Where the motif's origin lies in the coordinates that the file carries; its own origin where there is none. */
  readonly place?: Point;
  /** In SVG, few smooth curves instead of all points. */
  readonly curves?: boolean;
  /** What of the strokes is link, for forms that tell it apart. */
  readonly links?: readonly LinkRange[];
}

export interface Exporter {
  /** What `--to` calls it. */
  readonly name: string;
  /** The ending of its files. */
  readonly ending: string;
  write(motif: Motif, options: ExportOptions): string | Promise<Uint8Array>;
}
