/**
 * A whole number as people read it, `1,250,000`. `Intl` does the same, but the first time it is used takes as long as
 * the rest of a small report.
 */
export function grouped(n: number): string {
  return String(n).replace(/\B(?=(?:\d{3})+$)/g, ',');
}
