/** The sheet of a plan: one page that a person follows at the machine, pass by pass, pencil in hand. */
import { creditWords } from '../../shared/credit-words.js';
import { grouped } from '../../shared/grouped.js';
import type { NumberedChoice, Pass, Plan } from '../../shared/plan.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { type Html, html, trusted, unbroken } from '../markup/html.js';
import { changesIn, minutesText, rowsWords } from '../plan/pass-words.js';
import { sheetStyle } from './sheet-style.js';

const planStyle = `
figure.quilt svg { max-height: 170mm; }
td.tick { width: 8mm; font-size: 15pt; line-height: 1; }
tbody tr { break-inside: avoid; }
.passes table { break-inside: auto; }
@media print { figure.quilt svg { max-height: 102mm; } .passes td, .passes th { white-space: normal; } }
`;

/** Backing and batting are larger than the top by this on every side, mm (common practice). */
const clothBeyondMm = 4 * 25.4;

export function writePlanSheet(plan: Plan, name: string, picture: string, setup: Setup): string {
  const say = sayIn(setup.unit);
  const { quilt, credit } = plan;
  const motif = credit.title ?? name;
  const onTop = `on a top of ${say.size(quilt.widthMm, quilt.heightMm)}`;
  return `${html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${motif} ${onTop}</title>
<style>${trusted(sheetStyle + planStyle)}</style>
</head>
<body>
<header><h1><bdi>${unbroken(motif)}</bdi> ${unbroken(onTop)}</h1>
${credit.creator && html`<p>by ${credit.creator}${credit.rights && html` · ${credit.rights}`}</p>`}
</header>
<main>
<figure class="quilt">${trusted(picture)}
<figcaption>The shaded area is the top, the frame round it how far the stitching goes. Passes are drawn in two inks by turns and numbered on the left; a triangle marks where a pass starts, an open square where it ends. Dashed: links along the border. A cross in a ring: where the needle is checked after rolling on.</figcaption></figure>
<h2>What to set</h2>
${whatToSet(plan, say, setup)}
<h2>Pass by pass</h2>
<p>Places are measured from the upper left corner of the top, across and then down; one with a minus lies in the margin, left of that corner or above it. Tick each pass when it is stitched.</p>
${passTable(plan, say)}
${goingWrong(plan)}
${care(plan, say)}
</main>
<footer><p>${creditWords(credit, plan.file.split(/[\\/]/).at(-1)).join(' · ')}</p></footer>
</body>
</html>`}\n`;
}

function whatToSet(plan: Plan, say: Say, setup: Setup): Html {
  const { quilt, totals, bobbins } = plan;
  const choice = plan.choices[plan.chosen - 1];
  const [backWidth, backHeight] = [quilt.widthMm, quilt.heightMm].map((mm) => mm + 2 * clothBeyondMm);
  const lines: readonly (readonly [string, string] | null)[] = [
    [
      'Motif height',
      `${say.length(choice.heightMm)}${plan.assumedSize ? ', assumed: its file states no size' : ''}`,
    ],
    [
      'Rows',
      totals.rows > 1 ? `${totals.rows}, ${choice.layout}, ${say.length(choice.spacingMm)} apart` : '1',
    ],
    ['Repeats across', String(choice.repeats)],
    ['First repeat starts', say.onTop(choice.firstMm)],
    ['Largest open circle', openWords(choice, setup, say)],
    ['Stitching past the top', quilt.marginMm > 0 ? `${say.length(quilt.marginMm)} on every side` : 'none'],
    setup.throatMm === null
      ? totals.rows > 1
        ? ['Planned for', 'no throat: all rows are taken as one pass']
        : null
      : [
          'Planned for',
          `a throat of ${say.length(setup.throatMm)}, the empty take-up roller ${say.length(setup.rollerMm)} across`,
        ],
    ['Stitches', `${grouped(totals.stitches)}, at ${setup.stitchesPerInch} to the inch`],
    [
      'Thread',
      `needle ${say.thread(totals.needleThreadM)}, bobbin ${say.thread(totals.bobbinThreadM)}, waste included`,
    ],
    bobbins && ['Bobbins', String(bobbins.needed)],
    totals.minutes === null
      ? null
      : [
          'Stitching',
          `${minutesText(totals.minutes)} minutes at ${grouped(setup.speed ?? 0)} stitches a minute`,
        ],
    totals.price === null ? null : ['Price', totals.price.toFixed(2)],
    [
      'Backing and batting',
      `at least ${say.size(backWidth, backHeight)}: 4 in larger than the top on every side`,
    ],
  ];
  return html`<div class="scroll"><table><tbody>${lines
    .filter((line) => line !== null)
    .map(
      ([name, value]) => html`<tr><th scope="row">${name}</th><td>${unbroken(value)}</td></tr>`,
    )}</tbody></table></div>`;
}

function openWords({ largestOpenMm }: NumberedChoice, { battingMm }: Setup, say: Say): string {
  if (battingMm === null) return say.length(largestOpenMm);
  return `${say.beside(largestOpenMm, battingMm)}; the batting allows ${say.length(battingMm)}${largestOpenMm > battingMm ? ' only' : ''}`;
}

function passTable(plan: Plan, say: Say): Html {
  const timed = plan.totals.minutes !== null;
  return html`<div class="scroll passes"><table>
