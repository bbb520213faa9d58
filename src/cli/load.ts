/** From the command line to a setup, and from a file to a motif. */
import { rules } from '../../rules/index.js';
import type { Motif } from '../../shared/motif.js';
import { defaultLimits, type Setup } from '../../shared/setup.js';
import { findUpwards, readBytes, readRegularFile } from '../files.js';
import { parseJson } from '../read/motif/json.js';
import { type SettingsFile, setupFrom } from '../setup/index.js';
import { motifFrom, motifIn } from '../tasks/motif-from.js';
import type { Typed } from './options.js';

export const settingsName = 'linewright.json';

/** Defaults, the settings file (`--config`, or the nearest upwards from the working folder), then what was typed. */
export async function loadSetup(typed: Typed): Promise<Setup> {
  const named = typed.config as string | undefined;
  const file = named ?? (await findUpwards(settingsName, process.cwd()));
  const settingsFile = file === null ? null : await readSettings(file);
  return setupFrom(typed, { settingsFile, rules });
}

async function readSettings(file: string): Promise<SettingsFile> {
  const bytes = await readBytes(file, defaultLimits);
  return { file, json: parseJson(bytes, file, defaultLimits.nesting) };
}

/**
 * For a motif that goes nowhere from here, and needs no note of where it came from.
 *
 * @throws Refusal where the file cannot be read or holds nothing to stitch
 */
export async function motifOf(file: string, setup: Setup): Promise<Motif> {
  return motifIn({ file, bytes: await readBytes(file, setup.limits) }, setup);
}

/** @throws Refusal where the file cannot be read or holds nothing to stitch */
export async function loadMotif(file: string, setup: Setup): Promise<Motif> {
  return motifFrom(await readRegularFile(file, setup.limits), setup);
}
