/** The folder of a plan: `plan.json`, the sheet, the picture, and each pass in the forms asked for. All or nothing. */
import { readdir, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Motif } from '../../shared/motif.js';
import type { Plan } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import type { Setup } from '../../shared/setup.js';
import { requireFree, writeWhole } from '../files.js';
import { boundsOf } from '../geometry/polyline.js';
import { planPicture } from '../picture/plan-picture.js';
import type { PassLine } from '../plan/pass-lines.js';
import { planJson } from '../plan/plan-json.js';
import { writePlanSheet } from '../sheet/plan-sheet.js';
import { motifOf } from '../size/motif-of.js';
import type { Exporter } from '../write/index.js';
import { writePng } from '../write/png.js';
import type { Typed } from './options.js';
import { namedExporters } from './write-all.js';

export interface Output {
  readonly path: string;
  readonly data: string | Uint8Array;
}

const passPx = 1200;
const planPx = 1600;
const sheetPx = 900;

/** The files of each pass. */
export async function writePlan(
  plan: Plan,
  lines: readonly PassLine[],
  motif: Motif,
  setup: Setup,
  typed: Typed,
): Promise<string[][]> {
  const folder = typed.out as string;
  const exporters = namedExporters(typed.to as string);
  const passes: Output[][] = [];
  for (const pass of plan.passes)
    passes.push(await passOutputs(pass.strokes, passName(pass.pass), motif, exporters, folder));
  const written = passes.map((outputs) => outputs.map(({ path }) => path));
  const names = passes.map((outputs) => outputs.map(({ path }) => path.slice(join(folder, 'x').length - 1)));
  const drawn = lines.map(({ rows, linksBefore }) => ({
    lines: rows.flatMap(({ pieces }) => pieces),
    links: [...linksBefore.filter((link) => link !== null), ...rows.flatMap(({ links }) => links)],
  }));
  await writeOutputs(
    [
      { path: join(folder, 'plan.json'), data: planJson(plan, { written: names, asFile: true }) },
      {
        path: join(folder, 'plan.html'),
        data: writePlanSheet(plan, motif.name, planPicture(plan, drawn, { widthPx: sheetPx }), setup),
      },
      {
        path: join(folder, 'plan.png'),
        data: await writePng(planPicture(plan, drawn, { widthPx: planPx }), planPx),
      },
      ...passes.flat(),
    ],
    { force: typed.force as boolean, inputs: [typed.file as string] },
  );
  if (typed.force) await removeOthers(folder, new Set(names.flat()));
  return written;
}

export function passName(pass: number): string {
  return `pass-${String(pass).padStart(2, '0')}`;
}

/** Strokes on the top, in each of the forms. */
export async function passOutputs(
  strokes: readonly Polyline[],
  name: string,
  from: Partial<Pick<Motif, 'credit' | 'source' | 'flattenMm'>>,
  exporters: readonly Exporter[],
  folder: string,
): Promise<Output[]> {
  const { credit, source, flattenMm } = from;
  const box = boundsOf(strokes);
  const motif = motifOf(strokes, {
    name,
    ...(credit && { credit }),
    ...(source && { source }),
    ...(flattenMm && { flattenMm }),
  });
  const place = { x: box.minX, y: box.minY };
  return Promise.all(
    exporters.map(async (exporter) => ({
      path: join(folder, name + exporter.ending),
      data: await exporter.write(motif, { pixels: passPx, place }),
    })),
  );
}

/** Nothing is written where one of them exists and may not be overwritten. */
export async function writeOutputs(
  outputs: readonly Output[],
  options: { readonly force: boolean; readonly inputs: readonly string[] },
): Promise<void> {
  for (const { path } of outputs) await requireFree(path, options);
  for (const { path, data } of outputs) await writeWhole(path, data, options);
}

const ofAPass = /^pass-\d{2,}(?:-rest|-aligned)?\.(?:motif\.json|svg|dxf|png|csv)$/;

/** Passes of an earlier plan would be taken for this one's. */
async function removeOthers(folder: string, written: ReadonlySet<string>): Promise<void> {
  for (const name of await readdir(folder)) {
    if (ofAPass.test(name) && !written.has(name)) await rm(join(folder, name), { force: true });
  }
}
