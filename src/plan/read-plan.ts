/** `plan.json` back into a plan: held against its schema, and its line against its own field. */
import { type Plan, planFormat, planVersion } from '../../shared/plan.js';
import schema from '../../shared/plan.schema.json' with { type: 'json' };
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { defaultSetup } from '../../shared/setup.js';
import { boundsOf, pointCount } from '../geometry/polyline.js';
import { flawsAgainst } from '../json-schema.js';
import { fieldOf } from './field.js';
import { strokesApart, strokesFor } from './strokes-apart.js';

/** The most that is read. */
export const planBytes = 256 * 2 ** 20;

const flawOf = flawsAgainst(schema);

/** So far over the border is rounding, mm. */
const roundingMm = 0.01;

/**
 * The plan that was written. `stitchesPerInch` is `usual` where a plan does not say.
 *
 * @throws Refusal where the bytes are no plan, a damaged one, one of a newer version, or one whose line leaves its quilt
 */
export function readPlan(
  bytes: Uint8Array,
  file: string,
  usual: number = defaultSetup.stitchesPerInch,
): Plan {
  const damaged = (what: string) =>
    new Refusal(`${file}: this plan is damaged, ${what}: make it again with linewright plan.`);
  const apart = strokesApart(bytes);
  const value = apart && parsed(apart.rest);
  const { format, version } = (value ?? {}) as { format?: unknown; version?: unknown };
  if (!apart || value === undefined) {
    if (looksLikePlan(bytes)) throw damaged('it cannot be read to its end');
    throw noPlan(file);
  }
  if (format !== planFormat) throw noPlan(file);
  if (typeof version === 'number' && version > planVersion)
    throw new Refusal(
      `${file}: plan version ${version} is newer than version ${planVersion}, the newest this program reads.`,
    );
  const flaw = flawOf(value);
  if (flaw !== null) throw damaged(flaw);
  const { format: _, version: _version, ...read } = value as Plan & { format: string; version: number };
  const plan: Plan = {
    ...read,
    passes: read.passes.map((pass) => ({
      ...pass,
      strokes: strokesFor(pass.strokes, apart) ?? [],
      links: pass.links ?? [],
    })),
    stitchesPerInch: read.stitchesPerInch ?? usual,
    credit: read.credit ?? {},
  };
  if (plan.chosen > plan.choices.length) throw damaged('"chosen" is none of its choices');
  for (const { pass, strokes, links } of plan.passes) {
    if (strokes.length === 0) throw damaged(`pass ${pass} has no line`);
    if (!liesIn(strokes, plan.quilt))
      throw damaged(`pass ${pass} reaches past its quilt: it is of another top`);
    const isWithin = links.every(
      ([stroke, from, to]) => from < to && to < pointCount(strokes[stroke] ?? new Float64Array(0)),
    );
    if (!isWithin) throw damaged(`"links" of pass ${pass} name points that are not there`);
  }
  return plan;
}

function noPlan(file: string): Refusal {
  return new Refusal(
    `${file}: this is no plan: name the folder that linewright plan wrote, or the plan.json in it.`,
  );
}

function parsed(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    return undefined;
  }
}

/** Whether it begins as a plan does. */
export function looksLikePlan(bytes: Uint8Array): boolean {
  return new TextDecoder().decode(bytes.subarray(0, 200)).includes(`"${planFormat}"`);
}

function liesIn(strokes: readonly Polyline[], quilt: Plan['quilt']): boolean {
  const [field, box] = [fieldOf(quilt), boundsOf(strokes)];
  return (
    box.minX >= field.minX - roundingMm &&
    box.minY >= field.minY - roundingMm &&
    box.maxX <= field.maxX + roundingMm &&
    box.maxY <= field.maxY + roundingMm
  );
}
