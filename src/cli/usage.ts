/** What yargs complains of, as one sentence for people, with the nearest right name. */
import { didYouMean } from '../setup/index.js';
import type { Command } from './commands.js';

/** `message` is yargs' own; `typed` are the words of the command line. */
export function usageSentence(
  message: string,
  typed: readonly string[],
  commands: readonly Command[],
): string {
  const names = [
    ...new Set(commands.flatMap((each) => [commandName(each), commandName(each).split(' ')[0]])),
  ];
  const command = commands.find((each) => typed.slice(0, 2).join(' ').startsWith(commandName(each)));
  const unknown = /^Unknown (?:arguments?|commands?): ([^,]+)/.exec(message)?.[1];
  const group = names.filter((name) => name.startsWith(`${typed[0]} `));
  if (command === undefined && group.length > 0) {
    if (typed[1] === undefined || typed[1].startsWith('-'))
      return `${typed[0]} takes one of these: ${group.join(', ')}.`;
    return `There is no command "${typed[0]} ${typed[1]}".${didYouMean(`${typed[0]} ${typed[1]}`, group)}`;
  }
  if (unknown !== undefined) {
    if (command === undefined) return `There is no command "${typed[0]}".${didYouMean(typed[0], names)}`;
    const isOption = typed.some((word) => word.startsWith('-') && word.includes(unknown));
    if (!isOption) return `One argument too many: "${unknown}".`;
    return noOption(command, unknown);
  }
  const bare = /^Not enough arguments following: (.+)/.exec(message)?.[1];
  if (bare !== undefined) return `--${bare} needs a value after it.`;
  const missing = /^Missing required arguments?: (.+)/.exec(message)?.[1];
  if (missing !== undefined && command) {
    // What is missing is often there, but mistyped.
    const mistyped = typed.find((word) => /^--[^=]/.test(word) && !(optionName(word) in command.options));
    if (mistyped !== undefined) return noOption(command, optionName(mistyped));
    return `--${missing} is needed: ${command.options[missing]?.describe ?? 'a value'}.`;
  }
  if (/^Not enough non-option arguments/.test(message) && command) return command.needs;
  return `${message.trim().split('\n')[0]}.`;
}

function noOption(command: Command, name: string): string {
  return `${commandName(command)} has no option --${name}.${didYouMean(name, Object.keys(command.options))}`;
}

/** Of `--name` or `--name=value`. */
function optionName(word: string): string {
  return word.slice(2).split('=')[0];
}

/** The words before the arguments: `check`, `library build`. */
export function commandName({ usage }: Command): string {
  return usage.replace(/ [<[].*$/, '');
}
