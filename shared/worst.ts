/** The worst few of many, worst first, without sorting them all. */
import { placesListed } from './finding.js';

export function worstOf<T>(all: readonly T[], amount: (one: T) => number, most = placesListed): T[] {
  const amounts = Float64Array.from(all, amount).sort();
  const least = amounts[Math.max(0, amounts.length - most)];
  return all
    .filter((one) => amount(one) >= least)
    .sort((a, b) => amount(b) - amount(a))
    .slice(0, most);
}
