/**
 * The demo, `npm run demo`: what the studio on the harbour does with its motifs, on the built program, command by
 * command. Everything it makes goes to demo-out/.
 */
import { spawnSync } from 'node:child_process';
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defaultSetup } from '../shared/setup.js';
import { placeAlong, polylineOf, runningLengths } from '../src/geometry/polyline.js';
import { readArtwork } from '../src/read/index.js';
import { toMotif } from '../src/size/index.js';
import { motifOf } from '../src/size/motif-of.js';
import { writeSvg } from '../src/write/index.js';
import { planted } from '../test/planted.js';

const root = fileURLToPath(new URL('..', import.meta.url));
const out = 'demo-out';
const motifs = readdirSync(join(root, 'corpus/motifs'))
  .filter((name) => name.endsWith('.svg'))
  .map((name) => `corpus/motifs/${name}`);

function say(text: string): void {
  console.log(`\n${text}\n`);
}

/** Runs the program as it would be typed, shown as `shown`, and stops the demo where it does not end with `code`. */
function linewright(
  words: readonly string[],
  { shown = words.join(' '), code = 0, quiet = false } = {},
): string {
  console.log(`$ linewright ${shown}`);
  const { status, stdout } = spawnSync(process.execPath, ['dist/main.js', ...words], {
    cwd: root,
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  if (!quiet) process.stdout.write(stdout);
  if (status !== code) throw new Error(`linewright ${shown} ended with ${status} instead of ${code}`);
  return stdout;
}

function convert(): void {
  say('The collection, as bought and drawn, becomes motif files, clean SVG and pictures:');
  linewright(['convert', ...motifs, '--out', `${out}/motifs`], {
    shown: `convert corpus/motifs/*.svg --out ${out}/motifs`,
  });
}

function check(): void {
  say('Will they stitch well? A line for each of so many; the whole reports are in demo-out/check.txt:');
  linewright(['check', ...motifs], { shown: 'check corpus/motifs/*.svg' });
  const reports = linewright(['check', ...motifs, '--full'], {
    shown: `check corpus/motifs/*.svg --full > ${out}/check.txt`,
    quiet: true,
  });
  writeFileSync(join(root, out, 'check.txt'), reports);
}

/** A retrace of 20 mm, a raised end, a gap of 0.3 mm and a stray dot in one motif. */
async function defects(): Promise<void> {
  say('One motif with defects planted in it, in words and, flags and all, as a picture:');
  const name = 'corpus/motifs/swell.svg';
  let motif = toMotif(await readArtwork(readFileSync(join(root, name)), name, defaultSetup), defaultSetup);
  for (const defect of ['a 20 mm retrace', 'a raised end', 'a gap of 0.3 mm'])
    motif = planted(motif).find((each) => each.name === defect)!.motif;
  const [line] = motif.strokes;
  const { x, y } = placeAlong(line, runningLengths(line), 30);
  const dot = polylineOf([
    { x, y: y + 12 },
    { x: x + 0.2, y: y + 12 },
  ]);
  const file = `${out}/swell-with-defects.svg`;
  writeFileSync(join(root, file), writeSvg(motifOf([...motif.strokes, dot], { name: 'swell with defects' })));
  linewright(['check', file, '--picture', out], { code: 1 });
  linewright(['rules', 'near-gap']);
}

function rows(): void {
  say('How far apart should the rows stand, and in which layout?');
  linewright(['rows', 'corpus/motifs/tide-lines.svg', '--picture', `${out}/tide-lines-rows.png`]);
}

function mend(): void {
  say('Drawings as they come out of a drawing program, in pieces, become one line each:');
  const pieces = readdirSync(join(root, 'corpus/pieces'))
    .filter((name) => name.endsWith('.svg'))
    .map((name) => `corpus/pieces/${name}`);
  const report = linewright(
    ['mend', ...pieces, '--reshape', '--out', `${out}/mended`, '--picture', `${out}/before-and-after`],
    {
      shown: `mend corpus/pieces/*.svg --reshape --out ${out}/mended --picture ${out}/before-and-after`,
      quiet: true,
    },
  );
  writeFileSync(join(root, out, 'mend.txt'), report);
  console.log(report.trimEnd().split('\n\n').slice(-2).join('\n\n'));
}

function plan(): void {
  say('A harbour quilt of 60 by 72 inches, planned for a throat of 18 inches:');
  const words = ['--throat', '18in', '--bobbin', '120yd', '--speed', '1500', '--out', `${out}/quilt`];
  linewright(['plan', 'corpus/motifs/kelp.svg', '--quilt', '60in x 72in', ...words], {
    shown: `plan corpus/motifs/kelp.svg --quilt "60in x 72in" ${words.join(' ')}`,
  });
}

function goOn(): void {
  const to = ['--out', `${out}/quilt`];
  say('The power failed in pass 3; the rest of it, with a picture that shows what is done in grey:');
  linewright(['resume', `${out}/quilt`, '--pass', '3', '--at', '23in; 38in', ...to], {
    shown: `resume ${out}/quilt --pass 3 --at "23in; 38in" ${to.join(' ')}`,
  });
  say('Rolled on a little askew: pass 4, turned and moved to where the needle found its two places:');
  const found = '-7/8in, 47 1/2in; 61 1/8in, 48 5/8in';
  linewright(['align', `${out}/quilt`, '--pass', '4', '--found', found, ...to], {
    shown: `align ${out}/quilt --pass 4 --found "${found}" ${to.join(' ')}`,
  });
}

function paper(): void {
  say('For a machine that is guided by hand: two rows at full size, on pages to put together:');
  linewright(['paper', 'corpus/motifs/kelp.svg', '--out', `${out}/kelp.pdf`]);
}

function library(): void {
  say('The whole collection as a library, with a page to browse and a sheet for each motif:');
  linewright(['library', 'build', 'corpus/motifs', '--out', `${out}/library`]);
  linewright(['library', 'list', `${out}/library`, '--max-open', '1 1/2in', '--order', 'open circle'], {
    shown: `library list ${out}/library --max-open "1 1/2in" --order "open circle"`,
  });
}

function desk(): void {
  say('All of it without a terminal, in one page for the browser:');
  linewright(['desk', '--out', `${out}/linewright.html`]);
}

rmSync(join(root, out), { recursive: true, force: true });
convert();
check();
await defects();
rows();
mend();
plan();
goOn();
paper();
library();
desk();
say(
  `Open ${out}/linewright.html and drop a motif on it. Look at ${out}/library/index.html, at ${out}/quilt/plan.html, and at the pictures in ${out}/.`,
);
