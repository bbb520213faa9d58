/** Exporters: a motif to the text or bytes of a file. */

import type { Motif } from '../../shared/motif.js';
import type { LinkRange } from '../../shared/plan.js';
import type { Point } from '../../shared/plane.js';
import { toMicron } from '../markup/number-text.js';
import { motifPicture } from '../picture/index.js';
import { writeCsv } from './csv.js';
import { writeDxf } from './dxf.js';
import { writeMotif } from './motif-file.js';
import { writePng } from './png.js';
import { writeSvg } from './svg.js';

export { writeCsv, writeDxf, writeMotif, writePng, writeSvg };

export interface ExportOptions {
  /** Width of a picture. */
  readonly pixels: number;
  /** Where the motif's origin lies in the coordinates that the file carries; its own origin where there is none. */
  readonly place?: Point;
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

/** A new exporter is a file and a line here. */
export const exporters: readonly Exporter[] = [
  { name: 'motif', ending: '.motif.json', write: (motif, { place }) => writeMotif(placed(motif, place)) },
  { name: 'svg', ending: '.svg', write: (motif, { place }) => writeSvg(motif, place) },
  {
    name: 'png',
    ending: '.png',
    write: (motif, { pixels }) => writePng(motifPicture(motif, { widthPx: pixels }), pixels),
  },
  { name: 'dxf', ending: '.dxf', write: (motif, { place, links }) => writeDxf(motif, place, links) },
  { name: 'csv', ending: '.csv', write: (motif, { place }) => writeCsv(motif, place) },
];

/** A motif file says in a key of its own where it lies. */
function placed(motif: Motif, place: Point | undefined): Motif {
  return place
    ? { ...motif, unknown: { ...motif.unknown, place: [toMicron(place.x), toMicron(place.y)] } }
    : motif;
}
