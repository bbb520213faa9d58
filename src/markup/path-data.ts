import type { Polyline } from '../../shared/plane.js';
import { numberText } from './number-text.js';

/** SVG path data of a polyline, moved by (dx, dy), to 0.001 of a unit. */
export function pathData(line: Polyline, dx = 0, dy = 0): string {
  const parts: string[] = [];
  for (let i = 0; i < line.length; i += 2) {
    parts.push(`${i === 0 ? 'M' : 'L'}${numberText(line[i] + dx)} ${numberText(line[i + 1] + dy)}`);
  }
  return parts.join('');
}
