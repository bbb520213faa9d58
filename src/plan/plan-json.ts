/** A plan as JSON text: lengths to 0.001 mm. Strokes are put in as text of their own, since millions of points are no tree. */
import { type Plan, type PlanError, planFormat, planVersion } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { toMicron } from '../markup/number-text.js';
import { pointsText } from '../markup/points-text.js';

/** What is printed, or as a file what `plan.json` holds, with what `resume` and `align` ask for beside. `written` names the files of each pass. */
export function planJson(
  plan: Plan,
  {
    written = [],
    error = null,
    asFile = false,
  }: {
    readonly written?: readonly (readonly string[])[];
    readonly error?: PlanError | null;
    readonly asFile?: boolean;
  } = {},
): string {
  const { credit, passes, stitchesPerInch, ...rest } = plan;
  const document = {
    ...(asFile && { format: planFormat, version: planVersion }),
    ...rest,
    passes: passes.map(({ links, ...pass }, i) => ({
      ...pass,
      strokes: mark,
      ...(asFile && { links }),
      written: written[i] ?? [],
    })),
    bobbins: plan.bobbins,
    totals: plan.totals,
    ...(asFile && { stitchesPerInch }),
    ...(asFile && Object.keys(credit).length > 0 && { credit }),
    ...(error && { error }),
  };
  return withStrokes(
    inMicrons(document, asFile),
    passes.map(({ strokes }) => strokes),
  );
}

/** A document whose only content is why there is no plan. */
export function noPlanJson(
  { file, quilt, assumedSize }: Pick<Plan, 'file' | 'quilt' | 'assumedSize'>,
  error: PlanError,
): string {
  return inMicrons({
    file,
    assumedSize,
    quilt,
    choices: [],
    chosen: null,
    passes: [],
    bobbins: null,
    totals: null,
    error,
  });
}

/** Any document with polylines in the places of `strokesMark`, in order. */
export function withStrokes(text: string, all: readonly (readonly Polyline[])[]): string {
  const parts = text.split(`"${mark}"`);
  return parts.map((part, i) => part + (i < all.length ? strokesText(all[i]) : '')).join('');
}

const mark = '\u0001strokes';
export const strokesMark = mark;

export function inMicrons(document: unknown, flat = false): string {
  const text = JSON.stringify(
    document,
    (_, value) => (typeof value === 'number' ? toMicron(value) : value),
    flat ? undefined : 2,
  );
  return text.replaceAll(JSON.stringify(mark), `"${mark}"`);
}

function strokesText(strokes: readonly Polyline[]): string {
  return `[${strokes.map(pointsText).join(',')}]`;
}
