/**
 * Holds a value from a JSON file against a JSON Schema (draft 7), and says where it does not fit.
 *
 * A walk over schema and value side by side, in time that grows with the value. Nothing is compiled, so that it runs on a
 * page whose content policy forbids making code from text. It knows the keywords that the schemas in `shared/` use, and
 * refuses a schema with any other; the wording of flaws is that of `ajv`, which the tests hold it against.
 */

/** The first flaw of a value in words that name its path, or null where it is as the schema says. */
export type FindFlaw = (value: unknown) => string | null;

interface Flaw {
  readonly path: string;
  readonly words: string;
}

type Schema = Readonly<Record<string, unknown>>;
/** Null where the value holds to the keyword. */
type Check = (asked: never, value: unknown, path: string, schema: Schema, root: Schema) => Flaw | null;

/** @throws Error where the schema uses a keyword that is not known here */
export function flawsAgainst(schema: object): FindFlaw {
  const root = schema as Schema;
  requireKnown(root);
  return (value) => {
    const flaw = flawOf(root, value, '', root);
    if (flaw === null) return null;
    return `${flaw.path === '' ? 'the file' : `"${flaw.path.slice(1)}"`} ${flaw.words}`;
  };
}

/** In the order in which they are asked: the kind of a value first. */
const checks: Readonly<Record<string, Check>> = {
  $ref: (ref: string, value, path, _, root) => flawOf(definition(ref, root), value, path, root),
  type: (types: string | readonly string[], value, path) => {
    const all = [types].flat();
    return all.some((type) => isA(type, value)) ? null : { path, words: `must be ${all.join(',')}` };
  },
  const: (only: unknown, value, path) => (value === only ? null : { path, words: oneOf([only]) }),
  enum: (values: readonly unknown[], value, path) =>
    values.includes(value) ? null : { path, words: oneOf(values) },
  minimum: (least: number, value, path) =>
    typeof value === 'number' && !(value >= least) ? { path, words: `must be >= ${least}` } : null,
  exclusiveMinimum: (least: number, value, path) =>
    typeof value === 'number' && !(value > least) ? { path, words: `must be > ${least}` } : null,
  pattern: (pattern: string, value, path) =>
    typeof value === 'string' && !patternOf(pattern).test(value)
      ? { path, words: `must match pattern "${pattern}"` }
      : null,
  minItems: (least: number, value, path) =>
    Array.isArray(value) && value.length < least
      ? { path, words: `must NOT have fewer than ${least} items` }
      : null,
  maxItems: (most: number, value, path) =>
    Array.isArray(value) && value.length > most
      ? { path, words: `must NOT have more than ${most} items` }
      : null,
  items: (each: Schema, value, path, _, root) => {
    if (!Array.isArray(value)) return null;
    for (let i = 0; i < value.length; i++) {
      const flaw = flawOf(each, value[i], '', root);
      if (flaw) return { ...flaw, path: `${path}/${i}${flaw.path}` };
    }
    return null;
  },
  required: (names: readonly string[], value, path) => {
    if (!isObject(value)) return null;
    const missing = names.find((name) => value[name] === undefined);
    return missing === undefined ? null : { path, words: `must have required property '${missing}'` };
  },
  properties: (byName: Readonly<Record<string, Schema>>, value, path, _, root) => {
    if (!isObject(value)) return null;
    for (const name of Object.keys(byName)) {
      if (value[name] === undefined || !Object.hasOwn(value, name)) continue;
      const flaw = flawOf(byName[name], value[name], `${path}/${pointer(name)}`, root);
      if (flaw) return flaw;
    }
    return null;
  },
  additionalProperties: (others: Schema, value, path, { properties = {} }, root) => {
    if (!isObject(value)) return null;
    for (const name of Object.keys(value)) {
      if (Object.hasOwn(properties as object, name)) continue;
      const flaw = flawOf(others, value[name], `${path}/${pointer(name)}`, root);
      if (flaw) return flaw;
    }
    return null;
  },
  anyOf: (ways: readonly Schema[], value, path, _, root) => {
    const flaws = ways.map((way) => flawOf(way, value, path, root));
    return flaws.includes(null) ? null : flaws[0];
  },
  not: (never: Schema, value, path, _, root) =>
    flawOf(never, value, path, root) ? null : { path, words: 'must NOT be valid' },
  if: (when: Schema, value, path, schema, root) => {
    const branch = (flawOf(when, value, path, root) ? schema.else : schema.then) as Schema | undefined;
    return branch ? flawOf(branch, value, path, root) : null;
  },
};

const keywords = Object.keys(checks);
/** Read by `if`, or telling nothing of the value. */
const others = ['then', 'else', 'definitions', '$schema', '$id', 'title', 'description'];

function flawOf(schema: Schema, value: unknown, path: string, root: Schema): Flaw | null {
  for (const keyword of keywords) {
    const asked = schema[keyword];
    if (asked === undefined) continue;
    const flaw = checks[keyword](asked as never, value, path, schema, root);
    if (flaw) return flaw;
  }
  return null;
}

function definition(ref: string, root: Schema): Schema {
  const name = /^#\/definitions\/([^/]+)$/.exec(ref)?.[1] ?? '';
  const found = (root.definitions as Readonly<Record<string, Schema>> | undefined)?.[name];
  if (!found) throw new Error(`The schema has no ${ref}.`);
  return found;
}

function requireKnown(schema: Schema): void {
  if (typeof schema !== 'object') throw new Error('A schema that is true or false is not known.');
  for (const [keyword, asked] of Object.entries(schema)) {
    if (!keywords.includes(keyword) && !others.includes(keyword))
      throw new Error(`The schema keyword "${keyword}" is not known.`);
    if (keyword === 'properties' || keyword === 'definitions')
      for (const inner of Object.values(asked as object)) requireKnown(inner);
    else if (['items', 'additionalProperties', 'not', 'if', 'then', 'else'].includes(keyword))
      requireKnown(asked as Schema);
    else if (keyword === 'anyOf') for (const inner of asked as readonly Schema[]) requireKnown(inner);
  }
}

function isA(type: string, value: unknown): boolean {
  if (type === 'null') return value === null;
  if (type === 'array') return Array.isArray(value);
  if (type === 'object') return isObject(value);
  if (type === 'integer') return Number.isInteger(value);
  if (type === 'number') return Number.isFinite(value);
  return typeof value === type;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

const patterns = new Map<string, RegExp>();

function patternOf(pattern: string): RegExp {
  const known = patterns.get(pattern) ?? new RegExp(pattern, 'u');
  patterns.set(pattern, known);
  return known;
}

/** A name in a JSON Pointer (RFC 6901). */
function pointer(name: string): string {
  return name.replaceAll('~', '~0').replaceAll('/', '~1');
}

function oneOf(values: readonly unknown[]): string {
  return `must be ${values.map((value) => JSON.stringify(value)).join(' or ')}`;
}
