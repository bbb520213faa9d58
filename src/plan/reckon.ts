/** Stitches, thread, time and price of a plan, and where bobbins are changed. */
import type { Bobbins, Pair, Pass, Plan, Quilt } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { type Setup, stitchLengthMm } from '../../shared/setup.js';
import { mmPerInch } from '../../shared/units.js';
import { firstPoint, lastPoint, lengthOf, placeAlong, runningLengths } from '../geometry/polyline.js';
import { stitchesOf, threadMm } from '../measure/stitching/stitches.js';
import { bobbinsFor } from './bobbins.js';
import { checkPoints } from './check-points.js';
import type { PassLine } from './pass-lines.js';
import { sum } from './stitch-line.js';

export function reckon(
  lines: readonly PassLine[],
  quilt: Quilt,
  setup: Setup,
): Pick<Plan, 'passes' | 'bobbins' | 'totals'> {
  const passes = lines.map((line, i) => passOf(line, i, lines[i - 1], setup));
  const total = (of: (pass: Pass) => number) => sum(passes.map(of));
  const stitches = total((pass) => pass.stitches);
  return {
    passes,
    bobbins: setup.bobbinMm === null ? null : bobbinsOf(lines, setup.bobbinMm, setup),
    totals: {
      rows: total(({ rows }) => rows.length),
      passes: passes.length,
      lengthMm: total(({ lengthMm }) => lengthMm),
      linkMm: total(({ linkMm }) => linkMm),
      stitches,
      needleThreadM: total(({ needleThreadM }) => needleThreadM),
      bobbinThreadM: total(({ bobbinThreadM }) => bobbinThreadM),
      minutes: setup.speed === null ? null : stitches / setup.speed,
      price: setup.price === null ? null : setup.price * areaPriced(quilt, setup),
    },
  };
}

/** Square inches, or with `unit` mm square metres. */
function areaPriced({ widthMm, heightMm }: Quilt, { unit }: Setup): number {
  const sideMm = unit === 'in' ? mmPerInch : 1000;
  return (widthMm / sideMm) * (heightMm / sideMm);
}

function passOf(line: PassLine, index: number, before: PassLine | undefined, setup: Setup): Pass {
  const { strokes, topMm, bottomMm, usableMm } = line;
  const { count, needleThreadM, bobbinThreadM } = stitchesOf(strokes, setup);
  const start = firstPoint(strokes[0]);
  const end = lastPoint(strokes[strokes.length - 1]);
  return {
    pass: index + 1,
    rows: line.rows.map((_, i) => line.from + i + 1),
    topMm,
    bottomMm,
    usableMm: Number.isFinite(usableMm) ? usableMm : null,
    advanceMm: before ? topMm - before.topMm : 0,
    startMm: [start.x, start.y],
    endMm: [end.x, end.y],
    checkMm: before ? checkPoints(before.rows[before.rows.length - 1].pieces, bottomMm - usableMm) : null,
    lengthMm: line.lengthMm,
    linkMm: line.linkMm,
    stitches: count,
    needleThreadM,
    bobbinThreadM,
    minutes: setup.speed === null ? null : count / setup.speed,
    strokes,
    links: line.links,
  };
}

/** The link to a row belongs to it. */
function bobbinsOf(lines: readonly PassLine[], bobbinMm: number, setup: Setup): Bobbins {
  const seams = lines.flatMap(({ rows, linksBefore }) =>
    rows.map(({ parts }, i) => {
      const link = linksBefore[i];
      return [...(link ? [link] : []), ...parts.map(({ line }) => line)];
    }),
  );
  const threadOf = (seamMm: number) =>
    threadMm(seamMm, stitchLengthMm(setup), setup.quiltThicknessMm, setup.threadWastePercent);
  const lengths = seams.map((parts) => sum(parts.map(lengthOf)));
  const { needed, changeAfter, runsOut } = bobbinsFor(lengths.map(threadOf), bobbinMm);
  return {
    needed,
    changeAfterRows: changeAfter.map((row) => row + 1),
    runsOutAt: runsOut.map(({ row, after }) => ({
      row: row + 1,
      atMm: placeOn(seams[row], after / threadOf(1)),
    })),
  };
}

function placeOn(parts: readonly Polyline[], alongMm: number): Pair {
  let left = alongMm;
  let at: Pair = [0, 0];
  for (const part of parts) {
    const run = runningLengths(part);
    const place = placeAlong(part, run, left);
    at = [place.x, place.y];
    if (left <= run[run.length - 1]) break;
    left -= run[run.length - 1];
  }
  return at;
}
