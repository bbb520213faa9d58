/** What `check` says about one motif, for people to read. */

import type { Finding, Severity } from '../../shared/finding.js';
import { type Flagged, flagged } from '../../shared/flags.js';
import { grouped } from '../../shared/grouped.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Study } from '../../shared/study.js';
import { type FileReport, type Status, type Summary, statusOf } from '../lint/report.js';
import { facts } from '../tasks/facts.js';
import type { Page } from './page.js';

/** Header with the verdict, the numbers of the motif, then each finding with its numbered places. */
export function checkReport(file: string, study: Study, findings: readonly Finding[], page: Page): string {
  const say = sayIn(study.setup.unit);
  return [
    heading(file, statusOf(findings), page),
    ...facts(study, say).map((fact) => page.wrap(fact, '  ', '    ')),
    ...flagged(findings).map((each) => findingText(each, say, page)),
  ].join('\n');
}

/** One of many files on one line: the verdict, the size, and as much of what weighs most as has room. */
export function checkLine(file: string, study: Study, findings: readonly Finding[], page: Page): string {
  const say = sayIn(study.setup.unit);
  const worst = ['error', 'warning'].flatMap((weight) =>
    findings.filter(({ severity }) => severity === weight),
  );
  const size = `${say.short(study.widthMm).replace(/ \D+$/, '')} x ${say.short(study.heightMm)}`;
  const head = `${columnVerdict(statusOf(findings), page)} ${page.plain(file)}, ${size}`;
  if (worst.length === 0) return head;
  const others = new Set(worst.map(({ rule }) => rule)).size - 1;
  const more = others > 0 ? ` and ${others} more` : '';
  const named = `${head}: ${worst[0].rule}${more}.`;
  return page.fit(`${named} ${page.plain(worst[0].message)}`, named);
}

/** The same for one that could not be read. */
export function unreadableColumn(file: string, page: Page): string {
  return `${columnVerdict('unreadable', page)} ${page.plain(file)}`;
}

const columnWidth = Math.max(...['clean', 'warnings', 'errors', 'unreadable'].map(({ length }) => length));

function columnVerdict(status: Status, page: Page): string {
  return colourOf(status, page)(status.padEnd(columnWidth));
}

/** The names of those that are not ready to stitch, after the summary. */
export function needsWork(reports: readonly FileReport[], page: Page): string[] {
  const told = [
    ['With errors', reports.filter(({ status }) => status === 'errors')],
    ['Could not be read', reports.filter(({ status }) => status === 'unreadable')],
  ] as const;
  return told.flatMap(([words, those]) =>
    those.length === 0
      ? []
      : [page.wrap(`${words}: ${those.map(({ file }) => page.plain(file)).join(', ')}`, '', '  ')],
  );
}

/** One of many files that got no report; why has gone to stderr by then. */
export function unreadableLine(file: string, page: Page): string {
  return heading(file, 'unreadable', page);
}

export const verdicts: Readonly<Record<Status, string>> = {
  clean: 'clean',
  warnings: 'warnings',
  errors: 'errors',
  unreadable: 'could not be read',
};

function heading(file: string, status: Status, page: Page): string {
  return `${page.paint.bold(page.plain(file))}: ${colourOf(status, page)(verdicts[status])}`;
}

export function colourOf(status: Status, { paint }: Page): (text: string) => string {
  return { clean: paint.green, warnings: paint.yellow, errors: paint.red, unreadable: paint.red }[status];
}

export const labels: Readonly<Record<Severity, string>> = {
  error: 'ERROR',
  warning: 'WARNING',
  info: 'note',
};

export function findingText({ finding, flags }: Flagged, say: Say, { paint, plain, wrap }: Page): string {
  const { rule, severity, message, places } = finding;
  const colour = { error: paint.red, warning: paint.yellow, info: paint.cyan }[severity];
  const lines = [
    wrap(`${colour(labels[severity])} ${plain(message)} ${paint.dim(`(${rule})`)}`, '  ', '    '),
    ...flags.map(({ number, at }) => `    ${paint.bold(`[${number}]`)} ${say.place(at)}`),
  ];
  const more = places.length - flags.length;
  if (more > 0) lines.push(`    and ${say.count(more, 'more place')}, the worst being told first`);
  return lines.join('\n');
}

/** One line for many files. */
export function summaryLine({ files, clean, warnings, errors, unreadable }: Summary, say: Say): string {
  const parts = [
    `${grouped(clean)} clean`,
    `${grouped(warnings)} with warnings`,
    `${grouped(errors)} with errors`,
    `${grouped(unreadable)} that could not be read`,
  ];
  return `${say.count(files, 'file')}: ${parts.join(', ')}`;
}
