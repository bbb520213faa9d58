/**
 * The library page: every motif as a card with its picture, and below them what could not be read or still has
 * errors. The cards stand in the page as HTML, so that it reads and prints without its script too; it loads nothing
 * but the pictures that lie beside it, and its content policy forbids more.
 */
import { type Say, sayIn } from '../../../shared/say.js';
import type { LengthUnit } from '../../../shared/setup.js';
import { mmPer, mmPerInch } from '../../../shared/units.js';
import { type Html, html, trusted, unbroken } from '../../markup/html.js';
import { type Card, cardsOf, inOrder, orders, slackMm, suits } from '../contents/card.js';
import {
  type Entry,
  type LibraryIndex,
  type MotifEntry,
  motifsFolder,
  type Tags,
} from '../contents/index-file.js';
import { browse, type PageData } from './browse.js';
import { pageStyle } from './style.js';

const verdictWords = {
  clean: 'Clean',
  warnings: 'Warnings',
  errors: 'Errors',
  unreadable: 'Could not be read',
} as const;

/** By this a page is known as one that a library made. */
export const pageMark = '<meta name="generator" content="Linewright library">';

/** The page as HTML text; the same index and tags give the same page. Motifs lead to the desk where it lies beside the page. */
export function libraryPage(index: LibraryIndex, tags: Tags, unit: LengthUnit, hasDesk: boolean): string {
  const cards = cardsOf(index, tags).sort((a, b) => inOrder(a, b, 'name', 'title'));
  const say = sayIn(unit);
  const motifs = new Map(index.entries.flatMap(({ motif }) => (motif ? [[motif.name, motif]] : [])));
  const creators = [...new Set(cards.map(({ creator }) => creator).filter(Boolean))].sort();
  const data: PageData = { cards, mmPerUnit: unit === 'in' ? mmPerInch : 1, mmPer, slackMm };
  return `${html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; img-src 'self' file: data:; style-src 'unsafe-inline'; script-src 'unsafe-inline'">
${trusted(pageMark)}
<title>Motif library</title>
<style>${trusted(pageStyle)}</style>
<noscript><style>form { display: none; }</style></noscript>
</head>
<body>
<h1>Motif library</h1>
<p>${summary(index, say)}</p>
${filterForm(creators, unit)}
<main>
<ul id="motifs">${cards.map((card) => cardItem(card, motifs.get(card.name)!, say, hasDesk))}</ul>
${trouble(index.entries)}
</main>
<footer><p>A bought motif stays under its designer's licence: credits go along with every file of this library.</p></footer>
<script>
(${trusted(scriptText(browse))})(${trusted(scriptJson(data))}, ${trusted(scriptText(suits))}, ${trusted(scriptText(inOrder))});
</script>
</body>
</html>`}\n`;
}

function summary({ entries }: LibraryIndex, say: Say): string {
  const by = (status: Entry['status']) => entries.filter((entry) => entry.status === status).length;
  const motifs = entries.filter(({ motif }) => motif).length;
  return `${say.count(motifs, 'motif')}: ${by('clean')} clean, ${by('warnings')} with warnings, ${by('errors')} with errors; ${say.count(by('unreadable'), 'file')} could not be read.`;
}

function filterForm(creators: readonly string[], unit: LengthUnit): Html {
  const number = (name: string, label: string) => html`<label>${label}<input name="${name}"></label>`;
  const options = (values: readonly string[], words = values) =>
    values.map((value, i) => html`<option value="${value}">${words[i]}</option>`);
  const statuses = ['clean', 'warnings', 'errors'] as const;
  return html`<form class="screen" aria-label="Find motifs">
<label class="words">Name, tag or note<input name="words" type="search"></label>
<label>Designer<select name="creator"><option value="">any</option>${options(creators)}</select></label>
<label>Verdict<select name="status"><option value="">any</option>${options(
    statuses,
    statuses.map((status) => verdictWords[status]),
  )}</select></label>
${number('minHeight', `Height from (${unit})`)}
${number('maxHeight', `Height to (${unit})`)}
${number('minSpacing', `Spacing from (${unit})`)}
${number('maxSpacing', `Spacing to (${unit})`)}
${number('maxOpen', `Open circle to (${unit})`)}
${number('maxStitches', 'Stitches to')}
<label>Order by<select name="order">${options(orders)}</select></label>
<button type="reset">Show all</button>
<p>Shown: <output aria-live="polite"></output></p>
</form>`;
}

function sheetOf(name: string): string {
  return `${motifsFolder}/${encodeURIComponent(name)}.html`;
}

function cardItem(card: Card, motif: MotifEntry, say: Say, hasDesk: boolean): Html {
  const sheet = sheetOf(card.name);
  const toDesk = sheet.replace(/html$/, 'desk.htm');
  const leads = hasDesk && motif.files.some(({ path }) => path.endsWith('.desk.htm'));
  return html`
<li>
<a href="${sheet}"><img src="${sheet.replace(/html$/, 'png')}" alt="${`The line of ${card.title}`}" loading="lazy"></a>
<h3><a href="${sheet}">${card.title}</a></h3>
${card.name !== card.title && html`<p class="facts">${card.name}</p>`}
${(card.creator || card.rights) && html`<p class="by">${[card.creator && `by ${card.creator}`, card.rights].filter(Boolean).join(' · ')}</p>`}
<p class="verdict">${verdictWords[card.status]}</p>
<p class="facts">${unbroken(say.size(card.widthMm, card.heightMm))}${motif.assumedSize && ', size assumed'}</p>
<p class="facts">${unbroken(`Rows ${card.layout}, ${say.spacing(card.spacingMm)} apart`)}</p>
<p class="facts">${unbroken(`Open circle ${say.length(card.openMm)}`)}</p>
<p class="facts">${say.count(card.stitches, 'stitch')}</p>
${motif.same?.map(({ name, how }) => html`<p class="facts">Same line as <a href="${sheetOf(name)}">${name}</a>: ${how}</p>`)}
${card.tags.length > 0 && html`<p class="tags">${card.tags.map((tag) => html`<span>${tag}</span> `)}</p>`}
${card.note && html`<p class="facts">${card.note}</p>`}
${leads && html`<p class="facts screen"><a href="${toDesk}" aria-label="Open ${card.title} on the desk">Open on the desk</a></p>`}
</li>`;
}

function trouble(entries: readonly Entry[]): Html | null {
  const unwell = entries.filter(({ status }) => status === 'errors' || status === 'unreadable');
  if (unwell.length === 0) return null;
  return html`<h2>Not ready to stitch</h2>
<ul>${unwell.map(
    ({ source, reason, motif }) => html`
<li class="trouble">${
      motif === undefined
        ? reason
        : html`<b><a href="${sheetOf(motif.name)}">${motif.title ?? motif.name}</a></b> (${source}): ${motif.findings
            .filter(({ severity }) => severity === 'error')
            .map(({ message }) => message)
            .join(' ')}`
    }</li>`,
  )}</ul>`;
}

/** A function as text that cannot end the script element it stands in. */
function scriptText(code: (...args: never[]) => unknown): string {
  return code.toString().replaceAll('</', '<\\/');
}

function scriptJson(data: unknown): string {
  return JSON.stringify(data)
    .replaceAll('<', '\\u003c')
    .replaceAll('\u2028', '\\u2028')
    .replaceAll('\u2029', '\\u2029');
}
