#!/usr/bin/env node
/** The command line: hands what was typed to its command, and turns what cannot be done into one sentence. */
import yargs, { type Argv } from 'yargs';
import { hideBin } from 'yargs/helpers';
import { Refusal } from '../../shared/refusal.js';
import { version } from '../../shared/version.js';
import { type Command, commands } from './commands.js';
import type { Typed } from './options.js';
import { columns, plain } from './page.js';
import { commandName, usageSentence } from './usage.js';

async function main(typed: readonly string[]): Promise<void> {
  const parser = yargs([...typed])
    .scriptName('linewright')
    .usage('$0 COMMAND\n\nChecks, mends, converts and nests continuous-line quilting motifs.')
    .locale('en')
    .version(version)
    .wrap(columns)
    .parserConfiguration({
      'boolean-negation': false,
      'dot-notation': false,
      'parse-positional-numbers': false,
    })
    .demandCommand(1, '')
    .strict()
    .exitProcess(false)
    .fail((message: string | null, error?: Error) => {
      // What a command throws passes through here too, and stays as it is.
      if (error && error.name !== 'YError') throw error;
      throw new Refusal(usageSentence(message ?? error?.message ?? '', typed, commands));
    });
  addAll(parser, commands);
  if (typed.length === 0) {
    parser.showHelp('log');
    process.exitCode = 2;
    return;
  }
  await parser.parseAsync();
}

/** Commands of two words, such as `library build`, stand under their first word. */
function addAll(parser: Argv, all: readonly Command[]): void {
  const groups = new Set(all.flatMap((command) => (groupOf(command) ? [groupOf(command)] : [])));
  for (const command of all) if (groupOf(command) === '') parser.command(forYargs(command));
  for (const group of groups) {
    const members = all.filter((command) => groupOf(command) === group);
    parser.command(`${group} <command>`, members.map(({ about }) => about).join('; '), (inner) => {
      for (const member of members) {
        inner.command(forYargs({ ...member, usage: member.usage.slice(group.length + 1) }));
      }
      return inner.demandCommand(1, '');
    });
  }
}

function groupOf(command: Command): string {
  const [first, second] = commandName(command).split(' ');
  return second === undefined ? '' : first;
}

function forYargs({ usage, about, options, load }: Command) {
  return {
    command: usage,
    describe: about,
    builder: { ...options },
    handler: async (typed: Typed) => {
      const twice = Object.keys(options).find((name) => Array.isArray(typed[name]) && !options[name].array);
      if (twice !== undefined) throw new Refusal(`--${twice} is given twice; once is enough.`);
      process.exitCode = await (await load())(typed);
    },
  };
}

/** A pipe that is closed early, as by `head`, has what it wanted. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit();
  throw error;
});

main(hideBin(process.argv)).catch((error: unknown) => {
  if (!(error instanceof Refusal)) throw error;
  process.stderr.write(`${plain(error.message)}\n`);
  process.exitCode = 2;
});
