/**
 * The rest of a pass after a break: the place of the line nearest to where the stitching stopped, and all from there.
 * Where the line comes by more than once the person has to say which time it was. Linear in the points of the pass.
 */
import type { LinkRange, Pair, Pass } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import { type Say, sayIn } from '../../shared/say.js';
import type { Setup } from '../../shared/setup.js';
import { runningLengths, stretchOf } from '../geometry/polyline.js';
import { nearestShare } from '../geometry/segment.js';
import { stitchesOf } from '../measure/stitching/stitches.js';
import { sum } from './stitch-line.js';

export interface ResumeWanted {
  readonly atMm: Pair;
  /** Number of the way, from 1; null where none was named. */
  readonly which: number | null;
  readonly overlapMm: number;
}

/** A time that the line comes by. */
export interface Way {
  readonly which: number;
  /** Along the line of the pass, from its start. */
  readonly alongMm: number;
  /** Of the line. */
  readonly atMm: Pair;
  readonly offMm: number;
  /** Along the line there. */
  readonly towards: Pair;
}

export interface Rest {
  readonly way: Way;
  /** Without the overlap. */
  readonly leftMm: number;
  /** With the overlap. */
  readonly stitchesLeft: number;
  readonly strokes: readonly Polyline[];
  readonly links: readonly LinkRange[];
  /** What is stitched. */
  readonly done: readonly Polyline[];
}

export interface Resumed {
  /** In the order of stitching. */
  readonly ways: readonly Way[];
  /** Null where it has to be said which way was meant. */
  readonly rest: Rest | null;
}

/** Farther off the line than this nothing was stitched, mm. */
const farthestMm = 12.7;
/** As near as the nearest place, mm; and ways nearer together along the line are one. */
const asNearMm = 3;
const apartMm = 25;
/** Less than this is nothing left, mm. */
const nothingMm = 0.001;

/** @throws Refusal where the place lies off the line, there is no such way, or nothing is left */
export function resumePass(
  pass: Pick<Pass, 'pass' | 'strokes' | 'links'>,
  { atMm, which, overlapMm }: ResumeWanted,
  setup: Setup,
): Resumed {
  const say = sayIn(setup.unit);
  const runs = pass.strokes.map(runningLengths);
  const found = waysPast(pass.strokes, runs, atMm);
  const nearest = found.reduce((a, b) => (b.offMm < a.offMm ? b : a));
  if (nearest.offMm > farthestMm)
    throw new Refusal(
      `The place lies ${say.length(nearest.offMm)} off the line of pass ${pass.pass}, which is nearest at ${say.onTop(nearest.atMm)}; at most ${say.length(farthestMm)} is taken for a place on it. Measure again from the top's upper left corner, and see that it is this pass.`,
    );
  const ways = found.map(({ stroke: _, strokeAlongMm: _along, ...way }, i) => ({ which: i + 1, ...way }));
  if (which !== null && !(which <= ways.length)) throw noSuchWay(ways.length);
  if (which === null && ways.length > 1) return { ways, rest: null };
  const index = (which ?? 1) - 1;
  return { ways, rest: restFrom(pass, runs, found[index], ways[index], overlapMm, setup) };
}

function noSuchWay(count: number): Refusal {
  return new Refusal(
    count === 1
      ? '--which takes 1: the line comes by once.'
      : `--which takes a number from 1 to ${count}: the line comes by ${count === 2 ? 'twice' : `${count} times`}.`,
  );
}

interface Passing extends Omit<Way, 'which'> {
  readonly stroke: number;
  readonly strokeAlongMm: number;
}

