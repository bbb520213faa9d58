import schema from '../../../shared/motif.schema.json' with { type: 'json' };
import { type MotifFile, motifFormat, motifVersion } from '../../../shared/motif-file.js';
import { Refusal } from '../../../shared/refusal.js';
import { flawsAgainst } from '../../json-schema.js';

const flawOf = flawsAgainst(schema);

/**
 * The value as a motif file, as `motif.schema.json` describes it.
 *
 * @throws Refusal naming a version that is not known yet, or the path of the first bad value
 */
export function requireMotifFile(value: unknown, file: string): MotifFile {
  const { format, version } = (value ?? {}) as { format?: unknown; version?: unknown };
  if (format !== motifFormat)
    throw new Refusal(`${file}: this is no motif file: its "format" is not "${motifFormat}".`);
  if (typeof version === 'number' && version > motifVersion)
    throw new Refusal(
      `${file}: motif file version ${version} is newer than version ${motifVersion}, the newest this program reads.`,
    );
  const flaw = flawOf(value);
  if (flaw !== null) throw new Refusal(`${file}: ${flaw}.`);
  return value as MotifFile;
}
