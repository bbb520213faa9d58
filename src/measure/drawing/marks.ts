/**
 * Strokes that are drawn for the page and not for the quilt: a frame round everything, and registration marks.
 *
 * A frame is a closed stroke that fills its own box (a page border, with round corners or not; a heart or a hoop
 * round a motif is part of the motif), holds every other stroke and touches none: the outer lines of a crosshatch are
 * stitching. Round a bent line that goes on to the next repeat it may touch them and be a little smaller, but nothing may
 * end on it that does not run from its one side to the other: without the box of the repeat the row is whole. A mark is a group of small strokes, less than a twentieth of the motif
 * across, that lies outside the motif's box and is a plain cross; or with no line of the motif
 * near it, outside that box, or within it where it is a plain cross: a pearl in an open space of the motif is no mark.
 */
import type { Box, Polyline } from '../../../shared/plane.js';
import type { Mark } from '../../../shared/study.js';
import { centre, diagonal, emptyBox, extendByBox } from '../../geometry/box.js';
import { distance, midpoint } from '../../geometry/point.js';
import {
  boundsOf,
  firstPoint,
  isClosed,
  lastPoint,
  lengthOf,
  passesBy,
  signedArea,
} from '../../geometry/polyline.js';
import type { SegmentIndex } from '../../near/segment-index.js';
import { touchMm } from '../../network/network.js';
import { once } from '../../once.js';
import { type Joined, joinedStrokes } from '../ends/strokes.js';

const markShare = 1 / 20;
/** Of its box, that the area within a frame takes at least (a circle takes 0.79), and of its width, a line across. */
const frameShare = 0.9;
/** Of the box round everything, that the area within a frame takes at least, and of the height of a line across, what lies in it. */
const allShare = 0.8;
/** A line that goes straight is no longer than this many times its way. */
const straight = 1.01;
/** More small strokes than this are the drawing's own pieces. */
const mostPieces = 1000;

/** The index is that of the same strokes, in the same order; ends up to `joinMm` apart are meant to be joined. */
export function marksOf(joined: readonly Joined[], index: SegmentIndex, joinMm: number): Mark[] {
  if (joined.length < 2) return [];
  const boxes = joined.map(({ line }) => boundsOf([line]));
  const frames = framesAmong(joined, boxes, index, joinMm);
  const rest = joined.map((_, k) => k).filter((k) => !frames.includes(k));
  const small = smallAmong(rest, boxes);
  const isSmall = new Set(small);
  const large = rest.filter((k) => !isSmall.has(k));
  const marks =
    large.length === 0 || small.length > mostPieces
      ? []
      : groupsOf(small, boxes).filter((group) => isMark(group, joined, boxes, large, index));
  const asMark = (kind: Mark['kind'], group: readonly number[]): Mark => ({
    kind,
    at: centre(boxRound(group, boxes)),
    strokes: group.flatMap((k) => joined[k].parts),
  });
  return [
    ...frames.map((k) => ({ ...asMark('frame', [k]), at: firstPoint(joined[k].line) })),
    ...marks.map((group) => asMark('mark', group)),
  ];
}

function boxRound(group: readonly number[], boxes: readonly Box[]): Box {
  const box = emptyBox();
  for (const k of group) extendByBox(box, boxes[k]);
  return box;
}

/** The outer border and the inner one of a double border; more squares one within the other are a motif. */
function framesAmong(
  joined: readonly Joined[],
  boxes: readonly Box[],
  index: SegmentIndex,
  joinMm: number,
): number[] {
  const open = once(() => {
    const lines = joined.map(({ line }) => line).filter((line) => !isClosed(line, joinMm));
    return joinedStrokes(lines, joinMm).strokes;
  });
  const frames: number[] = [];
  let rest = joined.map((_, k) => k).sort((a, b) => areaOf(boxes[b]) - areaOf(boxes[a]));
  while (rest.length > 1 && frames.length < 2) {
    const all = boxRound(rest, boxes);
    const frame = rest.find((k) => {
      const { line } = joined[k];
      if (!isClosed(line, joinMm) || !isFramed(line, boxes[k], all)) return false;
      return !meetsAny(k, rest, boxes, index) || isWholeWithout(line, boxes[k], open());
    });
    if (frame === undefined) break;
    frames.push(frame);
    rest = rest.filter((k) => k !== frame);
  }
  return frames;
}

/** Whether one reaches out of its box or touches it. */
function meetsAny(stroke: number, rest: readonly number[], boxes: readonly Box[], index: SegmentIndex) {
  const { firstPoints, strokeOf } = index;
  let meets = rest.some((k) => !holds(boxes[stroke], boxes[k]));
  for (let s = firstPoints[stroke]; s <= firstPoints[stroke + 1] - 2 && !meets; s++)
    index.visitNearSegment(s, touchMm, (other) => {
      meets ||= strokeOf[other] !== stroke;
    });
  return meets;
}

