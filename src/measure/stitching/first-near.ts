/**
 * A whole number above `low`, up to `high`, that holds while the one before it does not (`low` is taken not to), looked
 * for from a guess in strides that double; null where these come to `high` in vain.
 */
export function firstNear(
  guess: number,
  low: number,
  high: number,
  holds: (n: number) => boolean,
): number | null {
  if (high <= low) return null;
  let not = low;
  let does = Math.max(low + 1, Math.min(Math.ceil(guess), high));
  if (holds(does)) {
    for (let stride = 1; not === low && does - stride > low; stride *= 2) {
      if (holds(does - stride)) does -= stride;
      else not = does - stride;
    }
  } else {
    let stride = 1;
    do {
      if (does === high) return null;
      not = does;
      does = Math.min(does + stride, high);
      stride *= 2;
    } while (!holds(does));
  }
  while (does - not > 1) {
    const middle = (not + does) >> 1;
    if (holds(middle)) does = middle;
    else not = middle;
  }
  return does;
}
