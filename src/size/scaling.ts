/** What goes along when a drawing changes its size. */
import type { IntakeNote } from '../../shared/artwork.js';
import type { RowChoice } from '../../shared/layout.js';
import type { Box } from '../../shared/plane.js';
import { Refusal } from '../../shared/refusal.js';

/** Ten kilometres: beyond it a number is a mistake, and 0.001 mm would soon be lost in rounding. */
const largestMm = 1e7;

/** @throws Refusal where the box would reach too far out */
export function requireSane(box: Box, scale: number): void {
  const farthest = Math.max(-box.minX, -box.minY, box.maxX, box.maxY) * scale;
  if (!(farthest <= largestMm))
    throw new Refusal('It reaches more than 10 km out: its numbers, or the size asked for, cannot be meant.');
}

/** @throws Refusal where the drawing is flat that way */
export function timesToReach(wantedMm: number, hasMm: number, side: 'height' | 'width'): number {
  if (hasMm > 0) return wantedMm / hasMm;
  const other = side === 'height' ? 'width' : 'height';
  throw new Refusal(`It is a straight line without any ${side}: give its ${other} instead.`);
}

export function scaledNotes(notes: readonly IntakeNote[], scale: number): readonly IntakeNote[] {
  if (scale === 1) return notes;
  return notes.map((note) => ({
    ...note,
    places: note.places.map(({ x, y }) => ({ x: x * scale, y: y * scale })),
  }));
}

export function rowsScaled(rows: RowChoice, scale: number): RowChoice {
  return { ...rows, spacing: rows.spacing * scale, clearance: rows.clearance * scale };
}
