/** The options that commands share, for yargs. Values stay text here: `src/setup` reads them and complains. */
import type { Options } from 'yargs';
import { type SettingName, settings } from '../setup/index.js';

function typed(name: SettingName): Options {
  return { type: 'string', requiresArg: true, describe: settings[name].about };
}

/** Options that may be given more than once. */
export const repeatable: ReadonlySet<string> = new Set(['layer', 'colour']);

/** Options that an empty text means something to. */
export const mayBeEmpty: ReadonlySet<string> = new Set(['note']);

/** What every command that reads a motif takes. */
export const motifOptions = {
  height: typed('height'),
  width: typed('width'),
  unit: typed('unit'),
  spi: typed('spi'),
  throat: typed('throat'),
  clearance: typed('clearance'),
  batting: typed('batting'),
  gap: typed('gap'),
  take: typed('take'),
  layer: typed('layer'),
  colour: typed('colour'),
  'skip-dashed': { type: 'boolean', describe: settings.skipDashed.about },
  dpi: typed('dpi'),
  ink: typed('ink'),
  config: { type: 'string', requiresArg: true, describe: 'settings file, instead of linewright.json' },
} as const satisfies Record<string, Options>;

export const smoothOption = { smooth: typed('smooth') } as const;

export const spacingOption = { spacing: typed('spacing') } as const;

/** What a whole quilt takes beside. */
export const planOptions = {
  margin: typed('margin'),
  roller: typed('roller'),
  reserve: typed('reserve'),
  bobbin: typed('bobbin'),
  speed: typed('speed'),
  price: typed('price'),
  layout: typed('layout'),
} as const satisfies Record<string, Options>;

export const jsonOption = {
  json: { type: 'boolean', default: false, describe: 'one JSON document instead of text' },
} as const satisfies Record<string, Options>;

export const outputOptions = {
  out: { type: 'string', requiresArg: true, demandOption: true, describe: 'folder for the results' },
  force: { type: 'boolean', default: false, describe: 'overwrite results that exist' },
} as const satisfies Record<string, Options>;

/** How yargs hands a command its options. */
export type Typed = Readonly<Record<string, unknown>>;

export const curvesOption = {
  curves: { type: 'boolean', default: false, describe: 'SVG as few smooth curves, to edit again' },
} as const satisfies Record<string, Options>;
