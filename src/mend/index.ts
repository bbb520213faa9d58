/** Mending: what can be put right, and what was done. A new mend is a file and a line here. */
import type { MendName } from '../../shared/finding.js';
import type { Mend, MendAccount, NotMended } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Setup } from '../../shared/setup.js';
import { requireStitchable, studyOf } from '../measure/index.js';
import { centre } from './centre.js';
import { drop } from './drop.js';
import { join } from './join.js';
import { accountAt } from './outcome.js';
import { reach } from './reach.js';
import { route } from './route.js';
import { asWritten, gathered, withHistory } from './settle.js';
import { smooth } from './smooth.js';
import { thin } from './thin.js';
import { turn } from './turn.js';
import { untrace } from './untrace.js';

/** In the order in which they are done. */
export const mends: readonly Mend[] = [centre, drop, join, untrace, route, reach, smooth, turn, thin];

export interface MendChoice {
  /** Mends that change what is seen, too. */
  readonly reshape?: boolean;
  /** These mends and no others; names one that reshapes to have it without the rest of them. */
  readonly only?: readonly MendName[];
  readonly skip?: readonly MendName[];
}

export interface Mended {
  readonly motif: Motif;
  /** One a mend that did something; places and lines in the mended motif's coordinates. */
  readonly accounts: readonly MendAccount[];
  /** What is still wrong and could not be put right by these mends, each with why. */
  readonly notMended: readonly NotMended[];
}

/** What one mend does can give another one something to do; more rounds than this have never been needed. */
const mostRounds = 20;

/**
 * The motif mended, and an account of it. Pure. What comes out is mended for good: mended again it stays the same,
 * also when it was written to a file and read back, since its coordinates are rounded as files are, to 0.001 mm.
 *
 * @throws Refusal where the line lies on itself so often that mending would tell one pass from the next for ever
 */
export function mendMotif(motif: Motif, setup: Setup, choice: MendChoice = {}): Mended {
  requireStitchable(studyOf(motif, setup));
  const reshape = choice.reshape ?? false;
  const chosen = mends.filter(({ name, safe }) => {
    if (choice.skip?.includes(name)) return false;
    return choice.only ? choice.only.includes(name) : safe || reshape;
  });
  // A motif that runs down is turned as soon as it alone is left: what reaches from edge to edge is only then known. Copies
  // are taken out before that, and before joining: a stroke and its copy would look like one line that turns back.
  const first = [centre, drop, untrace, ...(reshape ? [turn] : [])];
  const inTurn = [...first, ...mends.slice(mends.indexOf(join))].filter((mend) => chosen.includes(mend));
  let now = asWritten(motif);
  let accounts: MendAccount[] = [];
  for (let round = 0; round < mostRounds; round++) {
    let idle = true;
    for (const mend of inTurn) {
      const done = mend.apply(now, setup, reshape);
      if (!done) continue;
      idle = false;
      now = asWritten(done.motif);
      accounts = [...accounts.map((account) => accountAt(account, done.place)), done.account];
    }
    if (idle) break;
  }
  const all = gathered(accounts);
  const notMended = chosen.flatMap(({ name, leaves }) => {
    const hasMended = all.some(({ mend }) => mend === name);
    const message = leaves?.(now, setup, hasMended) ?? null;
    return message === null ? [] : [{ mend: name, message }];
  });
  return { motif: withHistory(now, all), accounts: all, notMended };
}
