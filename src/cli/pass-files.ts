/** A pass, the rest of one, or one lined up, as files in a folder. */
import { join } from 'node:path';
import type { Motif } from '../../shared/motif.js';
import type { Pass } from '../../shared/plan.js';
import { passFiles } from '../tasks/pass-files.js';
import type { Exporter } from '../write/exporter.js';
import type { Output } from './all-or-none.js';

export { passName } from '../tasks/pass-files.js';

export async function passOutputs(
  pass: Pick<Pass, 'strokes' | 'links'>,
  name: string,
  from: Partial<Pick<Motif, 'credit' | 'source' | 'flattenMm'>>,
  exporters: readonly Exporter[],
  folder: string,
): Promise<Output[]> {
  const files = await passFiles(pass, name, from, exporters);
  return files.map(({ name: file, data }) => ({ path: join(folder, file), data }));
}
