/** The motif as a table of points for spreadsheets: RFC 4180, one point a line, in stitching order. */
import type { Motif } from '../../shared/motif.js';
import type { Point } from '../../shared/plane.js';
import { numberText } from '../markup/number-text.js';

/** Columns: stroke (from 1), point (from 1 within the stroke), x and y in millimetres to 0.001. */
export function writeCsv(motif: Motif, place: Point = { x: 0, y: 0 }): string {
  const lines = ['stroke,point,x_mm,y_mm'];
  motif.strokes.forEach((stroke, s) => {
    for (let i = 0; i < stroke.length; i += 2) {
      lines.push(
        `${s + 1},${i / 2 + 1},${numberText(stroke[i] + place.x)},${numberText(stroke[i + 1] + place.y)}`,
      );
    }
  });
  return `${lines.join('\r\n')}\r\n`;
}
