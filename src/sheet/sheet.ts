/**
 * A motif's sheet: one page of HTML with everything in it, to print and pin up beside the machine. Nothing is
 * loaded from elsewhere, and its content policy forbids that it could be.
 */

import { creditWords } from '../../shared/credit-words.js';
import type { Finding } from '../../shared/finding.js';
import { flagged } from '../../shared/flags.js';
import { grouped } from '../../shared/grouped.js';
import type { Layout } from '../../shared/layout.js';
import type { Nesting } from '../../shared/rows.js';
import { sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { type Html, html, trusted, unbroken } from '../markup/html.js';
import { type RowsShown, rowsLegend } from '../picture/index.js';
import { sheetStyle } from './sheet-style.js';

export interface SheetContent {
  readonly study: Study;
  readonly findings: readonly Finding[];
  /** One for each layout. */
  readonly nestings: readonly Nesting[];
  readonly recommended: Layout;
  /** The rows in the picture. */
  readonly shown: RowsShown;
  /** What to do with the rows, in a sentence or two. */
  readonly advice: string;
  /** SVG text: the motif with its findings flagged, and the rows. */
  readonly motifPicture: string;
  readonly rowsPicture: string;
  /** What was mended, in sentences. */
  readonly mended: readonly string[];
}

export function writeSheet(content: SheetContent): string {
  const { motif } = content.study;
  const title = motif.credit.title ?? motif.name;
  return `${html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none';${motif.scan ? ' img-src data:;' : ''} style-src 'unsafe-inline'">
<title>${title}</title>
<style>${trusted(sheetStyle)}</style>
</head>
<body${isLong(content) && trusted(' class="long"')}>
${heading(content, title)}
<main>
<figure>${trusted(content.motifPicture)}
<figcaption>${captionOf(content)}</figcaption></figure>
${findingList(content)}
${mendedList(content.mended)}
<h2>Numbers</h2>
${numbers(content)}
<h2>Rows</h2>
<p>${unbroken(content.advice)}</p>
<figure>${trusted(content.rowsPicture)}
<figcaption>Three ${content.shown.layout} rows of three repeats, ${unbroken(spacingShown(content))}. ${rowsLegend(content.shown)}</figcaption></figure>
${layoutTable(content)}
${care}
</main>
${credits(content)}
</body>
</html>`}\n`;
}

/** "5 1/4 in (133.4 mm) apart, the spacing asked for" */
function spacingShown({ shown, study }: SheetContent): string {
  const { spacingMm } = shown.rows;
  const apart = `${sayIn(study.setup.unit).spacing(spacingMm)} apart`;
  if (!shown.chosen) return `${apart}, the even spacing`;
  return `${apart}, the spacing ${study.setup.spacingMm === null ? 'kept with the motif' : 'asked for'}`;
}

/** More text than this, in signs, and the sheet is printed smaller, so that two pages hold it. */
const longText = 900;

function isLong({ findings, mended }: SheetContent): boolean {
  const sentences = [...findings.map(({ message }) => message), ...mended];
  return sentences.reduce((sum, { length }) => sum + length, 0) > longText;
}

/** Only what the picture shows: of a motif in pieces there is no one start and end to mark. */
function captionOf({ study, findings }: SheetContent): string {
  const sentences = [
    study.motif.scan?.pale ? 'The scan lies pale under the line traced from it.' : '',
    study.strokes.length === 1 ? 'The triangle marks the start, the square the end.' : '',
    findings.some(({ places }) => places.length > 0)
      ? 'The numbered flags belong to the findings below.'
      : '',
  ];
  return sentences.filter(Boolean).join(' ');
}

function heading({ study, findings }: SheetContent, title: string): Html {
  const { creator, rights } = study.motif.credit;
  return html`<header>
<h1>${title}</h1>
${creator && html`<p>by ${creator}${rights && html` · ${rights}`}</p>`}
${!creator && rights && html`<p>${rights}</p>`}
<p class="verdict">${verdict(findings)}</p>
</header>`;
}

function verdict(findings: readonly Finding[]): string {
  const errors = findings.filter(({ severity }) => severity === 'error').length;
  const warnings = findings.filter(({ severity }) => severity === 'warning').length;
  const say = sayIn('in');
  if (errors > 0) return `${say.count(errors, 'error')}: not ready to stitch.`;
  if (warnings > 0) return `Can be stitched, with ${say.count(warnings, 'warning')} to look at.`;
  return 'Clean: ready for a test on scrap.';
}

const severityWords = { error: 'Error', warning: 'Warning', info: 'Note' } as const;

/** Each with the numbers of its flags on the picture. */
function findingList({ findings }: SheetContent): Html | null {
  if (findings.length === 0) return null;
  return html`<h2>Findings</h2>
<ul>${flagged(findings).map(({ finding: { severity, message }, flags }) => {
    const numbers = flags.map(({ number }) => `[${number}] `).join('');
    return html`<li class="${severity}">${numbers && html`<b>${numbers}</b>`}<b>${severityWords[severity]}:</b> ${unbroken(message)}</li>`;
  })}</ul>`;
}

function mendedList(mended: readonly string[]): Html | null {
  if (mended.length === 0) return null;
  return html`<h2>Mended</h2><ul>${mended.map((sentence) => html`<li>${unbroken(sentence)}</li>`)}</ul>`;
}

function numbers({ study }: SheetContent): Html {
  const { setup, stitches, repeat, strokes, crossings } = study;
  const say = sayIn(setup.unit);
  const rows: readonly (readonly [string, string])[] = [
    [
      'Size',
      `${say.size(study.widthMm, study.heightMm)}${study.motif.assumedSize ? ', assumed: the file states none' : ''}`,
    ],
    ['Repeat', `${say.length(repeat.dx)}${repeat.assumed ? ', assumed from the width' : ''}`],
    [
      'Line',
      `${say.length(study.lengthMm)}, ${say.count(strokes.length, 'stroke')}, ${crossings.more ? 'at least ' : ''}${say.count(crossings.places.length, 'crossing')}`,
    ],
    ['Stitches', `${grouped(stitches.count)} a repeat, at ${setup.stitchesPerInch} to the inch`],
    [
      'Thread',
      `needle ${say.thread(stitches.needleThreadM)}, bobbin ${say.thread(stitches.bobbinThreadM)} a repeat, ${setup.threadWastePercent} % for waste included`,
    ],
  ];
  return html`<div class="scroll"><table><tbody>${rows.map(
    ([name, value]) => html`<tr><th scope="row">${name}</th><td>${unbroken(value)}</td></tr>`,
  )}</tbody></table></div>`;
}

function layoutTable({ nestings, recommended, study }: SheetContent): Html {
  const say = sayIn(study.setup.unit);
  return html`<div class="scroll"><table class="layouts">
<thead><tr><th scope="col">Layout</th><th scope="col">Closest spacing</th><th scope="col">Even spacing</th><th scope="col">Open circle within a row</th><th scope="col">Open circle between rows</th></tr></thead>
<tbody>${nestings.map(
    ({
      layout,
      closestSpacingMm,
      evenSpacingMm,
      even,
    }) => html`<tr${layout === recommended && trusted(' class="chosen"')}>
<th scope="row">${layout}${layout === recommended && html`<small>recommended</small>`}</th><td data-name="closest spacing">${unbroken(say.spacing(closestSpacingMm))}</td><td data-name="even spacing">${unbroken(say.spacing(evenSpacingMm))}</td><td data-name="open circle within a row">${even.inner ? unbroken(say.length(even.inner.diameterMm)) : 'none'}</td><td data-name="open circle between rows">${even.seam ? unbroken(say.length(even.seam.diameterMm)) : 'none'}</td></tr>`,
  )}</tbody></table></div>
<p>Spacing is measured from a point of one row to the same point of the next, for a clearance of ${unbroken(say.length(study.setup.clearanceMm))} between the lines of neighbouring rows.</p>`;
}

const care = html`<section class="care">
<h2>Before you stitch</h2>
<ul>
<li>Test on scrap first: the same batting, backing and thread.</li>
<li>The machine's head moves by itself once it is started. Keep hands, hair, sleeves and tools clear of it and of the needle, and keep the stop within reach.</li>
<li>The machine's manual decides how it is set up and run; the batting's label decides how far apart the quilting may be.</li>
</ul>
</section>`;

function credits({ study }: SheetContent): Html {
  const { credit, source } = study.motif;
  return html`<footer>${creditWords(credit, source?.file).map((line) => html`<p>${line}</p>`)}</footer>`;
}
