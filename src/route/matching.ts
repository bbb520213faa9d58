/**
 * Least pairing: everything gets a partner so that the sum of the weights of the pairs is least.
 *
 * Method: the minimum-weight perfect matching of a graph, by Edmonds' blossom algorithm (J. Edmonds, "Paths, trees,
 * and flowers", Canadian J. of Mathematics 17, 1965) as the library `edmonds-blossom-fixed` has it, which finds the
 * heaviest matching of full size; so weights go in below zero. It compares sums of weights for equality, and
 * is only right with whole numbers: weights go in rounded to thousandths.
 *
 * Limit: time grows with points times links, about a second per ten million on a laptop.
 */
import blossom from 'edmonds-blossom-fixed';

/** A possible pair and what it weighs: a length in mm, or any other number to be kept small; 0 or more. */
export interface Link {
  readonly a: number;
  readonly b: number;
  readonly weight: number;
}

/** Points times links, beyond which the exact pairing takes more than a second or two. */
export const pairingWork = 10_000_000;

/**
 * The partner of each of `count` points, -1 where one is left without: as many pairs as the links allow, and among
 * those of least total weight.
 */
export function leastPairing(count: number, links: readonly Link[]): Int32Array {
  const partner = new Int32Array(count).fill(-1);
  const mates = blossom(
    links.map(({ a, b, weight }) => [a, b, -Math.round(weight * 1000)]),
    true,
  );
  mates.forEach((mate, point) => {
    partner[point] = mate;
  });
  return partner;
}
