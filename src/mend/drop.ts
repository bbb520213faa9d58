/** Drop: what is drawn but should not be stitched. */

import type { IntakeKind } from '../../shared/artwork.js';
import type { Mend, MendOutcome } from '../../shared/mend.js';
import type { Motif } from '../../shared/motif.js';
import type { Point, Polyline } from '../../shared/plane.js';
import { sayIn } from '../../shared/say.js';
import type { Scan } from '../../shared/scan.js';
import type { Setup } from '../../shared/setup.js';
import { centre, diagonal } from '../geometry/box.js';
import { boundsOf, totalLength } from '../geometry/polyline.js';
import { pointToSegment } from '../geometry/segment.js';
import { toMicron } from '../markup/number-text.js';
import { joinedStrokes } from '../measure/ends/strokes.js';
import { studyOf } from '../measure/index.js';
import { resized } from '../size/resized.js';
import { timesToReach } from '../size/scaling.js';
import { accountAt, outcome } from './outcome.js';

/** Left out on reading already; once the motif is written anew they are gone for good. */
const leftOut: readonly IntakeKind[] = ['text', 'image', 'other', 'fill', 'dot'];

export const drop: Mend = {
  name: 'drop',
  safe: true,
  what: 'Leaves out dots and exact copies of a stroke; with --reshape registration marks and frames too.',
  apply(motif, setup, reshape) {
    const kinds = [dots(motif), copies(motif), ...(reshape ? marksAndFrames(motif, setup) : [])];
    const dropped = new Set(kinds.flatMap(({ strokes }) => strokes));
    const notes = motif.notes.filter(({ kind }) => !leftOut.includes(kind));
    const noted = motif.notes.filter(({ kind }) => leftOut.includes(kind));
    if ((dropped.size === 0 && noted.length === 0) || dropped.size === motif.strokes.length) return null;
    const say = sayIn(setup.unit);
    const told = [
      ...kinds.map(({ name, places }) => ({ name, count: places.length })),
      ...noted.map(({ what, count }) => ({ name: what, count })),
    ].filter(({ count }) => count > 0);
    // Dots in the drawing and those that were left out on reading are all dots.
    const parts = [...new Set(told.map(({ name }) => name))].map((name) => {
      const same = told.filter((each) => each.name === name);
      return say.count(
        same.reduce((sum, { count }) => sum + count, 0),
        name,
      );
    });
    const lines = motif.strokes.filter((_, i) => dropped.has(i));
    const kept = motif.strokes.filter((_, i) => !dropped.has(i));
    const scan = motif.scan && withoutPlacesAt(motif.scan, lines, kept);
    const done = outcome({ ...motif, notes, ...(scan && { scan }) }, kept, {
      mend: 'drop',
      places: [...kinds.flatMap(({ places }) => places), ...noted.flatMap(({ places }) => places)],
      addedMm: -totalLength(lines),
      movedMm: 0,
      message: `Left out ${say.list(parts)}.`,
      added: [],
    });
    return asLarge(done, motif, setup);
  },
};

/** A size that was asked for is that of the line: what was left out has no part in it. */
function asLarge(done: MendOutcome, before: Motif, { heightMm, widthMm, unit }: Setup): MendOutcome {
  const asked = heightMm ?? widthMm;
  if (asked === null) return done;
  // A motif that was turned since has its height across.
  const missedMm = Math.abs(before.heightMm - asked) - Math.abs(before.widthMm - asked);
  const isHeight = missedMm < 0 || (heightMm !== null && toMicron(missedMm) === 0);
  const side = (motif: Motif) => (isHeight ? motif.heightMm : motif.widthMm);
  if (toMicron(side(before)) === toMicron(side(done.motif))) return done;
  const times = timesToReach(side(before), side(done.motif), isHeight ? 'height' : 'width');
  const grown = ({ x, y }: Point) => ({ x: x * times, y: y * times });
  const { account, motif } = done;
  const size = `${sayIn(unit).length(side(before))} ${isHeight ? 'high' : 'wide'}`;
  return {
    motif: resized(motif, times),
    account: {
      ...accountAt(account, grown),
      movedMm: (times - 1) * diagonal({ minX: 0, minY: 0, maxX: motif.widthMm, maxY: motif.heightMm }),
      message: `${account.message} The rest was made ${times.toFixed(2)} times as large, so that it is ${size}, as was asked for.`,
    },
    place: (at) => grown(done.place(at)),
  };
}

/** What was found where a stroke was dropped has gone with it. */
function withoutPlacesAt(scan: Scan, dropped: readonly Polyline[], kept: readonly Polyline[]): Scan {
  const off = (lines: readonly Polyline[], at: Point) =>
    Math.min(...lines.map((line) => distanceToLine(line, at)));
  const stays = (at: Point) => off(kept, at) <= off(dropped, at);
  return { ...scan, uncovered: scan.uncovered.filter(stays), offInk: scan.offInk.filter(stays) };
}

function distanceToLine(line: Polyline, { x, y }: Point): number {
  let least = Infinity;
  for (let i = 0; i + 3 < line.length; i += 2)
    least = Math.min(least, pointToSegment(x, y, line[i], line[i + 1], line[i + 2], line[i + 3]));
  return least;
}

interface Dropped {
  readonly name: string;
  readonly strokes: readonly number[];
  readonly places: readonly Point[];
}

function dots(motif: Motif): Dropped {
  const found = joinedStrokes(motif.strokes).dots;
  return { name: 'dot', strokes: found.flatMap(({ parts }) => parts), places: found.map(({ at }) => at) };
}

function copies(motif: Motif): Dropped {
  const found = joinedStrokes(motif.strokes).duplicates;
  return {
    name: 'copy of a stroke',
    strokes: found.map(({ stroke }) => stroke),
    places: found.map(({ at }) => at),
  };
}

function marksAndFrames(motif: Motif, setup: Setup): Dropped[] {
  const { marks } = studyOf(motif, setup);
  return (['mark', 'frame'] as const).map((kind) => {
    const found = marks.filter((mark) => mark.kind === kind);
    return {
      name: kind === 'mark' ? 'registration mark' : 'frame',
      strokes: found.flatMap(({ strokes }) => strokes),
      places: found.map(({ strokes }) => centre(boundsOf(strokes.map((i) => motif.strokes[i])))),
    };
  });
}
