/** Exporters: a motif to the text or bytes of a file. */

import type { Motif } from '../../shared/motif.js';
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
  { name: 'motif', ending: '.motif.json', write: writeMotif },
  { name: 'svg', ending: '.svg', write: writeSvg },
  {
    name: 'png',
    ending: '.png',
    write: (motif, { pixels }) => writePng(motifPicture(motif, { widthPx: pixels }), pixels),
  },
  { name: 'dxf', ending: '.dxf', write: writeDxf },
  { name: 'csv', ending: '.csv', write: writeCsv },
];
