/** Which command was typed, and what is wrong with it as one sentence for people, with the nearest right name. */
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { didYouMean } from '../setup/index.js';
import type { Command } from './commands.js';

/** The command that the first words name, or undefined. */
export function commandIn(typed: readonly string[], commands: readonly Command[]): Command | undefined {
  return commands.find((each) => {
    const words = commandName(each).split(' ');
    return words.every((word, i) => word === typed[i]);
  });
}

/** The words before the arguments: `check`, `library build`. */
export function commandName({ usage }: Command): string {
  return usage.replace(/ [<[].*$/, '');
}

/** What stands after the name, as yargs calls it: `files`, `folder`. */
export function argumentNames({ usage }: Command): string[] {
  return [...usage.matchAll(/[<[](\w+)/g)].map(([, name]) => name);
}

/** First words of commands of two: `library`. */
export function groupNames(commands: readonly Command[]): string[] {
  const names = commands.map((each) => commandName(each).split(' '));
  return [...new Set(names.filter((words) => words.length > 1).map(([first]) => first))];
}

/** For words that name no command. */
export function noCommand(typed: readonly string[], commands: readonly Command[]): Refusal {
  const names = commands.map(commandName);
  const [first, second] = typed;
  if (groupNames(commands).includes(first)) {
    const group = names.filter((name) => name.startsWith(`${first} `));
    if (second === undefined || second.startsWith('-'))
      return new Refusal(`${first} takes one of these: ${group.join(', ')}.`);
    return new Refusal(`There is no command "${first} ${second}".${didYouMean(`${first} ${second}`, group)}`);
  }
  if (first.startsWith('-'))
    return new Refusal(`The command comes first: linewright check FILE... ${first}, for instance.`);
  const firsts = [...names, ...groupNames(commands)];
  return new Refusal(`There is no command "${first}".${didYouMean(first, firsts)}`);
}

/** `message` is what yargs complains of in `words`, those after the command's name. */
export function usageSentence(
  message: string,
  words: readonly string[],
  command: Command,
  commands: readonly Command[],
): string {
  const unknown = /^Unknown (?:arguments?|commands?): ([^,]+)/.exec(message)?.[1];
  if (unknown !== undefined) {
    const isOption = words.some((word) => word.startsWith('-') && word.includes(unknown));
    return isOption ? noOption(command, unknown, commands) : `One argument too many: "${unknown}".`;
  }
  const bare = /^Not enough arguments following: (.+)/.exec(message)?.[1];
  if (bare !== undefined) return `--${bare} needs a value after it.`;
  // What is missing is often there, but mistyped, or a mistyped option has taken it.
  const mistyped = words.find((word) => /^--[^=]/.test(word) && !(optionName(word) in command.options));
  const missing = /^Missing required arguments?: (.+)/.exec(message)?.[1];
  if (missing !== undefined) {
    if (mistyped !== undefined) return noOption(command, optionName(mistyped), commands);
    const what = (name: string) => command.options[name]?.describe ?? 'a value';
    const names = missing.split(', ');
    if (names.length === 1) return `--${missing} is needed: ${what(missing)}.`;
    return `${names.map((name) => `--${name} (${what(name)})`).join(' and ')} are needed.`;
  }
  if (/^Not enough non-option arguments/.test(message))
    return mistyped === undefined ? command.needs : noOption(command, optionName(mistyped), commands);
  return `${message.trim().split('\n')[0]}.`;
}

/** For `-height`, which would be read as a row of one-letter options, `h` among them; null where all is well. */
export function singleDash(words: readonly string[], { options }: Command): Refusal | null {
  const typed = words.find((word) => /^-[a-z]/i.test(word) && word !== '-h');
  if (typed === undefined) return null;
  const name = optionName(`-${typed}`);
  return new Refusal(
    `Options are typed with two dashes: --${name in options ? name : 'height, for instance'}.`,
  );
}

/**
 * For `--json=maybe`, which yargs takes as no; null where all is well. Yargs knows an option of two words as
 * `--skipDashed`, too.
 */
export function noYesOrNo(words: readonly string[], { options }: Command): Refusal | null {
  for (const word of words) {
    const [, name, value] = /^--([^=]+)=(.*)$/s.exec(word) ?? ['', '', 'true'];
    const asListed = name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
    const isFlag = options[asListed]?.type === 'boolean' || name === 'help' || name === 'version';
    if (isFlag && value !== 'true' && value !== 'false')
      return new Refusal(`--${asListed} takes true or false, not ${JSON.stringify(value)}.`);
  }
  return null;
}

function noOption(command: Command, name: string, commands: readonly Command[]): string {
  const having = commands.filter(({ options }) => name in options).map(commandName);
  const hint =
    having.length > 0
      ? ` ${sayIn('in').list(having)} ${having.length === 1 ? 'has' : 'have'}.`
      : didYouMean(name, Object.keys(command.options));
  return `${commandName(command)} has no option --${name}.${hint}`;
}

/** Of `--name` or `--name=value`. */
function optionName(word: string): string {
  return word.slice(2).split('=')[0];
}
