/** A pass, the rest of one, or one lined up, in the forms asked for. */
import type { Motif } from '../../shared/motif.js';
import type { Pass } from '../../shared/plan.js';
import { boundsOf } from '../geometry/polyline.js';
import { motifOf } from '../size/motif-of.js';
import type { Exporter } from '../write/exporter.js';

const passPx = 1200;

/** What a file is to hold. */
export interface MadeFile {
  readonly name: string;
  readonly data: string | Uint8Array;
}

export function passName(pass: number): string {
  return `pass-${String(pass).padStart(2, '0')}`;
}

/** The line lies on the top as its coordinates say; `from` is what goes along with it. */
export async function passFiles(
  { strokes, links }: Pick<Pass, 'strokes' | 'links'>,
  name: string,
  from: Partial<Pick<Motif, 'credit' | 'source' | 'flattenMm'>>,
  exporters: readonly Exporter[],
): Promise<MadeFile[]> {
  const { credit, source, flattenMm } = from;
  const { minX, minY } = boundsOf(strokes);
  const motif = motifOf(strokes, {
    name,
    ...(credit && { credit }),
    ...(source && { source }),
    ...(flattenMm && { flattenMm }),
  });
  return Promise.all(
    exporters.map(async (exporter) => ({
      name: name + exporter.ending,
      data: await exporter.write(motif, { pixels: passPx, place: { x: minX, y: minY }, links }),
    })),
  );
}
