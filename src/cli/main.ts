/**
 * The command line: finds the command that was typed, hands it what was typed after it, and turns what cannot be
 * done into one sentence.
 *
 * Yargs gets one command at a time, as its default one: given all of them it lays out the help of whichever it runs,
 * read or not, and that takes longer than checking a motif.
 */
import yargs, { type Argv } from 'yargs';
import { hideBin } from 'yargs/helpers';
import { Refusal } from '../../shared/refusal.js';
import { version } from '../../shared/version.js';
import { reason } from '../files.js';
import { type Command, commands } from './commands.js';
import { mayBeEmpty, repeatable, type Typed } from './options.js';
import { columns, plain } from './page.js';
import { sentenceFor } from './sentence.js';
import {
  argumentNames,
  commandIn,
  commandName,
  groupNames,
  noCommand,
  noYesOrNo,
  singleDash,
  usageSentence,
} from './usage.js';

async function main(typed: readonly string[]): Promise<void> {
  const command = commandIn(typed, commands);
  if (command) return run(command, typed.slice(commandName(command).split(' ').length));
  const [first = '--help'] = typed;
  if (first === '--version') return void process.stdout.write(`${version}\n`);
  const group = groupNames(commands).includes(first) ? first : '';
  const asksForHelp = typed.length === 0 || typed.some(isHelp);
  if (!asksForHelp || !(group !== '' || isHelp(first))) throw noCommand(typed, commands);
  overview(group).showHelp('log');
  // Help that was not asked for is no result.
  if (typed.length === 0) process.exitCode = 2;
}

function isHelp(word: string): boolean {
  return word === '--help' || word === '-h';
}

/** Parses the words after the command's name, and does it. */
async function run(command: Command, written: readonly string[]): Promise<void> {
  const { usage, about, options, load } = command;
  // Behind two dashes it may be a motif's name.
  const files = written.includes('--') ? written.slice(0, written.indexOf('--')) : written;
  if (files.includes('-'))
    throw new Refusal('"-" is no file: save the drawing, and name the file it is saved in.');
  const words = withoutDashes(written, command);
  const wrong = singleDash(words, command) ?? noYesOrNo(words, command);
  if (wrong) throw wrong;
  const name = commandName(command);
  let typed: Typed | undefined;
  await parser(`linewright ${name}`, words)
    .command(
      `$0${usage.slice(name.length)}`,
      about,
      (inner) => inner.options(options),
      (read) => {
        typed = read;
      },
    )
    .strict()
    .fail((message: string | null, error?: Error) => {
      throw new Refusal(usageSentence(message ?? error?.message ?? '', words, command, commands));
    })
    .parseAsync();
  // Help was asked for, and given.
  if (typed === undefined) return;
  const twice = Object.keys(options).find(
    (option) => Array.isArray(typed?.[option]) && !options[option].array && !repeatable.has(option),
  );
  if (twice !== undefined) throw new Refusal(`--${twice} is given twice; once is enough.`);
  const empty = Object.keys(options).find(
    (option) => !mayBeEmpty.has(option) && [typed?.[option]].flat().some(isEmpty),
  );
  if (empty !== undefined)
    throw new Refusal(`--${empty} is empty: give it a value (${options[empty].describe}).`);
  const given = argumentNames(command).flatMap((each) => typed?.[each]);
  if (given.some(isEmpty)) throw new Refusal('A name is empty: name a file or a folder.');
  process.exitCode = await (await load())(typed);
}

/** What a variable that was never set leaves of a path or a name. */
function isEmpty(value: unknown): boolean {
  return typeof value === 'string' && value.trim() === '';
}

/**
 * Yargs drops what stands behind `--`: files. A file whose name begins with a dash is named by its folder. Where an
 * option takes any number of words, they go before the options.
 */
function withoutDashes(words: readonly string[], { options }: Command): string[] {
  const at = words.indexOf('--');
  if (at < 0) return [...words];
  const files = words.slice(at + 1).map((word) => (word.startsWith('-') ? `./${word}` : word));
  const isGreedy = Object.values(options).some(({ array }) => array);
  const to = isGreedy ? words.findIndex((word) => word.startsWith('-')) : at;
  return [...words.slice(0, to), ...files, ...words.slice(to, at)];
}

function overview(group: string): Argv {
  const all = parser('linewright', []).usage(
    '$0 COMMAND\n\nChecks, mends, converts and nests continuous-line quilting motifs.',
  );
  for (const { usage, about } of commands) {
    if (group === '' || usage.startsWith(`${group} `)) all.command(usage, about);
  }
  return all.epilogue('linewright COMMAND --help tells more.');
}

function parser(name: string, words: readonly string[]): Argv {
  return yargs([...words])
    .scriptName(name)
    .locale('en')
    .version(version)
    .alias('help', 'h')
    .wrap(columns)
    .exitProcess(false)
    .parserConfiguration({
      'boolean-negation': false,
      'dot-notation': false,
      'parse-numbers': false,
      'parse-positional-numbers': false,
    });
}

/** A pipe that is closed early, as by `head`, has what it wanted, and files go on being written; a full disk is told. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') return;
  process.stderr.write(`The results cannot be written, ${reason(error)}.\n`);
  process.exit(2);
});

main(hideBin(process.argv)).catch((error: unknown) => {
  process.stderr.write(`${plain(sentenceFor(error))}\n`);
  process.exitCode = 2;
});
