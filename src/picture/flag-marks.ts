/**
 * Numbered flags at the places of findings. A flag stands off its place on a thin staff, wherever there is room for
 * it among the flags before it; its shape tells the weight of the finding as well as its colour does: a square for
 * an error, a diamond-cornered tag for a warning, a round one for information.
 */
import type { Finding, Severity } from '../../shared/finding.js';
import { flagged } from '../../shared/flags.js';
import type { Point } from '../../shared/plane.js';
import { numberMark, numberWidth } from './digits.js';
import { flagColour, ink, paper } from './ink.js';
import { tenth } from './line-mark.js';
import type { SheetOfPaper } from './sheet-of-paper.js';

interface Placed {
  readonly x: number;
  readonly y: number;
  readonly halfWidth: number;
  readonly halfHeight: number;
}

export function flagMarks(findings: readonly Finding[], sheet: SheetOfPaper): string[] {
  const taken: Placed[] = flagged(findings).flatMap(({ flags }) =>
    flags.map(({ at }) => ({ ...sheet.at(at), halfWidth: 2 * sheet.pen, halfHeight: 2 * sheet.pen })),
  );
  const all = flagged(findings).flatMap(({ finding, flags }) =>
    flags.map(({ number, at }) => {
      const place = sheet.at(at);
      const digitHeight = 8 * sheet.pen;
      const beside = finding.severity === 'warning' ? 6 : 4;
      const halfWidth = numberWidth(number, digitHeight) / 2 + beside * sheet.pen;
      const flag = roomFor(place, halfWidth, digitHeight / 2 + 3.5 * sheet.pen, taken, sheet);
      taken.push(flag);
      return { number, place, flag, digitHeight, severity: finding.severity };
    }),
  );
  const staffs = all.map(({ place, flag }) => staff(place, flag, sheet));
  return [
    ...staffs,
    ...all.map(({ number, flag, digitHeight, severity }) => tag(number, flag, digitHeight, severity, sheet)),
  ];
}

/** The first place round about that hides no flag and no flagged place, nearest first; else the flags overlap. */
function roomFor(
  place: Point,
  halfWidth: number,
  halfHeight: number,
  taken: readonly Placed[],
  { widthPx, heightPx, pen }: SheetOfPaper,
): Placed {
  const inside = (value: number, half: number, most: number) => Math.min(Math.max(value, half), most - half);
  let first: Placed | null = null;
  for (let ring = 1; ring <= 12; ring++) {
    for (let k = 0; k < 12; k++) {
      // Up and to the right first, then round about.
      const angle = -Math.PI / 3 + (k % 2 === 0 ? 1 : -1) * Math.ceil(k / 2) * (Math.PI / 6);
      const reach = ring * 18 * pen;
      const flag = {
        x: inside(place.x + reach * Math.cos(angle), halfWidth, widthPx),
        y: inside(place.y + reach * Math.sin(angle), halfHeight, heightPx),
        halfWidth,
        halfHeight,
      };
      first ??= flag;
      if (!taken.some((other) => overlap(flag, other, 2 * pen))) return flag;
    }
  }
  return first!;
}

function overlap(a: Placed, b: Placed, gap: number): boolean {
  return (
    Math.abs(a.x - b.x) < a.halfWidth + b.halfWidth + gap &&
    Math.abs(a.y - b.y) < a.halfHeight + b.halfHeight + gap
  );
}

function staff(place: Point, flag: Placed, { pen }: SheetOfPaper): string {
  const [x1, y1, x2, y2] = [place.x, place.y, flag.x, flag.y].map(tenth);
  return (
    `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" stroke="${paper}" stroke-width="${tenth(3 * pen)}"/>` +
    `<line x1="${x1}" y1="${y1}" x2="${x2}" y2="${y2}" stroke="${ink}" stroke-width="${tenth(pen)}"/>` +
    `<circle cx="${x1}" cy="${y1}" r="${tenth(2.4 * pen)}" fill="${ink}" stroke="${paper}" stroke-width="${tenth(pen)}"/>`
  );
}

function tag(
  number: number,
  flag: Placed,
  digitHeight: number,
  severity: Severity,
  { pen }: SheetOfPaper,
): string {
  const { x, y, halfWidth, halfHeight } = flag;
  const style = `fill="${flagColour[severity]}" stroke="${ink}" stroke-width="${tenth(1.2 * pen)}"`;
  const [left, top, right, bottom] = [x - halfWidth, y - halfHeight, x + halfWidth, y + halfHeight].map(
    tenth,
  );
  const cut = halfHeight * 0.7;
  const outline: Readonly<Record<Severity, string>> = {
    error: `M${left} ${top}H${right}V${bottom}H${left}Z`,
    warning: `M${tenth(left + cut + 2 * pen)} ${top}H${tenth(right - cut - 2 * pen)}L${right} ${tenth(y)}L${tenth(right - cut - 2 * pen)} ${bottom}H${tenth(left + cut + 2 * pen)}L${left} ${tenth(y)}Z`,
    info: `M${tenth(left + cut)} ${top}H${tenth(right - cut)}A${tenth(cut)} ${tenth(halfHeight)} 0 0 1 ${tenth(right - cut)} ${bottom}H${tenth(left + cut)}A${tenth(cut)} ${tenth(halfHeight)} 0 0 1 ${tenth(left + cut)} ${top}Z`,
  };
  return `<path d="${outline[severity]}" ${style}/>${numberMark(number, x, y, digitHeight, ink)}`;
}