/** The nearest first of those that lie apart; then in the order of stitching. */
function waysPast(strokes: readonly Polyline[], runs: readonly Float64Array[], [x, y]: Pair): Passing[] {
  let least = Infinity;
  const offOf = (line: Polyline, i: number) => {
    const share = nearestShare(x, y, line[i - 2], line[i - 1], line[i], line[i + 1]);
    const [px, py] = [
      line[i - 2] + share * (line[i] - line[i - 2]),
      line[i - 1] + share * (line[i + 1] - line[i - 1]),
    ];
    return { share, px, py, offMm: Math.hypot(x - px, y - py) };
  };
  for (const line of strokes)
    for (let i = 2; i < line.length; i += 2) least = Math.min(least, offOf(line, i).offMm);
  const near: Passing[] = [];
  let before = 0;
  strokes.forEach((line, stroke) => {
    const run = runs[stroke];
    for (let i = 2; i < line.length; i += 2) {
      const { share, px, py, offMm } = offOf(line, i);
      if (offMm > least + asNearMm) continue;
      const strokeAlongMm = run[i / 2 - 1] + share * (run[i / 2] - run[i / 2 - 1]);
      const towards: Pair = [line[i] - line[i - 2], line[i + 1] - line[i - 1]];
      near.push({ stroke, strokeAlongMm, alongMm: before + strokeAlongMm, atMm: [px, py], offMm, towards });
    }
    before += run[run.length - 1];
  });
  near.sort((a, b) => a.offMm - b.offMm);
  const ways: Passing[] = [];
  for (const each of near) {
    const isApart = (way: Passing) =>
      way.stroke !== each.stroke || Math.abs(way.alongMm - each.alongMm) >= apartMm;
    if (ways.every(isApart)) ways.push(each);
  }
  return ways.sort((a, b) => a.alongMm - b.alongMm);
}

function restFrom(
  { pass, strokes, links }: Pick<Pass, 'pass' | 'strokes' | 'links'>,
  runs: readonly Float64Array[],
  { stroke, strokeAlongMm }: Passing,
  way: Way,
  overlapMm: number,
  setup: Setup,
): Rest {
  const line = strokes[stroke];
  const run = runs[stroke];
  const lengthMm = run[run.length - 1];
  const leftMm = sum(runs.map((each) => each[each.length - 1])) - way.alongMm;
  if (leftMm < nothingMm)
    throw new Refusal(`Pass ${pass} is stitched to its end there: go on with the next pass.`);
  const fromMm = Math.max(0, strokeAlongMm - overlapMm);
  const isStrokeLeft = lengthMm - fromMm >= nothingMm;
  const rest = isStrokeLeft ? [stretchOf(line, run, fromMm, lengthMm)] : [];
  const strokesLeft = [...rest, ...strokes.slice(stroke + 1)];
  // The point of the stroke that the cut one's point 0 stands for.
  const cut = isStrokeLeft ? run.findIndex((alongMm) => alongMm > fromMm) - 1 : 0;
  const first = isStrokeLeft ? stroke : stroke + 1;
  return {
    way,
    leftMm,
    stitchesLeft: stitchesOf(strokesLeft, setup).count,
    strokes: strokesLeft,
    links: links.flatMap(([own, from, to]): LinkRange[] => {
      const shift = own === stroke ? cut : 0;
      return own < first || to <= shift ? [] : [[own - first, Math.max(0, from - shift), to - shift]];
    }),
    done: [...strokes.slice(0, stroke), stretchOf(line, run, 0, strokeAlongMm)],
  };
}

/** Where it stopped, as the ways are told apart, what is done, and what is left of it. */
export function restInWords(pass: number, { way, leftMm, stitchesLeft }: Rest, say: Say): string {
  const from = `${say.onTop(way.atMm)}, on its way ${headingOf(way.towards)}`;
  return `Pass ${pass}, stopped at ${from}: ${say.stretch(way.alongMm)} of its line are done, ${say.stretch(leftMm)} are left: ${say.count(stitchesLeft, 'stitch')} from where it starts again.`;
}

/** For people who have to choose: how far along each way is, and which way the line runs there. */
export function waysInWords(ways: readonly Way[], say: Say): string[] {
  return ways.map(
    ({ which, alongMm, towards }) =>
      `--which ${which}: ${say.length(alongMm)} along the pass, on its way ${headingOf(towards)}`,
  );
}

const headings = [
  'to the right',
  'down and to the right',
  'down',
  'down and to the left',
  'to the left',
  'up and to the left',
  'up',
  'up and to the right',
];

function headingOf([dx, dy]: Pair): string {
  return headings[(Math.round(Math.atan2(dy, dx) / (Math.PI / 4)) + 8) % 8];
}
