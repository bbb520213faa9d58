/** Exporters: a motif to the text of a file. The one to pixels is apart, in `png.ts`: it needs Node. */

import type { Motif } from '../../shared/motif.js';
import type { Point } from '../../shared/plane.js';
import { toMicron } from '../markup/number-text.js';
import { writeCsv } from './csv.js';
import { writeDxf } from './dxf.js';
import { writeMotif } from './motif-file.js';
import { writeSvg } from './svg.js';

export { writeCsv, writeDxf, writeMotif, writeSvg };

export interface ExportOptions {
  /** Width of a picture. */
  readonly pixels: number;
  /** Where the motif's origin lies in the coordinates that the file carries; its own origin where there is none. */
  readonly place?: Point;
}

export interface Exporter {
  /** What `--to` calls it. */
  readonly name: string;
  /** The ending of its files. */
  readonly ending: string;
  write(motif: Motif, options: ExportOptions): string | Promise<Uint8Array>;
}

/** A new exporter is a file and a line here. */
export const textExporters: readonly Exporter[] = [
  { name: 'motif', ending: '.motif.json', write: (motif, { place }) => writeMotif(placed(motif, place)) },
  { name: 'svg', ending: '.svg', write: (motif, { place }) => writeSvg(motif, place) },
  { name: 'dxf', ending: '.dxf', write: (motif, { place }) => writeDxf(motif, place) },
  { name: 'csv', ending: '.csv', write: (motif, { place }) => writeCsv(motif, place) },
];

/** A motif file says in a key of its own where it lies. */
function placed(motif: Motif, place: Point | undefined): Motif {
  return place
    ? { ...motif, unknown: { ...motif.unknown, place: [toMicron(place.x), toMicron(place.y)] } }
    : motif;
}
