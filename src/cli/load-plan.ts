/** The plan that `resume` and `align` go on with, and the pass of it that was named. */
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import type { Pass, Plan } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import { readBytes } from '../files.js';
import { planBytes, readPlan } from '../plan/read-plan.js';
import type { Typed } from './options.js';

export const planName = 'plan.json';

export interface LoadedPass {
  readonly plan: Plan;
  readonly pass: Pass;
  /** As for the plan: its stitch length goes before what is set. */
  readonly setup: Setup;
  /** Path of the plan. */
  readonly file: string;
}

/** @throws Refusal where `typed.pass` is no number of a pass */
export function passNumberFrom({ pass }: Typed): number {
  const number = Number(pass);
  if (Number.isInteger(number) && number >= 1) return number;
  throw new Refusal(`--pass takes the number of a pass, from 1, not "${pass}".`);
}

/** `named` is the plan or its folder. */
export async function loadPass(named: string, number: number, setup: Setup): Promise<LoadedPass> {
  const isFolder = (await stat(named).catch(() => null))?.isDirectory() ?? false;
  const file = isFolder ? join(named, planName) : named;
  const bytes = await readBytes(file, { fileBytes: planBytes });
  const plan = readPlan(bytes, file, setup.stitchesPerInch);
  const pass = plan.passes.find((each) => each.pass === number);
  if (!pass)
    throw new Refusal(
      plan.passes.length === 1
        ? `${file}: there is no pass ${number}; the plan has one.`
        : `${file}: there is no pass ${number}; the plan has ${plan.passes.length}.`,
    );
  return { plan, pass, setup: { ...setup, stitchesPerInch: plan.stitchesPerInch }, file };
}
