/** Which ways to cover a quilt are worth showing, and in which order. */
import type { Fitted } from './fit.js';

/** Shares that differ by less than this are the same. */
const sameShare = 0.001;
const nearlyAsOpen = 1.1;
const shown = 8;

/** How whole the rows come out: both ways, one way, neither. */
function wholeness({ wholeAcross, wholeDown }: Fitted): number {
  return Number(wholeAcross) + Number(wholeDown);
}

function change({ size }: Fitted): number {
  return Math.abs(size - 1);
}

/** What makes a choice good; less is better. */
function marks(each: Fitted): readonly number[] {
  return [each.evenness, each.passes, 1 + change(each), 3 - wholeness(each)];
}

/** Not worse in any mark and better in one. */
function beats(one: Fitted, other: Fitted): boolean {
  const others = marks(other);
  const differences = marks(one).map((mark, i) => mark / others[i] - 1);
  return differences.every((each) => each < sameShare) && differences.some((each) => each <= -sameShare);
}

/** The best first: the one recommended. `linkMm` is asked only where all else is the same. */
export function worthShowing(
  ways: readonly Fitted[],
  battingMm: number | null,
  linkMm: (way: Fitted) => number,
): Fitted[] {
  const allowed = ways.filter(({ largestOpenMm }) => battingMm === null || largestOpenMm <= battingMm);
  const fitting = allowed.length > 0 ? allowed : ways;
  const best = Math.min(...fitting.map(({ evenness }) => evenness));
  const isEven = ({ evenness }: Fitted) => evenness <= nearlyAsOpen * best;
  const rank = (a: Fitted, b: Fitted) =>
    Number(isEven(b)) - Number(isEven(a)) ||
    wholeness(b) - wholeness(a) ||
    a.passes - b.passes ||
    (Math.abs(change(a) - change(b)) < sameShare ? 0 : change(a) - change(b)) ||
    linkMm(a) - linkMm(b);
  return unbeaten(fitting).sort(rank).slice(0, shown);
}

/** All but those that others beat; all where each is: differences too small to count could make a ring of them. */
function unbeaten(ways: readonly Fitted[]): Fitted[] {
  const left = ways.filter((each) => !ways.some((other) => beats(other, each)));
  return left.length > 0 ? left : [...ways];
}
