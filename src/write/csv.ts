/** The motif as a table of points for spreadsheets: RFC 4180, one point a line, in stitching order. */
import type { Motif } from '../../shared/motif.js';
import type { Point } from '../../shared/plane.js';
import { NumberSheet } from '../markup/number-sheet.js';

/** Columns: stroke (from 1), point (from 1 within the stroke), x and y in millimetres to 0.001. */
export function writeCsv(motif: Motif, place: Point = { x: 0, y: 0 }): string {
  const sheet = new NumberSheet();
  sheet.text('stroke,point,x_mm,y_mm\r\n');
  motif.strokes.forEach((stroke, s) => {
    for (let i = 0; i < stroke.length; i += 2) {
      const row = [s + 1, i / 2 + 1, stroke[i] + place.x, stroke[i + 1] + place.y];
      row.forEach((value, column) => {
        if (column > 0) sheet.text(',');
        sheet.number(value);
      });
      sheet.text('\r\n');
    }
  });
  return sheet.toString();
}
