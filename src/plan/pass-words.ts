/** What is to be done for a pass, in words. */
import { grouped } from '../../shared/grouped.js';
import type { Pass, Plan } from '../../shared/plan.js';
import type { Say } from '../../shared/say.js';

/** "rows 1 to 3, roll on by 17 1/8 in, 12,355 stitches, 8 min; new bobbin after row 2". */
export function passWords(pass: Pass, plan: Pick<Plan, 'bobbins'>, say: Say): string {
  const { rows, advanceMm, stitches, minutes } = pass;
  const first = [
    rowsWords(rows, say),
    ...(pass.pass > 1 ? [`roll on by ${say.short(advanceMm)}`] : []),
    `${grouped(stitches)} stitches`,
    ...(minutes === null ? [] : [`${minutesText(minutes)} min`]),
  ];
  return [first.join(', '), ...changesIn(pass, plan, say)].join('; ');
}

/** The bobbin during a pass: after which rows a full one is put in, and where one runs out inside a row. */
export function changesIn({ rows }: Pass, { bobbins }: Pick<Plan, 'bobbins'>, say: Say): string[] {
  if (bobbins === null) return [];
  const changes = bobbins.changeAfterRows.filter((row) => rows.includes(row));
  const out = rows
    .map((row) => ({ row, places: bobbins.runsOutAt.filter((each) => each.row === row) }))
    .filter(({ places }) => places.length > 0);
  return [
    ...(changes.length > 0 ? [`new bobbin after ${rowsWords(changes, say)}`] : []),
    ...out.map(
      ({ row, places }) =>
        `the bobbin runs out in row ${row} at ${places.map(({ atMm }) => say.onTop(atMm)).join(' and at ')}`,
    ),
  ];
}

/** Ascending numbers, neighbours told as one: "row 4", "rows 1 to 3", "rows 4, 8 and 10 to 12". */
export function rowsWords(rows: readonly number[], say: Say): string {
  const spans: [number, number][] = [];
  for (const row of rows) {
    const last = spans.at(-1);
    if (last && row === last[1] + 1) last[1] = row;
    else spans.push([row, row]);
  }
  const told = spans.map(([from, to]) => (from === to ? `${from}` : `${from} to ${to}`));
  return `${rows.length === 1 ? 'row' : 'rows'} ${say.list(told)}`;
}

/** To the nearest, so that those of the passes add up to about those of the whole; never none at all. */
export function minutesText(minutes: number): string {
  return grouped(Math.max(1, Math.round(minutes)));
}
