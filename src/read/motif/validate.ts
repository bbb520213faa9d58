import schema from '../../../shared/motif.schema.json' with { type: 'json' };
import { type MotifFile, motifFormat, motifVersion } from '../../../shared/motif-file.js';
import { Refusal } from '../../../shared/refusal.js';
import { flawsAgainst } from '../../json-schema.js';

const flawOf = flawsAgainst(schema);

/** What else this program writes, and where the motif is to be found. */
const otherFormats: Readonly<Partial<Record<string, string>>> = {
  'linewright-plan': 'the plan of a quilt, not a motif: read the motif that it was made from',
  'linewright-library':
    'the list of a library, not a motif: read one of the files in the folder motifs beside it',
  'linewright-session': 'a session of the desk, not a motif: open it on the desk',
};

/**
 * The value as a motif file, as `motif.schema.json` describes it.
 *
 * @throws Refusal naming a version that is not known yet, or the path of the first bad value
 */
export function requireMotifFile(value: unknown, file: string): MotifFile {
  const { format, version } = (value ?? {}) as { format?: unknown; version?: unknown };
  const other = typeof format === 'string' ? otherFormats[format] : undefined;
  if (other) throw new Refusal(`${file}: this is ${other}.`);
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
