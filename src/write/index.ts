/** Exporters: a motif to the text of a file. The one to pixels is apart, in `png.ts`: it needs Node. */

import type { Motif } from '../../shared/motif.js';
import type { Point } from '../../shared/plane.js';
import { toMicron } from '../markup/number-text.js';
import { writeCsv } from './csv.js';
import { writeDxf } from './dxf.js';
import type { Exporter } from './exporter.js';
import { writeMotif } from './motif-file.js';
import { writeSvg } from './svg.js';

export type { Exporter, ExportOptions } from './exporter.js';
export { writeCsv, writeDxf, writeMotif, writeSvg };

/** A new exporter is a file and a line here. */
export const textExporters: readonly Exporter[] = [
  { name: 'motif', ending: '.motif.json', write: (motif, { place }) => writeMotif(placed(motif, place)) },
  { name: 'svg', ending: '.svg', write: (motif, { place, curves }) => writeSvg(motif, place, curves) },
  { name: 'dxf', ending: '.dxf', write: (motif, { place, links }) => writeDxf(motif, place, links) },
  { name: 'csv', ending: '.csv', write: (motif, { place }) => writeCsv(motif, place) },
];

/** A motif file says in a key of its own where it lies. */
function placed(motif: Motif, place: Point | undefined): Motif {
  return place
    ? { ...motif, unknown: { ...motif.unknown, place: [toMicron(place.x), toMicron(place.y)] } }
    : motif;
}
