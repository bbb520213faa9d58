/** A count as people read it: `100,000`. */
export function count(n: number): string {
  return n.toLocaleString('en-US');
}
