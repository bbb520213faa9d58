/** `linewright align`: a pass turned and moved to where the quilt lies after it has been rolled on. */
import { sayIn } from '../../shared/say.js';
import { alignmentWords } from '../plan/alignment-words.js';
import { inMicrons, strokesMark, withStrokes } from '../plan/plan-json.js';
import { alignmentFrom, type Placed, placedFrom } from './alignment.js';
import { writeAllOrNone } from './all-or-none.js';
import type { ExitCode } from './exit-code.js';
import { loadSetup } from './load.js';
import { type LoadedPass, loadPass, passNumberFrom } from './load-plan.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { passName, passOutputs } from './pass-files.js';
import { answering, print } from './print.js';
import { namedExporters } from './write-all.js';

export async function align(typed: Typed): Promise<ExitCode> {
  const setup = await loadSetup(typed);
  const number = passNumberFrom(typed);
  const placed = placedFrom(typed, setup.unit)!;
  const forms = namedExporters(typed.to as string);
  return answering(typed, async () =>
    answer(await loadPass(typed.plan as string, number, setup), placed, forms, typed),
  );
}

async function answer(
  { plan, pass, setup, file }: LoadedPass,
  placed: Placed,
  forms: ReturnType<typeof namedExporters>,
  typed: Typed,
): Promise<ExitCode> {
  const { apply, ...alignment } = alignmentFrom(placed, pass);
  const aligned = { strokes: pass.strokes.map(apply), links: pass.links };
  const folder = typed.out as string | undefined;
  const outputs =
    folder === undefined
      ? []
      : await passOutputs(aligned, `${passName(pass.pass)}-aligned`, plan, forms, folder);
  await writeAllOrNone(outputs, { force: typed.force as boolean, inputs: [file] });
  const written = outputs.map(({ path }) => path);
  if (typed.json) {
    const document = { pass: pass.pass, ...alignment, strokes: strokesMark, written };
    print(withStrokes(inMicrons(document), [aligned.strokes]));
    return 0;
  }
  const page = pageOn(process.stdout);
  for (const each of alignmentWords({ ...alignment, apply }, sayIn(setup.unit)))
    print(page.wrap(`Pass ${pass.pass}: ${each}`));
  for (const path of written) print(page.wrap(`Written: ${page.plain(path)}`));
  if (folder === undefined) print(page.wrap('Nothing is written: name a folder with --out.'));
  return 0;
}
