import type { MendAccount, MendOutcome } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { boundsOf, pointsOf, polylineOf } from '../geometry/polyline.js';
import { motifOf } from '../size/motif-of.js';

/**
 * What a mend made of `before`: these strokes, in its coordinates, as are the account's places and lines. The mended
 * motif's box begins at the origin, and the account goes along.
 */
export function outcome(
  before: Motif,
  strokes: readonly Polyline[],
  account: MendAccount,
  place: (at: Point) => Point = (at) => at,
): MendOutcome {
  const { minX, minY } = boundsOf(strokes);
  // What bounded a shape may no longer be there.
  const { fills: _, ...rest } = before;
  const toOrigin = ({ x, y }: Point) => ({ x: x - minX, y: y - minY });
  return {
    motif: motifOf(strokes, rest),
    account: accountAt(account, toOrigin),
    place: (at) => toOrigin(place(at)),
  };
}

/** The account with its places and lines moved along. */
export function accountAt(account: MendAccount, place: (at: Point) => Point): MendAccount {
  return {
    ...account,
    places: account.places.map(place),
    added: account.added.map((line) => polylineOf(Array.from(pointsOf(line), place))),
  };
}
