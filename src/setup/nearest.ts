import { closest } from 'fastest-levenshtein';

/** ` Did you mean "height"?`, naming the nearest of the right ones. */
export function didYouMean(wrong: string, right: readonly string[]): string {
  return right.length > 0 ? ` Did you mean "${closest(wrong, right)}"?` : '';
}
