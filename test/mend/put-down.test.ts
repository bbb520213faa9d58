/** What becomes of a mended motif and its accounts: its box, its rounding, its history, one account a mend. */
import { describe, expect, test } from 'vitest';
import type { MendName } from '../../shared/finding.js';
import type { MendAccount } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import { defaultSetup } from '../../shared/setup.js';
import { mendMotif } from '../../src/mend/index.js';
import { outcome } from '../../src/mend/outcome.js';
import { gathered } from '../../src/mend/settle.js';
import { motifOf } from '../../src/size/motif-of.js';
import { circle, line } from './drawings.js';

const zigzag = line(0, 0, 25, 20, 75, -20, 100, 0);
const note = (kind: string, what: string) =>
  ({ kind, what, count: 1, places: [] }) as unknown as Motif['notes'][number];
const joined = (motif: Motif) => mendMotif(motif, defaultSetup, { only: ['join'] });

describe('what is put down', () => {
  test('moves with the box, loses its fills, and places go the way of the mend', () => {
    const before = { ...motifOf([zigzag]), fills: ['nonzero'] as never };
    const told: MendAccount = {
      mend: 'drop',
      places: [{ x: 30, y: 40 }],
      addedMm: 0,
      movedMm: 0,
      message: '',
      added: [line(10, 20, 30, 40)],
    };
    const made = outcome(before, [line(10, 20, 60, 20)], told, ({ x, y }) => ({ x: 2 * x, y }));
    expect([...made.motif.strokes[0]]).toEqual([0, 0, 50, 0]);
    expect('fills' in made.motif).toBe(false);
    expect(made.account).toEqual({ ...told, places: [{ x: 20, y: 20 }], added: [line(0, 0, 20, 20)] });
    expect(made.place({ x: 30, y: 40 })).toEqual({ x: 50, y: 20 });
    expect(outcome(before, [line(10, 20, 60, 20)], told).place({ x: 30, y: 40 })).toEqual({ x: 20, y: 20 });
  });

  test('is one account a mend, later rounds added to the first', () => {
    const of = (mend: MendName, at: number, message: string): MendAccount => ({
      mend,
      places: [{ x: at, y: 0 }],
      addedMm: at,
      movedMm: 10 - at,
      message,
      added: [line(0, 0, at, 0)],
    });
    expect(
      gathered([of('join', 1, 'J.'), of('thin', 2, 'T.'), of('join', 3, 'K.'), of('thin', 4, 'T.')]),
    ).toEqual([
      {
        mend: 'join',
        places: [
          { x: 1, y: 0 },
          { x: 3, y: 0 },
        ],
        addedMm: 4,
        movedMm: 9,
        message: 'J. K.',
        added: [line(0, 0, 1, 0), line(0, 0, 3, 0)],
      },
      {
        mend: 'thin',
        places: [
          { x: 2, y: 0 },
          { x: 4, y: 0 },
        ],
        addedMm: 6,
        movedMm: 8,
        message: 'T.',
        added: [line(0, 0, 2, 0), line(0, 0, 4, 0)],
      },
    ]);
  });

  test('carries coordinates to a thousandth and the history to a thousandth, and the SVG namespace', () => {
    const motif = {
      ...motifOf([line(0, 0, 30.00049, 0), line(30.50051, 0, 60, 0)]),
      notes: [note('no-namespace', ''), note('cut', 'clip')],
    };
    const { motif: made } = joined(motif);
    expect([...made.strokes[0]]).toEqual([0, 0, 30.251, 0, 60, 0]);
    expect(made.notes.map(({ kind }) => kind)).toEqual(['cut']);
    expect(made.mended).toEqual([{ mend: 'join', addedMm: 0.501, movedMm: 0.251 }]);
    expect(joined(motifOf([circle(0, 0, 10)])).motif.mended).toEqual([]);
  });
});
