import type { ErrorObject, ValidateFunction } from 'ajv';
import schema from '../../../shared/motif.schema.json' with { type: 'json' };
import { type MotifFile, motifFormat, motifVersion } from '../../../shared/motif-file.js';
import { Refusal } from '../../../shared/refusal.js';

let validator: Promise<ValidateFunction<MotifFile>> | undefined;

/**
 * The value as a motif file, as `motif.schema.json` describes it.
 *
 * @throws Refusal naming a version that is not known yet, or the path of the first bad value
 */
export async function requireMotifFile(value: unknown, file: string): Promise<MotifFile> {
  const { format, version } = (value ?? {}) as { format?: unknown; version?: unknown };
  if (format !== motifFormat)
    throw new Refusal(`${file}: this is no motif file: its "format" is not "${motifFormat}".`);
  if (typeof version === 'number' && version > motifVersion)
    throw new Refusal(
      `${file}: motif file version ${version} is newer than version ${motifVersion}, the newest this program reads.`,
    );
  validator ??= compile();
  const isMotifFile = await validator;
  if (isMotifFile(value)) return value;
  throw new Refusal(`${file}: ${sentence(isMotifFile.errors?.[0])}`);
}

async function compile(): Promise<ValidateFunction<MotifFile>> {
  const { default: ajv } = await import('ajv');
  return new ajv.Ajv({ allowUnionTypes: true }).compile<MotifFile>(schema);
}

function sentence(error: ErrorObject | undefined): string {
  const path = error?.instancePath.slice(1) ?? '';
  const where = path ? `"${path}"` : 'the file';
  const { allowedValue, allowedValues } = (error?.params ?? {}) as {
    allowedValue?: unknown;
    allowedValues?: readonly unknown[];
  };
  const choices = allowedValues ?? (allowedValue === undefined ? [] : [allowedValue]);
  if (choices.length > 0)
    return `${where} must be ${choices.map((one) => JSON.stringify(one)).join(' or ')}.`;
  return `${where} ${error?.message ?? 'is not as it should be'}.`;
}
