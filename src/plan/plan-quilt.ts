/** From a motif's study and what is wanted to a plan, or the sentence why there is none. */
import { grouped } from '../../shared/grouped.js';
import { layouts } from '../../shared/layout.js';
import type { NumberedChoice, Plan, PlanError, Quilt, Runs } from '../../shared/plan.js';
import { Refusal } from '../../shared/refusal.js';
import { chosenRows, keepsClear } from '../../shared/rows.js';
import { sayIn } from '../../shared/say.js';
import type { LengthUnit, Setup } from '../../shared/setup.js';
import type { Study } from '../../shared/study.js';
import { mmPerInch } from '../../shared/units.js';
import { pointCount, reversed } from '../geometry/polyline.js';
import { requireStitchable } from '../measure/index.js';
import { rowDistance, rowOfMotif } from '../rows/index.js';
import { worthShowing } from './choose.js';
import { fieldOf } from './field.js';
import { type Fitted, type FitWanted, waysToFit, widestSpacingMm } from './fit.js';
import type { LeveledRow } from './lay-out.js';
import { measuredWay, type WaySums } from './measure-way.js';
import { type PassLine, passLines } from './pass-lines.js';
import { reckon } from './reckon.js';
import { largestHeightMm, type Machine } from './roll.js';
import { sum } from './stitch-line.js';

export interface PlanWanted {
  readonly quilt: Quilt;
  /** A share: 0.1 lets the motif be a tenth larger or smaller. */
  readonly resize: number;
  readonly runs: Runs;
  /** Number of the choice to take, from 1. */
  readonly choose: number;
}

export type Planned =
  | {
      readonly plan: Plan;
      /** Pass by pass: for pictures, which tell links from the rows' own line. */
      readonly lines: readonly PassLine[];
      /** What is wrong with it all the same. */
      readonly error: PlanError | null;
    }
  | { readonly plan: null; readonly error: PlanError };

/**
 * @throws Refusal where the motif makes no rows, its line lies on itself in a lump, the plan passes the point limit, or
 * there is no such choice
 */
export function planQuilt(study: Study, file: string, wanted: PlanWanted): Planned {
  const { setup } = study;
  const { quilt, runs } = wanted;
  requireStitchable(study);
  requireRoom(quilt, setup);
  const own = leveledRow(study);
  const machine = machineOf(setup);
  const asked = chosenRows(study.motif, setup);
  const isLayoutSet = setup.layout !== null || study.motif.rows !== undefined;
  const fit: FitWanted = {
    quilt,
    layouts: isLayoutSet ? [asked.layout] : layouts,
    spacingMm: asked.spacingMm,
    clearanceMm: asked.clearanceMm,
    gapMm: Math.min(setup.gapMm, setup.battingMm ?? Infinity),
    resize: wanted.resize,
    machine,
    overhangingRepeats: setup.limits.overhangingRepeats,
  };
  requireFewPoints(own, fit, setup);
  const ways = withoutTwins(waysToFit(own, fit)).filter(({ laid }) => laid.rows.length > 0);
  if (ways.length === 0)
    throw new Refusal(
      'No row of the motif comes through a top so small: plan a larger one, or a smaller motif.',
    );
  const fitting = ways.filter(({ tooTallRow }) => tooTallRow === null);
  if (fitting.length === 0) return { plan: null, error: tooTall(ways, quilt, machine!, setup) };
  const measured = new Map<Fitted, WaySums>();
  const measuredOf = (way: Fitted) => {
    const known = measured.get(way) ?? measuredWay(way, quilt, runs, machine);
    measured.set(way, known);
    return known;
  };
  const shown = worthShowing(fitting, setup.battingMm, (way) => measuredOf(way).linkMm);
  const taken = shown[wanted.choose - 1];
  if (!taken)
    throw new Refusal(
      shown.length === 1
        ? '--choose takes 1: there is one choice.'
        : `--choose takes a number from 1 to ${shown.length}, the choices there are.`,
    );
  const choices = shown.map((way, i) => numbered(way, i + 1, measuredOf(way)));
  const lines = passLines(taken, quilt, runs, machine);
  requireFewPointsIn(lines, setup);
  const plan: Plan = {
    file,
    ...(study.motif.assumedSize && { assumedSize: true }),
    quilt,
    choices,
    chosen: wanted.choose,
    ...reckon(lines, quilt, setup),
    stitchesPerInch: setup.stitchesPerInch,
    credit: study.motif.credit,
  };
  return { plan, lines, error: tooNear(taken, asked.clearanceMm, setup) };
}

/** One row alone is the same in every layout: the plainest is kept. */
function withoutTwins(ways: readonly Fitted[]): Fitted[] {
  return ways.filter(
    ({ laid, size }, i) =>
      laid.rows.length !== 1 ||
      !ways
        .slice(0, i)
        .some(
          (other) =>
            other.laid.rows.length === 1 &&
            Math.abs(other.size / size - 1) < sameSize &&
            Math.abs(other.laid.dy - laid.dy) < sameMm,
        ),
  );
}

