/** `linewright convert`: motifs in other forms. It judges nothing. */
import type { Layout } from '../../shared/layout.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { settings } from '../setup/index.js';
import { assumedSizeKey } from '../tasks/assumed-size.js';
import type { Converted } from './convert-file.js';
import { type ExitCode, worst } from './exit-code.js';
import { eachFile } from './file-work.js';
import { inputsFrom } from './inputs.js';
import { loadSetup } from './load.js';
import type { Typed } from './options.js';
import { plain, wrap } from './page.js';
import { print, printJson } from './print.js';
import { exportersTyped } from './write-all.js';

interface ConvertReport {
  readonly file: string;
  readonly assumedSize?: true;
  readonly written: readonly string[];
  readonly error?: string;
}

export async function convert(typed: Typed): Promise<ExitCode> {
  const setup = await loadSetup(typed);
  // What is wrong with the call is said before any file is touched.
  exportersTyped(typed);
  const pixels = pixelsFrom(typed.pixels as string | undefined);
  const rows = rowsFrom(typed.rows);
  const { files, jobs, lacking } = await inputsFrom(typed);
  const say = sayIn(setup.unit);
  const run = {
    command: 'convert',
    typed: { ...typed, pixels, rows },
    setup,
    inputs: files,
    colour: false,
  } as const;
  const done: ConvertReport[] = [];
  await eachFile<Converted>(jobs, run, ({ result, refused: error }, { file }) => {
    if (result === undefined) {
      done.push({ file, written: [], error });
      return;
    }
    const { widthMm, heightMm, remarks, written } = result;
    done.push({ file, ...assumedSizeKey(result), written });
    if (typed.json) return;
    print(`${plain(file)}: ${say.size(widthMm, heightMm)} -> ${written.map(plain).join(', ')}`);
    for (const remark of remarks) print(wrap(plain(remark), '  '));
  });
  if (typed.json) printJson({ files: done, ...lacking });
  return worst([lacking.complaints ? 2 : 0, ...done.map(({ error }) => (error === undefined ? 0 : 2))]);
}

function pixelsFrom(typed: string | undefined): number {
  if (typed === undefined) return 480;
  const pixels = Number(typed);
  if (Number.isInteger(pixels) && pixels >= 16 && pixels <= 20_000) return pixels;
  throw new Refusal(`--pixels takes a whole number from 16 to 20000, not ${JSON.stringify(typed)}.`);
}

function rowsFrom(typed: unknown): Layout | null {
  if (typed === undefined) return null;
  return settings.layout.parse(typed, '--rows', 'in') as Layout;
}