function holds(outer: Box, inner: Box): boolean {
  return (
    outer.minX <= inner.minX &&
    outer.minY <= inner.minY &&
    outer.maxX >= inner.maxX &&
    outer.maxY >= inner.maxY
  );
}

/** A bent line goes on over more than half of it, and what ends on it does so too, and fills its width. What is straight is a bar. */
function isWholeWithout(frame: Polyline, box: Box, open: readonly Joined[]): boolean {
  const [wide, high] = [box.maxX - box.minX, box.maxY - box.minY];
  let goesOn = false;
  for (const { line } of open) {
    const own = boundsOf([line]);
    const ends = [firstPoint(line), lastPoint(line)];
    const [from, to] = ends;
    const withinMm = Math.min(own.maxY, box.maxY) - Math.max(own.minY, box.minY);
    const isLong = Math.abs(to.x - from.x) > wide / 2 || Math.abs(to.y - from.y) > high / 2;
    const isAlong = isLong && withinMm >= allShare * (own.maxY - own.minY);
    const isWide = own.maxX - own.minX >= frameShare * wide;
    if (!(isAlong && isWide) && ends.some(({ x, y }) => passesBy(frame, x, y, touchMm))) return false;
    goesOn ||= isAlong && lengthOf(line) > straight * distance(from, to);
  }
  return goesOn;
}

function isFramed(line: Polyline, box: Box, all: Box): boolean {
  const area = Math.abs(signedArea(line));
  // One way round only: a dense line that winds about fills its box too, but is longer than the box's edge.
  const edge = 2 * (box.maxX - box.minX + box.maxY - box.minY);
  if (lengthOf(line) > straight * edge) return false;
  return area >= frameShare * areaOf(box) && area >= allShare * areaOf(all);
}

function areaOf({ minX, minY, maxX, maxY }: Box): number {
  return (maxX - minX) * (maxY - minY);
}

function smallAmong(strokes: readonly number[], boxes: readonly Box[]): number[] {
  const limit = markShare * diagonal(boxRound(strokes, boxes));
  return strokes.filter((k) => diagonal(boxes[k]) < limit);
}

/** Strokes whose boxes meet, and what their common boxes meet, are one group. */
function groupsOf(strokes: readonly number[], boxes: readonly Box[]): number[][] {
  let groups: { members: number[]; box: Box }[] = [];
  for (const k of strokes) {
    const joined = { members: [k], box: { ...boxes[k] } };
    const apart: typeof groups = [];
    for (const group of groups) {
      if (meet(group.box, joined.box)) {
        for (const member of group.members) joined.members.push(member);
        extendByBox(joined.box, group.box);
      } else {
        apart.push(group);
      }
    }
    groups = [...apart, joined];
  }
  return groups.map(({ members }) => members.sort((a, b) => a - b));
}

function meet(a: Box, b: Box): boolean {
  return a.minX <= b.maxX && b.minX <= a.maxX && a.minY <= b.maxY && b.minY <= a.maxY;
}

function isMark(
  group: readonly number[],
  joined: readonly Joined[],
  boxes: readonly Box[],
  large: readonly number[],
  index: SegmentIndex,
): boolean {
  const motifBox = boxRound(large, boxes);
  const box = boxRound(group, boxes);
  const size = diagonal(box);
  if (size >= markShare * diagonal(motifBox)) return false;
  const isPlainCross = isCross(group.map((k) => joined[k].line));
  if (meet(box, motifBox) ? !isPlainCross : isPlainCross) return isPlainCross;
  const { x, y } = centre(box);
  const isLarge = new Set(large);
  let near = false;
  // Half its size to its own edge, and as much again as it is large.
  index.visitNearPoint(x, y, 1.5 * size, (segment) => {
    near ||= isLarge.has(index.strokeOf[segment]);
  });
  return !near;
}

/** Two straight lines of like length across each other's middle, whatever else is drawn there. */
function isCross(lines: readonly Polyline[]): boolean {
  const bars = lines.filter((line) => {
    const straight = distance(firstPoint(line), lastPoint(line));
    return straight > 0 && lengthOf(line) < 1.01 * straight;
  });
  return bars.some((a, i) =>
    bars.slice(i + 1).some((b) => {
      const [a0, a1, b0, b1] = [firstPoint(a), lastPoint(a), firstPoint(b), lastPoint(b)];
      const across = Math.abs((a1.x - a0.x) * (b1.x - b0.x) + (a1.y - a0.y) * (b1.y - b0.y));
      const lengths = [lengthOf(a), lengthOf(b)];
      return (
        distance(midpoint(a0, a1), midpoint(b0, b1)) < 0.2 * Math.min(...lengths) &&
        Math.min(...lengths) > 0.5 * Math.max(...lengths) &&
        across < 0.2 * lengths[0] * lengths[1]
      );
    }),
  );
}
