/** Holds a value from a JSON file against a JSON Schema, and says where it does not fit. */
import type { ErrorObject, ValidateFunction } from 'ajv';

/** The first flaw of a value in words that name its path, or null where it is as the schema says. */
export type FindFlaw = (value: unknown) => Promise<string | null>;

/** The schema is compiled once, when it is first asked. */
export function flawsAgainst(schema: object): FindFlaw {
  let validator: Promise<ValidateFunction> | undefined;
  return async (value) => {
    validator ??= compile(schema);
    const isValid = await validator;
    return isValid(value) ? null : inWords(isValid.errors?.[0]);
  };
}

async function compile(schema: object): Promise<ValidateFunction> {
  const { default: ajv } = await import('ajv');
  return new ajv.Ajv({ allowUnionTypes: true }).compile(schema);
}

function inWords(error: ErrorObject | undefined): string {
  const path = error?.instancePath.slice(1) ?? '';
  const where = path ? `"${path}"` : 'the file';
  const { allowedValue, allowedValues } = (error?.params ?? {}) as {
    allowedValue?: unknown;
    allowedValues?: readonly unknown[];
  };
  const choices = allowedValues ?? (allowedValue === undefined ? [] : [allowedValue]);
  if (choices.length > 0) return `${where} must be ${choices.map((one) => JSON.stringify(one)).join(' or ')}`;
  return `${where} ${error?.message ?? 'is not as it should be'}`;
}
