/** The worker's side: each question answered from the file and the choices, what was worked out last being kept. */
import { rules } from '../../rules/index.js';
import type { Finding } from '../../shared/finding.js';
import { type Layout, layouts } from '../../shared/layout.js';
import type { MendAccount, NotMended } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import { Refusal } from '../../shared/refusal.js';
import { chosenRows, keepsClear } from '../../shared/rows.js';
import { sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { lint } from '../lint/index.js';
import { type Status, statusOf } from '../lint/report.js';
import { requireStitchable, studyOf } from '../measure/index.js';
import { mendMotif } from '../mend/index.js';
import { mendPicture, rowsPicture } from '../picture/index.js';
import { adviceOn, howItLies, recommend, rowOfMotif } from '../rows/index.js';
import { changedByHand } from '../tasks/changes.js';
import { facts } from '../tasks/facts.js';
import { type Brought, motifFrom } from '../tasks/motif-from.js';
import { alignedSeen } from './aligned-seen.js';
import { type Change, setupOf } from './choices.js';
import { planSeen } from './plan-seen.js';
import type { Asking, Kind, Look, Offer, Offers, Questions, Rows, RowsSeen } from './questions.js';
import { restSeen } from './rest-seen.js';
import { savedFiles } from './saved-files.js';
import type { Worked } from './worked.js';

const files = new Map<number, Brought>();

/** Gets each motif that is worked on, so that another worker can go on from it. */
let handOver: (changed: Changed) => void = () => {};
let handedOver: Changed | null = null;

export function onWorked(tell: typeof handOver): void {
  handOver = tell;
}

export function takeOver(changed: Changed): void {
  handedOver = changed;
  kept.set(changed.key, changed);
}

export function bring(id: number, file: Brought): void {
  files.set(id, file);
}

type Answerer<K extends Kind> = (
  asked: Questions[K]['asked'],
) => Questions[K]['answer'] | Promise<Questions[K]['answer']>;

export const answers: { readonly [K in Kind]: Answerer<K> } = {
  look,
  offers,
  rows,
  spacing,
  plan: async (asking) => planSeen(await worked(asking)),
  rest: async (asking) => restSeen(await worked(asking)),
  aligned: async (asking) => alignedSeen(await worked(asking)),
  save: async (asking) => savedFiles(asking.what, asking.name, await worked(asking)),
};

function fileOf({ id }: Asking): Brought {
  const file = files.get(id);
  if (!file) throw new Refusal('This motif is no longer on the desk.');
  return file;
}

/** Results of a few steps, by what they follow from. */
const kept = new Map<string, unknown>();
const mostKept = 24;

async function keep<T>(key: string, work: () => T | Promise<T>): Promise<T> {
  const known = kept.get(key) as T | undefined;
  const result = known ?? (await work());
  kept.delete(key);
  kept.set(key, result);
  for (const oldest of kept.keys()) {
    if (kept.size <= mostKept) break;
    kept.delete(oldest);
  }
  return result;
}

/** A motif as it was read and changed. Plain data. */
export interface Changed {
  /** What it follows from. */
  readonly key: string;
  readonly motif: Motif;
  readonly done: readonly (readonly string[])[];
}

async function worked(asking: Asking): Promise<Worked> {
  const { setup } = setupOf(asking.choices);
  const so = await changed(asking, setup);
  if (so !== handedOver) handOver(so);
  handedOver = so;
  const study = await keep(keyOf('study', asking), () => studyOf(so.motif, setup));
  const finer = async (share: number) => {
    const { motif } = await changed(asking, { ...setup, flattenMm: setup.flattenMm / (1 + share) });
    return { motif, study: studyOf(motif, setup) };
  };
  return { ...so, file: fileOf(asking), choices: asking.choices, study, finer };
}

async function changed(asking: Asking, setup: Study['setup']): Promise<Changed> {
  const file = fileOf(asking);
  const { heightMm, widthMm, take, layers, colours, skipDashed, dpi, ink, flattenMm, unit } = setup;
  const read = [asking.id, heightMm, widthMm, take, layers, colours, skipDashed, dpi, ink, flattenMm, unit];
  const size = JSON.stringify(['changed', ...read]);
  const { changes } = asking.choices;
  const after = (count: number): Promise<Changed> => {
    const key = count === 0 ? size : `${size} ${setup.smoothMm} ${JSON.stringify(changes.slice(0, count))}`;
    return keep(key, async () =>
      count === 0
        ? { key, motif: await motifFrom(file, setup), done: [] }
        : { key, ...afterChange(await after(count - 1), changes[count - 1], setup) },
    );
  };
  return after(changes.length);
}

function afterChange({ motif, done }: Changed, change: Change, setup: Study['setup']): Omit<Changed, 'key'> {
  if (change.by !== 'mend')
    return { motif: changedByHand(motif, change), done: [...done, [byHand[change.by]]] };
  const { reshape, only } = change;
  const mended = mendMotif(motif, setup, { reshape, ...(only && { only }) });
  return { motif: mended.motif, done: [...done, mended.accounts.map(({ message }) => message)] };
}

const byHand = {
  reverse: 'Reversed the line.',
  mirror: 'Changed left and right about.',
  flip: 'Changed top and bottom about.',
  'quarter turn': 'Gave the motif a quarter turn.',
  start: 'Let the line start at another place.',
} as const;

function keyOf(what: string, { id, choices }: Asking): string {
  return JSON.stringify([what, id, choices.unit, choices.typed, choices.changes]);
}

function findingsOf(asking: Asking, { study }: Worked): Promise<Finding[]> {
  return keep(keyOf('findings', asking), () => lint(study, rules));
}

async function look(asking: Asking): Promise<Look> {
  const so = await worked(asking);
  const { study, motif, done } = so;
  const findings = await findingsOf(asking, so);
  return {
    name: motif.name,
    credit: motif.credit,
    strokes: motif.strokes,
    scan: motif.scan,
    widthMm: study.widthMm,
    heightMm: study.heightMm,
    assumedSize: motif.assumedSize,
    findings,
    status: statusOf(findings),
    facts: facts(study, sayIn(study.setup.unit)),
    done,
    flaws: setupOf(asking.choices).flaws,
  };
}

/** The best first. */
const statuses: readonly Status[] = ['clean', 'warnings', 'errors', 'unreadable'];

/** What mending would do: the set that changes nothing the eye sees, and everything, or what is ticked of it. */
async function offers(asking: Questions['offers']['asked']): Promise<Offers> {
  const so = await worked(asking);
  const { motif, study } = so;
  const before = statusOf(await findingsOf(asking, so));
  const { only } = asking;
  const all: { title: string; change: Change & { by: 'mend' } } =
    only === null
      ? { title: 'Put right everything, also what changes the look', change: { by: 'mend', reshape: true } }
      : { title: 'Put right what is ticked', change: { by: 'mend', reshape: true, only } };
  const safe = {
    title: 'Put right what the eye does not see',
    change: { by: 'mend', reshape: false },
  } as const;
  const found: Offer[] = [];
  let last = '';
  let left: readonly NotMended[] = [];
  for (const { title, change } of [safe, all]) {
    const { motif: after, accounts, notMended } = mendMotif(motif, study.setup, change);
    left = notMended;
    const does = accounts.map(accountWords(study));
    if (accounts.length === 0 || does.join() === last) continue;
    last = does.join();
    found.push({
      change,
      title,
      does,
      picture: mendPicture(motif, after, accounts, { widthPx: 900 }),
      before,
      after: statusOf(lint(studyOf(after, study.setup), rules)),
    });
  }
  // What helps comes first.
  found.sort((a, b) => statuses.indexOf(a.after) - statuses.indexOf(b.after));
  const inVain = left.map(({ mend }) => mend);
  return {
    ways: found,
    leaves: left.map(({ message }) => message),
    findings: only === null && inVain.length > 0 ? lint(study, rules, inVain) : null,
  };
}

function accountWords({ setup }: Study): (account: MendAccount) => string {
  const say = sayIn(setup.unit);
  return ({ message, movedMm }) =>
    `${message} ${movedMm >= 0.01 ? `Nothing moves by more than ${say.length(movedMm)}.` : 'Nothing moves.'}`;
}

async function rows(asking: Asking): Promise<Rows> {
  const { study, motif } = await worked(asking);
  requireStitchable(study);
  const { setup } = study;
  const nestings = layouts.map((layout) => study.nesting(layout));
  const recommended = recommend(nestings, setup.battingMm);
  const chosen = chosenRows(motif, setup);
  const layout = setup.layout ?? motif.rows?.layout ?? recommended;
  const nesting = nestings.find((each) => each.layout === layout)!;
  const say = sayIn(setup.unit);
  return {
    row: rowOfMotif(study),
    recommended,
    advice: [
      adviceOn(nestings.find((each) => each.layout === recommended)!, setup.battingMm, say),
      ...howItLies(study, say),
    ],
    layouts: nestings.map((each) => ({
      layout: each.layout,
      closestMm: each.closestSpacingMm,
      evenMm: each.evenSpacingMm,
      unevenness: each.even.unevenness,
      openMm: each.even.largestOpenMm,
      picture: rowsPicture(
        study,
        { layout: each.layout, rows: each.even, tooNear: null, chosen: false },
        { widthPx: 480 },
      ),
    })),
    clearanceMm: chosen.clearanceMm,
    layout,
    spacingMm: (chosen.layout === layout ? chosen.spacingMm : setup.spacingMm) ?? nesting.evenSpacingMm,
  };
}

async function spacing(
  asking: Asking & { readonly layout: Layout; readonly spacingMm: number },
): Promise<RowsSeen> {
  const { layout, spacingMm } = asking;
  const { study, motif } = await worked(asking);
  const { leastMm, at } = study.rowDistance(layout, spacingMm);
  const { inner, seam, largestOpenMm, unevenness } = study.rowsAt(layout, spacingMm);
  const clear = keepsClear(leastMm, chosenRows(motif, study.setup).clearanceMm);
  return { layout, spacingMm, leastMm, leastAt: at, clear, inner, seam, largestOpenMm, unevenness };
}
