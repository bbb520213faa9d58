/** What becomes of a motif and its accounts when it is put down: coordinates as files carry them, history, one account a mend. */

import type { MendAccount } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { MendRecord } from '../../shared/provenance.js';
import { toMicron } from '../markup/number-text.js';
import { motifOf } from '../size/motif-of.js';

/** The motif with coordinates to 0.001 mm. What is written has the SVG namespace, whatever was read. */
export function asWritten(motif: Motif): Motif {
  const notes = motif.notes.filter(({ kind }) => kind !== 'no-namespace');
  return motifOf(
    motif.strokes.map((line) => line.map(toMicron)),
    { ...motif, notes },
  );
}

/** The motif with what was done to it added to what was done before. */
export function withHistory(motif: Motif, accounts: readonly MendAccount[]): Motif {
  const records = accounts.map(
    ({ mend, addedMm, movedMm }): MendRecord => ({
      mend,
      addedMm: toMicron(addedMm),
      movedMm: toMicron(movedMm),
    }),
  );
  return { ...motif, mended: [...motif.mended, ...records] };
}

/** One account a mend: what it did in later rounds is added to the first. */
export function gathered(accounts: readonly MendAccount[]): MendAccount[] {
  const byMend = new Map<string, MendAccount>();
  for (const account of accounts) {
    const first = byMend.get(account.mend);
    byMend.set(account.mend, first ? both(first, account) : account);
  }
  return [...byMend.values()];
}

function both(first: MendAccount, then: MendAccount): MendAccount {
  return {
    mend: first.mend,
    places: [...first.places, ...then.places],
    addedMm: first.addedMm + then.addedMm,
    movedMm: Math.max(first.movedMm, then.movedMm),
    message: first.message === then.message ? first.message : `${first.message} ${then.message}`,
    added: [...first.added, ...then.added],
  };
}
