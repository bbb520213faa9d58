#!/usr/bin/env node
/**
 * How many changes of the code the tests notice: Stryker changes it in one place at a time and runs the tests of that
 * room that come through there.
 *
 *     npm run mutants -- src/rows                 a room, with the tests of that room
 *     npm run mutants -- src/rows/even.ts rules   files and rooms, one after another
 *     npm run mutants -- src/mend --sample 10% --seed 2
 *     npm run mutants -- src/mend --tests 'test/mend/accounts.test.ts,test/mend/row-cut.test.ts'
 *
 * A room takes from minutes to hours. Texts and tables that are made when a file is loaded are left alone. With --sample
 * each change is tried with that chance, the same ones for the same seed. Prints the share noticed of each file and of
 * the room, and every change that nothing noticed. With --tests only these rooms or files of tests are run, one after
 * another (`*` in the name of a file): quick ones tell in minutes what they notice by themselves. Not part of CI.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join, relative, resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { isInSample } from './sample.mjs';

const here = import.meta.dirname;
const root = resolve(here, '../..');
/**
 * The tests of each room, the quick ones first: the others are run on what those do not notice. Of the rules those that
 * plant defects into whole motifs are left out, since each comes by every rule; they would notice more, not less. Lines
 * are noded for the route, so the tests of the route look after the network as well.
 */
const testsOf = {
  rules: ['test/rules/judges.test.ts', 'test/rules/says-*.test.ts', 'test/rules/corpus.test.ts'],
  'src/rows': [
    'test/rows/words.test.ts',
    'test/rows/row.test.ts',
    'test/rows/recommend.test.ts',
    'test/rows/closed-forms.test.ts',
    'test/rows',
  ],
  'src/route': ['test/route', 'test/mend/retrace.test.ts', 'test/mend'],
  'src/mend/centre.ts': ['test/mend/centre.test.ts', 'test/mend', 'test/centre'],
  'src/mend': [
    'test/mend/route-text.test.ts',
    'test/mend/row-trouble.test.ts',
    'test/mend/route-accounts.test.ts',
    'test/mend/bends.test.ts',
    'test/mend/row-cut.test.ts',
    'test/mend/accounts.test.ts',
    'test/mend/put-down.test.ts',
    'test/mend/reach.test.ts',
    'test/mend/centre.test.ts',
    'test/mend/thin.test.ts',
    'test/mend/mends.test.ts',
    'test/mend',
  ],
  'src/measure': ['test/measure'],
  'src/network': ['test/network', 'test/route', 'test/measure', 'test/mend'],
  'src/plan': ['test/plan'],
};

const { positionals, values } = parseArgs({
  allowPositionals: true,
  options: {
    sample: { type: 'string', default: '100%' },
    seed: { type: 'string', default: '1' },
    tests: { type: 'string' },
  },
});
const share = Number.parseFloat(values.sample) / 100;
if (!(share > 0 && share <= 1)) fail(`--sample takes a percentage such as 10%, not "${values.sample}".`);
const wanted = positionals.length > 0 ? positionals : Object.keys(testsOf);
const jobs = wanted.map((path) => {
  const own = relative(root, resolve(root, path));
  const room = Object.keys(testsOf).find((each) => own === each || own.startsWith(`${each}/`));
  if (!room || !existsSync(join(root, own)))
    fail(`"${path}" is no room or file of these: ${Object.keys(testsOf).join(', ')}.`);
  return { own, tests: values.tests?.split(',') ?? testsOf[room] };
});

// Its hundred and more packages are no part of the project's own.
if (!existsSync(join(here, 'node_modules')))
  execFileSync('npm', ['ci', '--no-audit', '--no-fund'], { cwd: here, stdio: 'inherit' });
process.chdir(root);
const { Stryker } = await import('@stryker-mutator/core');

const all = [];
for (const { own, tests } of jobs) {
  console.log(
    `\n${own}, noticed by ${tests.join(', ')}${share < 1 ? `; a sample of ${values.sample}, seed ${values.seed}` : ''}`,
  );
  const found = await changesOf(own, tests);
  all.push(...found);
  tell(own, found);
}
if (jobs.length > 1) tellShare('in all', all);

/** Each change that was tried, with what became of it. */
async function changesOf(own, tests) {
  process.env.LINEWRIGHT_TESTS = tests.join();
  const report = join(mkdtempSync(join(tmpdir(), 'linewright-mutants-')), 'report.json');
  await new Stryker({
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner', join(here, 'sample.mjs')].map((name) =>
      name.startsWith('@') ? import.meta.resolve(name) : name,
    ),
    mutate: [/\.ts$/.test(own) ? own : `${own}/**/*.ts`, '!**/*.d.ts'],
    vitest: { dir: 'test', configFile: 'test/mutants/vitest.config.mjs' },
    coverageAnalysis: 'perTest',
    // What is made once when a file is loaded (texts, tables) would ask for all tests of the room each time.
    ignoreStatic: true,
    concurrency: 1,
    checkers: share < 1 ? ['sample'] : [],
    sample: { share, seed: values.seed },
    warnings: { unknownOptions: false },
    reporters: ['json', 'progress-append-only'],
    jsonReporter: { fileName: report },
    // Outside of the project: its tests would be found there again.
    tempDirName: join(tmpdir(), 'linewright-mutants'),
    dryRunTimeoutMinutes: 60,
    ignorePatterns: ['/dist', '/demo-out', '/test/bench', '/src/desk'],
    // It would be rewritten with the compiler's JavaScript API, which the one of this project no longer has.
    tsconfigFile: 'none',
    timeoutMS: 30_000,
    timeoutFactor: 3,
    logLevel: 'warn',
    allowEmpty: true,
  }).runMutationTest();
  const { files } = JSON.parse(readFileSync(report, 'utf8'));
  rmSync(dirname(report), { recursive: true });
  return Object.entries(files).flatMap(([file, { source, mutants }]) =>
    mutants
      .filter(({ status }) => status !== 'Ignored')
      .map((mutant) => ({ ...mutant, file, source }))
      .filter((mutant) => isInSample(mutant, { share, seed: values.seed })),
  );
}

function tell(own, changes) {
  const unnoticed = changes.filter((change) => !isNoticed(change));
  for (const file of new Set(changes.map((change) => change.file)))
    tellShare(
      file,
      changes.filter((change) => change.file === file),
    );
  tellShare(own, changes);
  if (unnoticed.length > 0) console.log('\nNothing noticed:');
  for (const { file, location, source, replacement, mutatorName, status } of unnoticed) {
    const { start, end } = location;
    const was =
      start.line === end.line
        ? source.split('\n')[start.line - 1].slice(start.column - 1, end.column - 1)
        : '…';
    const nobody = status === 'NoCoverage' ? ' (no test comes by)' : '';
    console.log(
      `  ${file}:${start.line}:${start.column} ${mutatorName}: ${was} -> ${replacement.split('\n')[0]}${nobody}`,
    );
  }
}

/** A change that ends nowhere is noticed too. */
function isNoticed({ status }) {
  return status === 'Killed' || status === 'Timeout' || status === 'RuntimeError';
}

function tellShare(name, changes) {
  const noticed = changes.filter(isNoticed).length;
  const percent = changes.length === 0 ? '' : `${((100 * noticed) / changes.length).toFixed(0)} %`;
  console.log(`  ${percent.padStart(5)}  ${noticed} of ${changes.length}  ${name}`);
}

function fail(sentence) {
  console.error(sentence);
  process.exit(2);
}
