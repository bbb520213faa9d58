/**
 * Linewright for programs: the same functions that the command line calls. Data flows one way, from bytes to
 * artwork, to a motif at its working size, to facts, to findings, mends, rows and files; everything here runs in a
 * browser too.
 *
 *     const artwork = await readArtwork(bytes, 'swell.svg', { take: 'auto', limits: defaultLimits });
 *     const motif = toMotif(artwork, { ...defaultSetup, heightMm: 120 });
 *     const findings = lint(studyOf(motif, defaultSetup), rules);
 */
export { rules } from '../rules/index.js';
export type * from '../shared/artwork.js';
export type * from '../shared/finding.js';
export type { RowChoice } from '../shared/layout.js';
export { type Layout, layouts } from '../shared/layout.js';
export type * from '../shared/mend.js';
export type { Motif } from '../shared/motif.js';
export type * from '../shared/plan.js';
export type { Point, Polyline } from '../shared/plane.js';
export type { Credit, Source } from '../shared/provenance.js';
export { Refusal } from '../shared/refusal.js';
export type * from '../shared/rows.js';
export type { AnyRule, Rule, Verdict } from '../shared/rule.js';
export { defaultLimits, defaultSetup, type Limits, type Setup } from '../shared/setup.js';
export type * from '../shared/study.js';
export type { Subpath } from '../shared/subpath.js';
export { version } from '../shared/version.js';
export { lint } from './lint/index.js';
export { studyOf } from './measure/index.js';
export { type MendChoice, type Mended, mendMotif, mends } from './mend/index.js';
export { mendPicture, motifPicture, rowsPicture } from './picture/index.js';
export { alignmentOf, planJson, planQuilt, readPlan, resumePass } from './plan/index.js';
export { readArtwork } from './read/index.js';
export { nest, recommend, rowOf, rowsAt } from './rows/index.js';
export { setupFrom } from './setup/index.js';
export { toMotif } from './size/index.js';
export { motifOf } from './size/motif-of.js';
export { writeCsv, writeDxf, writeMotif, writePng, writeSvg } from './write/index.js';
