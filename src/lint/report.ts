/** The report on one file in the form that `--json` prints: plain data, millimetres, numbers rounded for reading. */
import type { Finding, Severity } from '../../shared/finding.js';
import type { Point } from '../../shared/plane.js';
import type { Scan } from '../../shared/scan.js';
import type { Study } from '../../shared/study.js';

export type Status = 'clean' | 'warnings' | 'errors' | 'unreadable';

export interface FileReport {
  readonly file: string;
  readonly status: Status;
  /** Why it could not be read, where it could not. */
  readonly error?: string;
  readonly motif?: MotifReport;
  readonly rows?: RowsReport;
  readonly stitches?: StitchesReport;
  readonly findings?: readonly FindingReport[];
}

export interface MotifReport {
  readonly widthMm: number;
  readonly heightMm: number;
  readonly lengthMm: number;
  readonly strokes: number;
  readonly points: number;
  readonly startMm: Pair;
  readonly endMm: Pair;
  readonly repeatMm: Pair;
  readonly crossings: number;
  /** There only where there are more crossings than were counted. */
  readonly crossingsAtLeast?: true;
  readonly retraceMm: number;
  /** There only where more may be stitched over again than was found. */
  readonly retraceAtLeast?: true;
  readonly assumedSize: boolean;
  /** Of a scan only: how the traced line, drawn again with the pen, fits the ink. */
  readonly scan?: ScanReport;
}

export interface ScanReport {
  readonly dotsPerInch: Pair;
  readonly penMm: number;
  readonly coveredPercent: number;
  readonly onInkPercent: number;
}

export interface RowsReport {
  readonly layout: 'straight';
  readonly clearanceMm: number;
  readonly closestSpacingMm: number;
  readonly evenSpacingMm: number;
  readonly nestingOffsetMm: number;
  readonly innerOpenMm: number | null;
  readonly seamOpenMm: number | null;
  readonly unevenness: number;
  readonly openness: number;
  /** The same as `openness`, under its older name. */
  readonly evenness: number;
}

export interface StitchesReport {
  readonly stitchLengthMm: number;
  readonly count: number;
  readonly needleThreadM: number;
  readonly bobbinThreadM: number;
}

export interface FindingReport {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly placesMm: readonly Pair[];
  readonly measured: number | null;
  readonly limit: number | null;
  readonly unit: Finding['unit'];
  /** There only where the search ended at a limit: there are at least these places, and it measures at least so much. */
  readonly atLeast?: true;
  readonly mend: Finding['mend'];
}

export interface Summary {
  readonly files: number;
  readonly clean: number;
  readonly warnings: number;
  readonly errors: number;
  readonly unreadable: number;
}

type Pair = readonly [number, number];

export function reportOf(file: string, study: Study, findings: readonly Finding[]): FileReport {
  return {
    file,
    status: statusOf(findings),
    motif: motifReport(study),
    rows: rowsReport(study),
    stitches: stitchesReport(study),
    findings: findings.map(findingReport),
  };
}

export function unreadable(file: string, error: string): FileReport {
  return { file, status: 'unreadable', error };
}

/** A motif with nothing but information is clean. */
export function statusOf(findings: readonly Finding[]): Exclude<Status, 'unreadable'> {
  if (findings.some(({ severity }) => severity === 'error')) return 'errors';
  return findings.some(({ severity }) => severity === 'warning') ? 'warnings' : 'clean';
}

export function summaryOf(reports: readonly Pick<FileReport, 'status'>[]): Summary {
  const count = (wanted: Status) => reports.filter(({ status }) => status === wanted).length;
  return {
    files: reports.length,
    clean: count('clean'),
    warnings: count('warnings'),
    errors: count('errors'),
    unreadable: count('unreadable'),
  };
}

/** Length stitched beyond the first pass, mm: retraces, and strokes that lie on top of their own copies. */
export function retraceMm({ retraces, duplicates }: Study): number {
  return duplicates.reduce((sum, { lengthMm }) => sum + lengthMm, retraces.totalMm);
}

function motifReport(study: Study): MotifReport {
  const { motif, start, end, repeat } = study;
  return {
    widthMm: micron(study.widthMm),
    heightMm: micron(study.heightMm),
    lengthMm: micron(study.lengthMm),
    strokes: study.strokes.length,
    points: study.points,
    startMm: pair(start.at),
    endMm: pair(end.at),
    repeatMm: [micron(repeat.dx), micron(repeat.dy)],
    crossings: study.crossings.places.length,
    ...(study.crossings.more && { crossingsAtLeast: true }),
    retraceMm: micron(retraceMm(study)),
    ...(study.retraces.more && { retraceAtLeast: true }),
    assumedSize: motif.assumedSize,
    ...(motif.scan && { scan: scanReport(motif.scan) }),
  };
}

function scanReport({ dotsPerInch, penMm, coveredShare, onInkShare }: Scan): ScanReport {
  return {
    dotsPerInch: [fine(dotsPerInch[0]), fine(dotsPerInch[1])],
    penMm: micron(penMm),
    coveredPercent: micron(100 * coveredShare),
    onInkPercent: micron(100 * onInkShare),
  };
}

function rowsReport(study: Study): RowsReport {
  const nesting = study.nesting('straight');
  const { inner, seam, openness, unevenness } = nesting.even;
  return {
    layout: 'straight',
    clearanceMm: nesting.clearanceMm,
    closestSpacingMm: fine(nesting.closestSpacingMm),
    evenSpacingMm: fine(nesting.evenSpacingMm),
    nestingOffsetMm: fine(nesting.nestingOffsetMm),
    innerOpenMm: inner && fine(inner.diameterMm),
    seamOpenMm: seam && fine(seam.diameterMm),
    unevenness: fine(unevenness),
    openness: fine(openness),
    evenness: fine(openness),
  };
}

function stitchesReport({ stitches }: Study): StitchesReport {
  return {
    stitchLengthMm: fine(stitches.stitchLengthMm),
    count: stitches.count,
    needleThreadM: fine(stitches.needleThreadM),
    bobbinThreadM: fine(stitches.bobbinThreadM),
  };
}

export function findingReport(finding: Finding): FindingReport {
  const { rule, severity, message, places, measured, limit, unit, mend, atLeast } = finding;
  return {
    rule,
    severity,
    message,
    placesMm: places.map(pair),
    measured: measured === null ? null : fine(measured),
    limit: limit === null ? null : fine(limit),
    unit,
    ...(atLeast && { atLeast }),
    mend,
  };
}

function pair({ x, y }: Point): Pair {
  return [micron(x), micron(y)];
}

function micron(value: number): number {
  return Math.round(value * 1e3) / 1e3;
}

/** What is worked out, not drawn, is given finer, so that it can be compared. */
export function fine(value: number): number {
  return Math.round(value * 1e6) / 1e6;
}
