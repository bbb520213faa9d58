/**
 * From areas to the line in their middle: what a pen drew, from the shape of its ink.
 *
 * Border to points (`border`), points to the medial axis (`axis`), the axis to pieces that are the line already and
 * forks where they are to be joined (`pieces`), arms of a fork to pairs (`pairing`), each pair to a line across
 * (`bridge`, `offsets`, `corner`), free ends to where the pen stopped (`ends`), all of it to strokes (`strokes`).
 *
 * Time O(n log n) in the points of the border. Limits: one pen a drawing; what is wider than two pens is no stroke.
 */
export { type Centre, centreOf } from './centre.js';