/** Sizes that differ by less than this share are one, as are places nearer than this, mm. */
const sameSize = 1e-6;
const sameMm = 0.001;

function numbered(way: Fitted, number: number, sums: WaySums): NumberedChoice {
  const { leveled: _, laid: _laid, size: _size, tooTallRow: _row, ...choice } = way;
  return { number, ...choice, ...sums };
}

function machineOf({ throatMm, reserveMm, rollerMm, quiltThicknessMm }: Setup): Machine | null {
  return throatMm === null ? null : { throatMm, reserveMm, rollerMm, quiltThicknessMm };
}

function leveledRow(study: Study): LeveledRow {
  const { strokes, repeat, runsLeft, motif } = study;
  if (strokes.length !== 1 || repeat.assumed)
    throw new Refusal(
      `"${motif.name}" is no single line from its left edge to its right, and makes no rows: let linewright mend --reshape put it right.`,
    );
  return { row: rowOfMotif(study), line: runsLeft ? reversed(strokes[0]) : strokes[0] };
}

function requireRoom({ widthMm, heightMm, marginMm }: Quilt, { unit }: Setup): void {
  if (2 * marginMm <= Math.min(widthMm, heightMm)) return;
  const say = sayIn(unit);
  throw new Refusal(
    `A margin of ${say.length(marginMm)} on every side is more than the top itself, ${say.size(widthMm, heightMm)}.`,
  );
}

/** Fewer points than any choice has, before a long search for choices is begun. */
function requireFewPoints({ row, line }: LeveledRow, fit: FitWanted, { limits }: Setup): void {
  const { minX, minY, maxX, maxY } = fieldOf(fit.quilt);
  const largest = 1 + fit.resize;
  const widestMm =
    fit.spacingMm ?? widestSpacingMm(row.heightMm * largest, Math.max(fit.gapMm, fit.clearanceMm));
  const repeats = Math.max(0, Math.floor((maxX - minX) / (row.repeatMm * largest)) - 1);
  const rows = Math.max(0, Math.floor((maxY - minY) / widestMm) - 1);
  const points = repeats * rows * pointCount(line);
  if (points > limits.points) throw tooManyPoints(`at least ${grouped(points)}`, limits.points);
}

/** Of the line that would be taken: exact, links and all. */
function requireFewPointsIn(lines: readonly PassLine[], { limits }: Setup): void {
  const points = sum(lines.flatMap(({ strokes }) => strokes.map(pointCount)));
  if (points > limits.points) throw tooManyPoints(grouped(points), limits.points);
}

function tooManyPoints(points: string, most: number): Refusal {
  return new Refusal(
    `The plan would have ${points} points; at most ${grouped(most)} are worked out, a number that linewright.json can raise under limits.`,
  );
}

/** Said of the size that goes on fitting longest. */
function tooTall(ways: readonly Fitted[], quilt: Quilt, machine: Machine, { unit }: Setup): PlanError {
  const say = sayIn(unit);
  const best = ways.reduce((a, b) => ((b.tooTallRow ?? 0) > (a.tooTallRow ?? 0) ? b : a));
  const { minY, maxY } = fieldOf(quilt);
  const largest = largestHeightMm(maxY - minY, machine);
  const advice =
    largest > 0
      ? `The largest height that fits to the end is ${say.length(roundedDown(largest, unit))}: give it with --height.`
      : 'Nothing fits to the end: the roll fills the throat.';
  const where =
    machine.throatMm < best.heightMm
      ? 'is taller than the throat'
      : `does not fit the throat from row ${best.tooTallRow} on`;
  return {
    message: `The motif, ${say.length(best.heightMm)} tall, ${where}. ${advice}`,
    row: best.tooTallRow,
    largestHeightMm: largest,
  };
}

/** To the sixteenth of an inch or the tenth of a millimetre: typed back as it is told it must still fit. */
function roundedDown(mm: number, unit: LengthUnit): number {
  const stepMm = unit === 'in' ? mmPerInch / 16 : 0.1;
  return Math.floor(mm / stepMm) * stepMm;
}

/** Rows at a spacing of the user's own may come too near to each other. */
function tooNear(
  { leveled, layout, spacingMm }: Fitted,
  clearanceMm: number,
  { unit }: Setup,
): PlanError | null {
  const { leastMm } = rowDistance(leveled.row, layout, spacingMm);
  if (keepsClear(leastMm, clearanceMm)) return null;
  const say = sayIn(unit);
  const how =
    leastMm === 0
      ? 'cross'
      : `come as near as ${say.length(leastMm)}, where the clearance is ${say.length(clearanceMm)}`;
  return {
    message: `At ${say.length(spacingMm)}, ${layout} rows ${how}.`,
    row: null,
    largestHeightMm: null,
  };
}
