/** `linewright align`: a pass turned and moved to where the quilt lies after it has been rolled on. */
import { sayIn } from '../../shared/say.js';
import { alignmentWords } from '../plan/alignment-words.js';
import { inMicrons, strokesMark, withStrokes } from '../plan/plan-json.js';
import { alignmentFrom } from './alignment.js';
import { writeAllOrNone } from './all-or-none.js';
import type { ExitCode } from './exit-code.js';
import { loadPass } from './load-plan.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { passName, passOutputs } from './pass-files.js';
import { print } from './print.js';
import { namedExporters } from './write-all.js';

export async function align(typed: Typed): Promise<ExitCode> {
  const { plan, pass, setup, file } = await loadPass(typed);
  const { apply, ...alignment } = alignmentFrom(typed, pass, setup.unit);
  const aligned = { strokes: pass.strokes.map(apply), links: pass.links };
  const folder = typed.out as string | undefined;
  const outputs =
    folder === undefined
      ? []
      : await passOutputs(
          aligned,
          `${passName(pass.pass)}-aligned`,
          plan,
          namedExporters(typed.to as string),
          folder,
        );
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
