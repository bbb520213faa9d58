/** The whole quilt: fit, lay out, trim, pass by pass, reckoned; and going on with a plan. */

export { type Alignment, alignmentOf, type TwoPlaces } from './align.js';
export { planJson } from './plan-json.js';
export { type Planned, type PlanWanted, planQuilt } from './plan-quilt.js';
export { readPlan } from './read-plan.js';
export { type Rest, type Resumed, type ResumeWanted, resumePass, type Way } from './resume.js';
export type { Machine } from './roll.js';
export { rollRadiusMm, usableDepthMm } from './roll.js';
