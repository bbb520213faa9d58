/** One motif into files of several kinds, all named after it. */
import { join } from 'node:path';
import type { Motif } from '../../shared/motif.js';
import { Refusal } from '../../shared/refusal.js';
import { requireFree, writeWhole } from '../files.js';
import { didYouMean } from '../setup/index.js';
import { type Exporter, textExporters } from '../write/index.js';
import { pngExporter } from '../write/png.js';
import type { Typed } from './options.js';

const exporters: readonly Exporter[] = [...textExporters, pngExporter];

export interface WriteTo {
  readonly folder: string;
  readonly name: string;
  readonly pixels: number;
  readonly curves?: boolean;
  readonly force: boolean;
  /** Never overwritten. */
  readonly inputs: readonly string[];
}

/** The paths written. Nothing is written where one of them exists and may not be overwritten. */
export async function writeAll(motif: Motif, to: readonly Exporter[], where: WriteTo): Promise<string[]> {
  const outputs = await Promise.all(
    to.map(async (exporter) => ({
      path: join(where.folder, where.name + exporter.ending),
      data: await exporter.write(motif, { pixels: where.pixels, curves: where.curves }),
    })),
  );
  for (const { path } of outputs) await requireFree(path, where);
  for (const { path, data } of outputs) await writeWhole(path, data, where);
  return outputs.map(({ path }) => path);
}

/**
 * The exporters that `--to` and `--curves` name.
 *
 * @throws Refusal where curves are wanted of none that has them
 */
export function exportersTyped({ to, curves }: Typed): Exporter[] {
  const named = namedExporters(to as string);
  if (curves === true && !named.some(({ name }) => name === 'svg'))
    throw new Refusal('--curves is for SVG: name it among the forms to write, as in --to svg.');
  return named;
}

/** The exporters of a list such as `motif,svg`. */
export function namedExporters(list: string): Exporter[] {
  const names = exporters.map(({ name }) => name);
  return [...new Set(list.split(',').map((part) => part.trim()))].map((wanted) => {
    const exporter = exporters.find(({ name }) => name === wanted);
    if (exporter) return exporter;
    throw new Refusal(`--to takes ${names.join(', ')}, not "${wanted}".${didYouMean(wanted, names)}`);
  });
}
