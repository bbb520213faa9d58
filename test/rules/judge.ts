/** A rule asked about facts that are given to it, in a voice that tells lengths as they are. */
import { rules } from '../../rules/index.js';
import type { IntakeNote } from '../../shared/artwork.js';
import type { MendName } from '../../shared/finding.js';
import type { Verdict } from '../../shared/rule.js';
import { type Say, sayIn } from '../../shared/say.js';
import { defaultSetup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { motifOf } from '../../src/size/motif-of.js';

export type Facts = { [K in keyof Study]?: unknown };

/** Lengths without their sign, in millimetres only, to 0.01 mm; how they are told in inches is tested elsewhere. */
export function plain(...inVain: MendName[]): Say {
  const mm = (length: number) => `${Math.round(100 * Math.abs(length)) / 100}`;
  const length = (each: number) => `${mm(each)} mm`;
  return {
    ...sayIn('mm', inVain),
    length,
    spacing: length,
    beside: length,
    size: (width, height) => `${mm(width)} x ${mm(height)} mm`,
  };
}

export function judge(id: string, facts: Facts, say: Say = plain()): Verdict[] {
  const rule = rules.find((one) => one.id === id)!;
  return [...rule.judge({ setup: defaultSetup, ...facts } as unknown as Study, rule.limits, say)];
}

export function messages(id: string, facts: Facts, say?: Say): string[] {
  return judge(id, facts, say).map(({ message }) => message);
}

/** A motif with these notes of its reading. */
export function noting(...notes: Partial<IntakeNote>[]) {
  const motif = motifOf([Float64Array.of(0, 0, 100, 50)]);
  return { ...motif, notes: notes.map((note) => ({ count: 1, places: [], what: '', ...note })) };
}

export const here = { x: 1, y: 2 };
export const there = { x: 30, y: 4 };
export const yonder = { x: 50, y: 6 };
