/** From artwork to a motif at its working size. */

import type { Artwork, IntakeNote } from '../../shared/artwork.js';
import { grouped } from '../../shared/grouped.js';
import type { Motif } from '../../shared/motif.js';
import type { Box, Point, Polyline } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';
import type { Setup } from '../../shared/setup.js';
import { opSize, type Subpath } from '../../shared/subpath.js';
import { scanScaled } from '../geometry/scan.js';
import { mapped } from '../geometry/subpath.js';
import { curveBounds } from './bounds.js';
import { flatten } from './flatten.js';
import { GrowingLine } from './growing-line.js';
import { motifOf } from './motif-of.js';
import { nothingToStitch } from './nothing-to-stitch.js';
import { requireSane, rowsScaled, scaledNotes, timesToReach } from './scaling.js';

/**
 * The artwork as polylines at its working size: as high as `setup.heightMm` or as wide as `setup.widthMm` says,
 * in proportion, else at the size the file states. Nothing is dropped but lines without any extent, which become
 * `dot` notes.
 *
 * @throws Refusal where there is nothing to stitch, a flat drawing is given a height, or the points are too many
 */
export function toMotif(artwork: Artwork, setup: Setup): Motif {
  const name = artwork.carried?.name ?? artwork.name;
  const { drawn, dots } = apart(artwork.lines);
  if (drawn.length === 0) throw new Refusal(nothingToStitch(artwork, dots.length, setup));
  const box = curveBounds(drawn);
  const scale = scaleFor(box, setup);
  requireSane(box, scale);
  const strokes = atSize(drawn, box, scale, setup);
  const { carried } = artwork;
  return motifOf(strokes, {
    name,
    scale,
    flattenMm: carried?.flattenMm === undefined ? setup.flattenMm : carried.flattenMm * scale,
    assumedSize: artwork.assumedSize && setup.heightMm === null && setup.widthMm === null,
    ...(artwork.assumedScale && { assumedScale: artwork.assumedScale }),
    statedSizeMm: artwork.statedSizeMm,
    credit: artwork.credit,
    notes: scaledNotes(withDots(artwork.notes, dots), scale),
    mended: carried?.mended ?? [],
    unknown: carried?.unknown ?? {},
    ...(drawn.some(({ fill }) => fill) && { fills: drawn.map(({ fill }) => fill ?? null) }),
    ...(artwork.scan && { scan: scanScaled(artwork.scan, scale) }),
    ...(carried?.source && { source: carried.source }),
    ...(carried?.rows && { rows: rowsScaled(carried.rows, scale) }),
  });
}

/** Lines with some extent apart from those that stay in one place. */
function apart(lines: readonly Subpath[]): { drawn: Subpath[]; dots: Point[] } {
  const drawn: Subpath[] = [];
  const dots: Point[] = [];
  for (const line of lines) {
    if (hasExtent(line)) drawn.push(line);
    else dots.push({ x: line.coords[0], y: line.coords[1] });
  }
  return { drawn, dots };
}

function hasExtent(line: Subpath): boolean {
  const { ops, coords } = line;
  let at = 2;
  for (const op of ops) {
    at += opSize[op];
    if (coords[at - 2] !== coords[0] || coords[at - 1] !== coords[1]) return true;
  }
  // With each curve it comes back to where it began: how far it bulges tells.
  const box = curveBounds([line]);
  return ops.length > 0 && (box.maxX > box.minX || box.maxY > box.minY);
}

function scaleFor(box: Box, { heightMm, widthMm }: Setup): number {
  if (heightMm !== null) return timesToReach(heightMm, box.maxY - box.minY, 'height');
  if (widthMm !== null) return timesToReach(widthMm, box.maxX - box.minX, 'width');
  return 1;
}

function atSize(drawn: readonly Subpath[], box: Box, scale: number, setup: Setup): Polyline[] {
  const sized: Box = {
    minX: box.minX * scale,
    minY: box.minY * scale,
    maxX: box.maxX * scale,
    maxY: box.maxY * scale,
  };
  let left = setup.limits.points;
  const growing = new GrowingLine(() => {
    if (left-- > 0) return;
    const [most, fine] = [grouped(setup.limits.points), setup.flattenMm];
    throw new Refusal(
      `It comes to more than ${most} points at ${fine} mm, the most there may be: make it smaller or simpler.`,
    );
  });
  return drawn.map((line) =>
    flatten(scale === 1 ? line : mapped(line, [scale, 0, 0, scale, 0, 0]), sized, setup.flattenMm, growing),
  );
}

function withDots(notes: readonly IntakeNote[], dots: readonly Point[]): readonly IntakeNote[] {
  if (dots.length === 0) return notes;
  return [...notes, { kind: 'dot', what: 'dot', count: dots.length, places: dots.slice(0, 20) }];
}
