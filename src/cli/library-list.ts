/** `linewright library list`: the motifs that suit, as a table. */
import { grouped } from '../../shared/grouped.js';
import { Refusal } from '../../shared/refusal.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { parseLength } from '../../shared/units.js';
import {
  type Card,
  cardsOf,
  inOrder,
  type Order,
  orders,
  slackMm,
  suits,
  type Wanted,
} from '../library/contents/card.js';
import { type LibraryIndex, readTags, type Verdict } from '../library/contents/index-file.js';
import { requireIndex } from '../library/tag.js';
import { didYouMean } from '../setup/index.js';
import type { ExitCode } from './exit-code.js';
import { loadSetup } from './load.js';
import type { Typed } from './options.js';
import { plain, wrap } from './page.js';
import { answering, print, printJson } from './print.js';
import { type Column, table } from './table.js';

export async function list(typed: Typed): Promise<ExitCode> {
  const folder = typed.folder as string;
  const setup = await loadSetup({ unit: typed.unit, config: typed.config });
  const wanted = wantedFrom(typed, setup);
  const order = orderFrom(typed.order as string);
  return answering(typed, () => answer(folder, wanted, order, setup, typed));
}

async function answer(
  folder: string,
  wanted: Wanted,
  order: Order,
  setup: Setup,
  typed: Typed,
): Promise<ExitCode> {
  const index = await requireIndex(folder);
  const cards = cardsOf(index, await readTags(folder))
    .filter((card) => suits(card, wanted))
    .sort((a, b) => inOrder(a, b, order));
  if (typed.json) printJson({ motifs: cards });
  else print(cards.length > 0 ? cardTable(cards, setup) : noCard(index, setup));
  return 0;
}

function noCard({ entries }: LibraryIndex, { unit }: Setup): string {
  if (entries.some(({ motif }) => motif)) return 'No motif suits.';
  return `There is no motif in it: ${sayIn(unit).count(entries.length, 'file')} could not be read.`;
}

const columns: readonly Column[] = [
  { head: 'name' },
  { head: 'designer' },
  { head: 'height', isNumber: true },
  { head: 'rows', isNumber: true },
  { head: 'layout' },
  { head: 'open', isNumber: true },
  { head: 'stitches', isNumber: true },
  { head: 'verdict' },
];

function cardTable(cards: readonly Card[], { unit }: Setup): string {
  const say = sayIn(unit);
  const rows = cards.map((card) => [
    plain(card.name),
    plain(card.creator),
    say.short(card.heightMm),
    say.short(card.spacingMm, card.spacingMm),
    card.layout,
    say.short(card.openMm),
    grouped(card.stitches),
    card.status,
  ]);
  return [...table(columns, rows), ...assumed(cards, say)].join('\n');
}

/** Heights that are a guess. */
function assumed(cards: readonly Card[], say: Say): string[] {
  const names = cards.filter(({ assumedSize }) => assumedSize).map(({ name }) => plain(name));
  if (names.length === 0) return [];
  const sentence = `Nobody has said how large ${say.list(names)} ${names.length === 1 ? 'is' : 'are'}, and the height is assumed: put the size into the drawing, or build with --height or --width.`;
  return ['', wrap(sentence)];
}

function wantedFrom(typed: Typed, { unit }: Setup): Wanted {
  const text = (name: string) => typed[name] as string | undefined;
  const length = (name: string, slack: number) => {
    const value = text(name);
    return value === undefined ? undefined : parseLength(value, unit, `--${name}`) + slack;
  };
  return {
    words: text('name'),
    creator: text('creator'),
    tag: text('tag'),
    status: verdictFrom(text('verdict')),
    minHeightMm: length('min-height', -slackMm),
    maxHeightMm: length('max-height', slackMm),
    minSpacingMm: length('min-spacing', -slackMm),
    maxSpacingMm: length('max-spacing', slackMm),
    maxOpenMm: length('max-open', slackMm),
    maxStitches: countFrom(text('max-stitches')),
  };
}

function countFrom(value: string | undefined): number | undefined {
  if (value === undefined) return undefined;
  const count = Number(value);
  if (Number.isInteger(count) && count >= 0) return count;
  throw new Refusal(`--max-stitches takes a whole number, not "${value}".`);
}

function verdictFrom(value: string | undefined): Verdict | undefined {
  const verdicts: readonly Verdict[] = ['clean', 'warnings', 'errors'];
  if (value === undefined || verdicts.includes(value as Verdict)) return value as Verdict | undefined;
  throw new Refusal(`--verdict takes ${verdicts.join(', ')}, not "${value}".${didYouMean(value, verdicts)}`);
}

function orderFrom(value: string): Order {
  if (orders.includes(value as Order)) return value as Order;
  throw new Refusal(`--order takes ${orders.join(', ')}, not "${value}".${didYouMean(value, orders)}`);
}
