/** Points as JSON lists of pairs, to 0.001 mm, the numbers as `numberText` has them. */
import type { Polyline } from '../../shared/plane.js';
import { NumberSheet } from './number-sheet.js';

/** About so many signs a pair has. */
const perPair = 20;

/** `[[x,y],[x,y]]`. */
export function pointsText(line: Polyline): string {
  const sheet = new NumberSheet((perPair / 2) * line.length + 8);
  sheet.text('[[');
  for (let i = 0; i < line.length; i += 2) {
    if (i > 0) sheet.text('],[');
    coordinate(sheet, line[i]);
    sheet.text(',');
    coordinate(sheet, line[i + 1]);
  }
  sheet.text(']]');
  return sheet.toString();
}

function coordinate(sheet: NumberSheet, mm: number): void {
  if (!Number.isFinite(mm)) throw new RangeError(`${mm} mm is no coordinate`);
  sheet.number(mm);
}
