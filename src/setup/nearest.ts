import { closest, distance } from 'fastest-levenshtein';

/** ` Did you mean "height"?`, naming the nearest of the right ones that it may be a slip or a beginning of. */
export function didYouMean(wrong: string, right: readonly string[]): string {
  const begun = wrong.toLowerCase();
  return nearestOf(
    wrong,
    right.filter((each) => isSlip(wrong, each) || (begun !== '' && each.toLowerCase().startsWith(begun))),
  );
}

function isSlip(wrong: string, right: string): boolean {
  const slips = Math.min(2, Math.floor(right.length / 3));
  return distance(wrong.toLowerCase(), right.toLowerCase()) <= slips || sorted(wrong) === sorted(right);
}

/** Letters changed about make the same word. */
function sorted(word: string): string {
  return [...word.toLowerCase()].sort().join('');
}

/** The nearest, however far off it is. */
export function nearestOf(wrong: string, right: readonly string[]): string {
  return right.length > 0 ? ` Did you mean "${closest(wrong, right)}"?` : '';
}
