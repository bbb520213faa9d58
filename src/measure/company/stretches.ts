/** Stretches of a line, as lengths walked along it: [from, to, from, to, …], mm. */
export type Stretches = readonly number[];

/** The same ground in ascending order, stretches that overlap or lie at most `gapMm` apart made one. */
export function merged(stretches: Stretches, gapMm = 0): number[] {
  const order = Array.from({ length: stretches.length / 2 }, (_, k) => 2 * k);
  order.sort((a, b) => stretches[a] - stretches[b]);
  const out: number[] = [];
  for (const k of order) {
    const from = stretches[k];
    const to = stretches[k + 1];
    if (out.length > 0 && from <= out[out.length - 1] + gapMm) {
      if (to > out[out.length - 1]) out[out.length - 1] = to;
    } else out.push(from, to);
  }
  return out;
}

/** Sum of the lengths of stretches that do not overlap, mm. */
export function totalMm(stretches: Stretches): number {
  let sum = 0;
  for (let k = 0; k < stretches.length; k += 2) sum += stretches[k + 1] - stretches[k];
  return sum;
}
