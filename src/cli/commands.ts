/** The commands: how each is called, its options, and the file that does it, loaded when it is called. */
import type { Options } from 'yargs';
import type { ExitCode } from './each.js';
import { jsonOption, motifOptions, outputOptions, spacingOption, type Typed } from './options.js';

export interface Command {
  /** In yargs' words: the name, then `<files..>` or other arguments. */
  readonly usage: string;
  readonly about: string;
  /** What to say where an argument is missing. */
  readonly needs: string;
  readonly options: Readonly<Record<string, Options>>;
  load(): Promise<(typed: Typed) => Promise<ExitCode>>;
}

const to: Options = { type: 'string', requiresArg: true, default: 'motif,svg,png' };

/** A new command is a file and an entry here. */
export const commands: readonly Command[] = [
  {
    usage: 'check <files..>',
    about: 'Say whether motifs will stitch well, what is wrong, where, and what to do',
    needs: 'Name at least one file: linewright check FILE...',
    options: {
      ...motifOptions,
      ...spacingOption,
      ...jsonOption,
      picture: {
        type: 'string',
        requiresArg: true,
        describe: 'folder for pictures with the findings flagged',
      },
      force: outputOptions.force,
    },
    load: async () => (await import('./check.js')).check,
  },
  {
    usage: 'convert <files..>',
    about: 'Write motifs as motif files, SVG, pictures or tables of points',
    needs: 'Name at least one file: linewright convert FILE... --out FOLDER',
    options: {
      ...outputOptions,
      to: { ...to, describe: 'forms to write: motif, svg, png, csv' },
      pixels: { type: 'string', requiresArg: true, describe: 'width of pictures, 480 if not given' },
      rows: { type: 'string', requiresArg: true, describe: 'row layout to store in the motif file' },
      ...motifOptions,
      ...spacingOption,
      ...jsonOption,
    },
    load: async () => (await import('./convert.js')).convert,
  },
  {
    usage: 'rules [id]',
    about: 'List the rules, or say what one finds, why it matters and what to do',
    needs: '',
    options: {},
    load: async () => (await import('./rules.js')).rules,
  },
];
