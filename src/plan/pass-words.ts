/** When the bobbin is changed during a pass, in words. */
import type { Pass, Plan } from '../../shared/plan.js';

export function changesIn({ rows }: Pass, { bobbins }: Pick<Plan, 'bobbins'>): string[] {
  if (bobbins === null) return [];
  const changes = bobbins.changeAfterRows.filter((row) => rows.includes(row));
  const out = bobbins.runsOutAt.filter(({ row }) => rows.includes(row));
  return [
    ...changes.map((row) => `new bobbin after row ${row}`),
    ...out.map(({ row }) => `the bobbin runs out in row ${row}`),
  ];
}
