/**
 * Linewright for programs: the same functions that the command line and the desk call. Data flows one way, from bytes to
 * artwork, to a motif at its working size, to facts, to findings, mends, rows and files. Everything here runs in a
 * browser; files, pixels and libraries on disk are in the second entry, `linewright/node`.
 *
 *     const artwork = await readArtwork(bytes, 'swell.svg');
 *     const motif = toMotif(artwork, { ...defaultSetup, heightMm: 120 });
 *     const findings = lint(studyOf(motif, defaultSetup), rules);
 */
export { rules } from '../rules/index.js';
export type * from '../shared/artwork.js';
export {
  type Finding,
  type FindingUnit,
  type MendName,
  mendNames,
  type Severity,
  severities,
} from '../shared/finding.js';
export { type Flagged, flagged } from '../shared/flags.js';
export { type Layout, layouts, type RowChoice } from '../shared/layout.js';
export type * from '../shared/mend.js';
export type { Motif } from '../shared/motif.js';
export type { MotifFile } from '../shared/motif-file.js';
export type * from '../shared/plan.js';
export type { Box, Point, Polyline } from '../shared/plane.js';
export type * from '../shared/provenance.js';
export { Refusal } from '../shared/refusal.js';
export type * from '../shared/rows.js';
export type { AnyRule, Rule, Verdict } from '../shared/rule.js';
export { type Say, sayIn } from '../shared/say.js';
export {
  defaultLimits,
  defaultSetup,
  type LengthUnit,
  type Limits,
  type RuleSetting,
  type Setup,
} from '../shared/setup.js';
export type * from '../shared/study.js';
export { Op, type Subpath } from '../shared/subpath.js';
export { lengthText, parseLength } from '../shared/units.js';
export { version } from '../shared/version.js';
export { lint } from './lint/index.js';
export {
  type FileReport,
  type FindingReport,
  reportOf,
  type Status,
  type Summary,
  statusOf,
  summaryOf,
} from './lint/report.js';
export { studyOf } from './measure/index.js';
export { type MendChoice, type Mended, mendMotif, mends } from './mend/index.js';
export {
  layOnPaper,
  type Paper,
  type PaperWanted,
  papers,
  parsePaper,
  type Tile,
  usualPaper,
  writePaper,
} from './paper/index.js';
export {
  type MotifPictureOptions,
  mendPicture,
  motifPicture,
  type RowsPictureOptions,
  rowsPicture,
} from './picture/index.js';
export {
  type Alignment,
  alignmentOf,
  type Planned,
  type PlanWanted,
  planJson,
  planQuilt,
  type Rest,
  type Resumed,
  type ResumeWanted,
  readPlan,
  resumePass,
  type TwoPlaces,
  type Way,
} from './plan/index.js';
export { type ReadOptions, readArtwork } from './read/index.js';
export { adviceOn, nest, type Row, recommend, rowDistance, rowOf, rowOfMotif, rowsAt } from './rows/index.js';
export {
  type SettingName,
  type SettingsFile,
  settings,
  setupFrom,
  type TypedOptions,
} from './setup/index.js';
export { type SheetContent, writeSheet } from './sheet/sheet.js';
export { sheetContent } from './sheet/sheet-content.js';
export { toMotif } from './size/index.js';
export { motifOf } from './size/motif-of.js';
export { type Brought, motifFrom } from './tasks/motif-from.js';
export {
  type Exporter,
  type ExportOptions,
  textExporters,
  writeCsv,
  writeDxf,
  writeMotif,
  writeSvg,
} from './write/index.js';