<thead><tr><th scope="col">Done</th><th scope="col">Pass</th><th scope="col">Before it</th><th scope="col">Start at</th><th scope="col">Line and stitches</th>${timed && html`<th scope="col">Minutes</th>`}<th scope="col">Bobbin</th></tr></thead>
<tbody>${plan.passes.map(
    (pass) =>
      html`<tr><td class="tick">☐</td><th scope="row">${pass.pass}<small>${rowsWords(pass.rows, say)}</small></th><td>${unbroken(before(pass, say))}</td><td>${unbroken(startOf(pass, plan, say))}</td><td>${unbroken(say.thread(pass.lengthMm / 1000))}, ${grouped(pass.stitches)} stitches</td>${timed && html`<td>${minutesText(pass.minutes ?? 0)}</td>`}<td>${unbroken(changesIn(pass, plan, say).join('; ') || 'goes on')}</td></tr>`,
  )}</tbody></table></div>`;
}

/** With the side, which is seen sooner than a number. */
function startOf({ startMm: [x, y] }: Pass, { quilt }: Plan, say: Say): string {
  return `${x < quilt.widthMm / 2 ? 'On the left' : 'On the right'}: ${say.onTop([x, y])}`;
}

function before({ pass, advanceMm, checkMm }: Pass, say: Say): string {
  if (pass === 1) return 'Load the quilt; nothing is rolled on.';
  const roll = `Roll on by ${say.length(advanceMm)}.`;
  if (checkMm === null)
    return `${roll} First roll on less, so that the last row before can still be reached; check there that the needle meets its line at both sides, and then roll the rest.`;
  return `${roll} The needle must meet the stitching at ${say.onTop(checkMm[0])}, and at ${say.onTop(checkMm[1])}.`;
}

/** What to do at the machine, and what to type at the desk. */
function goingWrong({ passes }: Plan): Html {
  const checked = passes.find(({ checkMm }) => checkMm !== null);
  return html`<h2>If it does not go by plan</h2>
<ul>
<li>Stitching stopped inside a pass? Measure where, and have the rest of the pass written: <code>linewright resume FOLDER --pass 1 --at "ACROSS; DOWN"</code></li>
${checked && html`<li>The needle stands beside the places named? Read where it finds them, and have the pass lined up: <code>linewright align FOLDER --pass ${checked.pass} --found "ACROSS, DOWN; ACROSS, DOWN"</code></li>`}
</ul>
<p>FOLDER is where this sheet lies; --out names a folder for the new line.</p>`;
}

function care({ quilt }: Plan, say: Say): Html {
  return html`<section class="care">
<h2>Before you stitch</h2>
<ul>
<li>Test on scrap first: the same batting, backing and thread.</li>
${quilt.marginMm > 0 ? html`<li>The stitching goes ${unbroken(say.length(quilt.marginMm))} past the top, onto batting and backing: keep clamps and pins clear of it.</li>` : html`<li>There is no margin: links lie on the top's edge and stay there.</li>`}
<li>The machine's head moves by itself once it is started. Keep hands, hair, sleeves and tools clear of it and of the needle, and keep the stop within reach. Change the bobbin only with the machine halted.</li>
<li>The machine's manual decides how it is set up and run; the batting's label decides how far apart the quilting may be.</li>
</ul>
</section>`;
}
