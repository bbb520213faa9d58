/** A link from a node of part `a` to a node of part `b`. */
export interface NodeLink {
  readonly a: number;
  readonly b: number;
  readonly from: number;
  readonly to: number;
  readonly lengthMm: number;
}
