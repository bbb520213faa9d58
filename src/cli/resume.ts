/** `linewright resume`: what is left of a pass from where the stitching stopped. */
import { join } from 'node:path';
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { sayIn } from '../../shared/say.js';
import { parseLength } from '../../shared/units.js';
import { restPicture } from '../picture/rest-picture.js';
import { alignmentWords } from '../plan/alignment-words.js';
import { inMicrons, strokesMark, withStrokes } from '../plan/plan-json.js';
import { type Resumed, type ResumeWanted, restInWords, resumePass, waysInWords } from '../plan/resume.js';
import { parsePlace } from '../setup/lengths.js';
import { writePng } from '../write/png.js';
import { alignmentFrom, type Placed, placedFrom } from './alignment.js';
import { type Output, writeAllOrNone } from './all-or-none.js';
import type { ExitCode } from './exit-code.js';
import { loadSetup } from './load.js';
import { type LoadedPass, loadPass, passNumberFrom } from './load-plan.js';
import type { Typed } from './options.js';
import { pageOn } from './page.js';
import { passName, passOutputs } from './pass-files.js';
import { answering, print } from './print.js';
import { namedExporters } from './write-all.js';

const picturePx = 1200;

export async function resume(typed: Typed): Promise<ExitCode> {
  const setup = await loadSetup(typed);
  const { unit } = setup;
  const asked = {
    number: passNumberFrom(typed),
    atMm: parsePlace(typed.at as string, unit, '--at'),
    which: whichFrom(typed.which),
    overlapMm: parseLength(typed.overlap as string, unit, '--overlap'),
    placed: placedFrom(typed, unit),
    forms: namedExporters(typed.to as string),
  };
  return answering(typed, async () =>
    answer(await loadPass(typed.plan as string, asked.number, setup), asked, typed),
  );
}

interface Asked extends ResumeWanted {
  readonly placed: Placed | null;
  readonly forms: ReturnType<typeof namedExporters>;
}

async function answer(loaded: LoadedPass, asked: Asked, typed: Typed): Promise<ExitCode> {
  const { pass, setup } = loaded;
  const alignment = asked.placed && alignmentFrom(asked.placed, pass);
  const resumed = resumePass(pass, asked, setup);
  const { rest, ways } = resumed;
  if (rest === null) return askWhich(resumed, loaded, typed);
  const { apply, ...lined } = alignment ?? { apply: (line: Polyline) => line };
  const strokes = rest.strokes.map(apply);
  const before = loaded.plan.passes.filter(({ pass: number }) => number < pass.pass);
  const done = [...before.flatMap((each) => each.strokes), ...rest.done.map(apply)];
  const outputs = await outputsOf({ strokes, links: rest.links }, done, loaded, asked, typed);
  await writeAllOrNone(outputs, { force: typed.force as boolean, inputs: [loaded.file] });
  const written = outputs.map(({ path }) => path);
  if (typed.json) {
    const document = {
      pass: pass.pass,
      atMm: rest.way.atMm,
      offMm: rest.way.offMm,
      doneMm: rest.way.alongMm,
      leftMm: rest.leftMm,
      stitchesLeft: rest.stitchesLeft,
      ways: ways.map(({ which, alongMm }) => ({ which, alongMm })),
      ...(alignment && { aligned: lined }),
      strokes: strokesMark,
      written,
    };
    print(withStrokes(inMicrons(document), [strokes]));
    return 0;
  }
  const say = sayIn(setup.unit);
  const page = pageOn(process.stdout);
  const told = [
    restInWords(pass.pass, rest, say),
    ...(alignment ? alignmentWords(alignment, say) : []),
    ...written.map((path) => `Written: ${page.plain(path)}`),
    ...(typed.out === undefined ? ['Nothing is written: name a folder with --out.'] : []),
  ];
  for (const each of told) print(page.wrap(each));
  return 0;
}

/** The line comes by more than once: which time it was, only the person at the machine knows. */
function askWhich({ ways }: Resumed, { pass, setup }: LoadedPass, typed: Typed): ExitCode {
  const sentence = `The line of pass ${pass.pass} comes by there ${ways.length === 2 ? 'twice' : `${ways.length} times`}. Say which time it was:`;
  if (typed.json) {
    const { offMm } = ways.reduce((a, b) => (b.offMm < a.offMm ? b : a));
    print(
      inMicrons({
        pass: pass.pass,
        atMm: null,
        offMm,
        doneMm: null,
        leftMm: null,
        stitchesLeft: null,
        ways: ways.map(({ which, alongMm }) => ({ which, alongMm })),
        strokes: [],
        written: [],
        error: sentence.replace(' Say which time it was:', ''),
      }),
    );
  }
  const page = pageOn(process.stderr);
  const lines = waysInWords(ways, sayIn(setup.unit)).map((each) => page.wrap(each, '  '));
  for (const each of [page.wrap(sentence), ...lines]) process.stderr.write(`${each}\n`);
  return 2;
}

/** The forms asked for, and the picture, which takes the place of a plain one. */
async function outputsOf(
  rest: Parameters<typeof passOutputs>[0],
  done: readonly Polyline[],
  { plan, pass }: LoadedPass,
  asked: Asked,
  typed: Typed,
): Promise<Output[]> {
  if (typed.out === undefined) return [];
  const folder = typed.out as string;
  const name = `${passName(pass.pass)}-rest`;
  const forms = asked.forms.filter(({ name: form }) => form !== 'png');
  const picture = restPicture(plan.quilt, done, rest.strokes, { widthPx: picturePx });
  return [
    ...(await passOutputs(rest, name, plan, forms, folder)),
    { path: join(folder, `${name}.png`), data: await writePng(picture, picturePx) },
  ];
}

function whichFrom(typed: unknown): number | null {
  if (typed === undefined) return null;
  const number = Number(typed);
  if (Number.isInteger(number) && number >= 1) return number;
  throw new Refusal(`--which takes the number of a way, from 1, not "${typed}".`);
}
