/** The rest of a pass on its quilt: what is done in grey, the rest with its start and end. */
import type { Quilt } from '../../shared/plan.js';
import type { Polyline } from '../../shared/plane.js';
import { lastPoint } from '../geometry/polyline.js';
import { fieldOf, topOf } from '../plan/field.js';
import { ink } from './ink.js';
import { endMark, lineMark, startMark } from './line-mark.js';
import { cloth, frame, leastStepPx } from './plan-picture.js';
import { layOn, picture } from './sheet-of-paper.js';

const doneColour = '#b5b5b5';

/** SVG text, `widthPx` wide. */
export function restPicture(
  quilt: Quilt,
  done: readonly Polyline[],
  rest: readonly Polyline[],
  { widthPx }: { readonly widthPx: number },
): string {
  const sheet = layOn(fieldOf(quilt), widthPx);
  const fine = { ...sheet, pen: widthPx / 900 };
  return picture(sheet, [
    frame(topOf(quilt), sheet, cloth),
    lineMark(done, fine, { colour: doneColour, width: 1.4, leastStepPx }),
    lineMark(rest, fine, { colour: ink, width: 1.6, leastStepPx }),
    endMark(lastPoint(rest[rest.length - 1]), fine),
    startMark(rest[0], fine),
  ]);
}
