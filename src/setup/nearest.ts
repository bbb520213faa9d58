import { closest, distance } from 'fastest-levenshtein';

/** ` Did you mean "height"?`, naming the nearest of the right ones where it is near enough to be a slip. */
export function didYouMean(wrong: string, right: readonly string[]): string {
  if (right.length === 0) return '';
  const nearest = closest(wrong, right);
  const slips = Math.min(2, Math.max(1, Math.floor(nearest.length / 3)));
  const isSlip = distance(wrong.toLowerCase(), nearest) <= slips || sorted(wrong) === sorted(nearest);
  return isSlip ? ` Did you mean "${nearest}"?` : '';
}

/** Letters changed about make the same word. */
function sorted(word: string): string {
  return [...word.toLowerCase()].sort().join('');
}

/** The same, however far off the nearest one is. */
export function nearestOf(wrong: string, right: readonly string[]): string {
  return right.length > 0 ? ` Did you mean "${closest(wrong, right)}"?` : '';
}
