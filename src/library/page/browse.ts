/// <reference lib="dom" />
/**
 * What runs in the library page: filtering and sorting the cards that stand in it already. The page carries this
 * function as text, so it uses nothing but its arguments and the browser.
 */
import type { Card, Order, Wanted } from '../card.js';

export interface PageData {
  readonly cards: readonly Card[];
  /** Millimetres in one of the unit that the page's fields are in. */
  readonly mmPerUnit: number;
}

export function browse(
  data: PageData,
  suits: (card: Card, wanted: Wanted) => boolean,
  inOrder: (a: Card, b: Card, order: Order) => number,
): void {
  const form = document.querySelector('form')!;
  const list = document.querySelector<HTMLElement>('#motifs')!;
  const count = document.querySelector('output')!;
  const items = [...list.children] as HTMLElement[];

  const text = (name: string) =>
    (form.elements.namedItem(name) as HTMLInputElement).value.trim() || undefined;
  const number = (name: string) => {
    const value = Number(text(name)?.replace(',', '.'));
    return Number.isFinite(value) && value > 0 ? value : undefined;
  };
  // Half a thousandth more, so that a motif exactly as high as was typed is in.
  const slackMm = 0.5;
  const length = (name: string, slack: number) => {
    const value = number(name);
    return value === undefined ? undefined : value * data.mmPerUnit + slack;
  };

  function show(): void {
    const wanted: Wanted = {
      words: text('words'),
      creator: text('creator'),
      status: text('status') as Wanted['status'],
      minHeightMm: length('minHeight', -slackMm),
      maxHeightMm: length('maxHeight', slackMm),
      minSpacingMm: length('minSpacing', -slackMm),
      maxSpacingMm: length('maxSpacing', slackMm),
      maxOpenMm: length('maxOpen', slackMm),
      maxStitches: number('maxStitches'),
    };
    const order = (text('order') ?? 'name') as Order;
    const ranked = data.cards.map((card, i) => ({ card, item: items[i] }));
    ranked.sort((a, b) => inOrder(a.card, b.card, order));
    let shown = 0;
    for (const { card, item } of ranked) {
      item.hidden = !suits(card, wanted);
      if (!item.hidden) shown++;
      list.append(item);
    }
    count.textContent = `${shown} of ${data.cards.length}`;
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
  show();
}
