/** The whole quilt: fit, lay out, trim, pass by pass, reckoned. */

export { type Planned, type PlanWanted, planQuilt } from './plan-quilt.js';
export type { Machine } from './roll.js';
export { rollRadiusMm, usableDepthMm } from './roll.js';
