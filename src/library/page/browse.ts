/// <reference lib="dom" />
/**
 * What runs in the library page: filtering and sorting the cards that stand in it already. The page carries this
 * function as text, so it uses nothing but its arguments and the browser.
 */
import type { Card, Order, Wanted } from '../contents/card.js';

export interface PageData {
  readonly cards: readonly Card[];
  /** Millimetres in one of the unit that the page's fields are in. */
  readonly mmPerUnit: number;
  /** By the unit typed, in small letters. */
  readonly mmPer: Readonly<Record<string, number>>;
  /** By how much a motif may miss a length and still suit. */
  readonly slackMm: number;
}

export function browse(
  data: PageData,
  suits: (card: Card, wanted: Wanted) => boolean,
  inOrder: (a: Card, b: Card, order: Order, by: 'title') => number,
): void {
  const form = document.querySelector('form')!;
  const list = document.querySelector<HTMLElement>('#motifs')!;
  const count = document.querySelector('output')!;
  const items = [...list.children] as HTMLElement[];

  const text = (name: string) =>
    (form.elements.namedItem(name) as HTMLInputElement).value.trim() || undefined;
  /** A field that cannot be read is marked, named beside the count, and does not filter. */
  const readable = (name: string, value: number, write: string) => {
    const wrong = text(name) !== undefined && !Number.isFinite(value);
    const field = form.elements.namedItem(name) as HTMLInputElement;
    field.setAttribute('aria-invalid', String(wrong));
    if (wrong) unread.push({ typed: text(name)!, write });
    return Number.isFinite(value) ? value : undefined;
  };
  const length = (name: string, slack: number) => {
    const value = readable(name, millimetres(text(name) ?? ''), '9 1/2, 9.5 or 240 mm');
    return value === undefined ? undefined : value + slack;
  };
  const whole = (name: string) =>
    readable(name, Number(text(name)?.replace(/[\s,.](?=\d{3}\b)/g, '')), 'a whole number');
  let unread: { typed: string; write: string }[] = [];

  /** Of `9 1/2`, `9½`, `9-1/2"`, `9,5` or `240 mm`; NaN where it is no length. */
  function millimetres(typed: string): number {
    const plain = typed
      .replace(/[¼-¾⅐-⅞]/g, (sign) => ` ${sign.normalize('NFKD')}`)
      .replace('\u2044', '/')
      .trim();
    const parts = /^(?:(?:(\d+)[\s-]+)?(\d+)\s*\/\s*(\d+)|(\d+(?:[.,]\d*)?|[.,]\d+))\s*(\D*)$/.exec(plain);
    if (!parts) return Number.NaN;
    const [, wholes = '0', upper, lower, decimal, suffix] = parts;
    const value = decimal
      ? Number(decimal.replace(',', '.'))
      : Number(wholes) + Number(upper) / Number(lower);
    const unit = suffix.toLowerCase().replace(/\.$/, '');
    return value * (unit === '' ? data.mmPerUnit : (data.mmPer[unit] ?? Number.NaN));
  }

  function show(): void {
    unread = [];
    const { slackMm } = data;
    const wanted: Wanted = {
      words: text('words'),
      designer: text('creator'),
      status: text('status') as Wanted['status'],
      minHeightMm: length('minHeight', -slackMm),
      maxHeightMm: length('maxHeight', slackMm),
      minSpacingMm: length('minSpacing', -slackMm),
      maxSpacingMm: length('maxSpacing', slackMm),
      maxOpenMm: length('maxOpen', slackMm),
      maxStitches: whole('maxStitches'),
    };
    const order = (text('order') ?? 'name') as Order;
    const ranked = data.cards.map((card, i) => ({ card, item: items[i] }));
    ranked.sort((a, b) => inOrder(a.card, b.card, order, 'title'));
    let shown = 0;
    for (const { card, item } of ranked) {
      item.hidden = !suits(card, wanted);
      if (!item.hidden) shown++;
      list.append(item);
    }
    const hint = unread.map(({ typed, write }) => `; "${typed}" is not understood: write ${write}`);
    count.textContent = `${shown} of ${data.cards.length}${hint.join('')}`;
  }

  form.addEventListener('input', show);
  form.addEventListener('submit', (event) => event.preventDefault());
  // The fields are empty again only after the event.
  form.addEventListener('reset', () => setTimeout(show));
  document.addEventListener('keydown', (event) => {
    const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLSelectElement;
    if (event.key === '/' && !typing) {
      event.preventDefault();
      (form.elements.namedItem('words') as HTMLInputElement).focus();
    }
  });
  // Also after going back to the page: the fields hold again what was typed.
  window.addEventListener('pageshow', show);
  show();
}
