/** The voice of findings and accounts: numbers in the words and units of the person who reads them. */
import type { MendName } from './finding.js';
import { grouped } from './grouped.js';
import type { Point } from './plane.js';
import type { LengthUnit } from './setup.js';
import { inches, lengthAtMost, lengthBeside, lengthText, millimetres, sizeText } from './units.js';

export interface Say {
  /** ", or let linewright mend --reshape do it"; nothing where that mend was tried and left it as it is. */
  orMend(mend: MendName): string;
  /** Both units, the user's first; the sign is dropped. */
  length(mm: number): string;
  /** Both units, neither rounded down: a spacing typed back as it is told must not be too small. */
  spacing(mm: number): string;
  /** Both units; finer where it would read the same as `besideMm`, which is told in the same sentence. */
  beside(mm: number, besideMm: number): string;
  /** Both units, rounded down. */
  atMost(mm: number): string;
  /** One unit, the user's, not rounded below `leastMm`. */
  short(mm: number, leastMm?: number): string;
  size(widthMm: number, heightMm: number): string;
  /** Of thread and of long lines, metres in, yards and metres out: `3.6 yd (3.25 m)`. */
  thread(metres: number): string;
  /** Of a stretch of a long line: as thread, but under a yard as a length, so that the last of it is not told as 0. */
  stretch(mm: number): string;
  angle(deg: number): string;
  /** `1 gap`, `3 gaps`, `1,250 gaps`. */
  count(n: number, one: string, many?: string): string;
  /** `a`, `a and b`, `a, b and c`. */
  list(parts: readonly string[]): string;
  /** From the left and the top of the motif: `2 1/4 in from the left, 3/8 in down`, or `3/8 in above the motif`. */
  place(at: Point): string;
  /** From the upper left corner of a top, negative in the margin: `23 1/2 in across, -3/4 in down`. */
  onTop(at: readonly [number, number]): string;
}

/** So little outside the motif is on its edge, mm. */
const onEdgeMm = 0.05;

/** `inVain`: mends that were tried on this motif and could not put it right. */
export function sayIn(unit: LengthUnit, inVain: readonly MendName[] = []): Say {
  const short = unit === 'in' ? inches : millimetres;
  const along = (mm: number, inside: string, outside: string) =>
    mm < -onEdgeMm ? `${short(-mm)} ${outside}` : `${short(Math.max(0, mm))} ${inside}`;
  const signed = (mm: number) => (mm < -onEdgeMm ? `-${short(-mm)}` : short(Math.max(0, mm)));
  return {
    orMend: (mend) => (inVain.includes(mend) ? '' : ', or let linewright mend --reshape do it'),
    length: (mm) => lengthText(Math.abs(mm), unit),
    spacing: (mm) => lengthText(mm, unit, mm),
    beside: (mm, besideMm) => lengthBeside(Math.abs(mm), besideMm, unit),
    atMost: (mm) => lengthAtMost(mm, unit),
    short: (mm, leastMm) => short(Math.abs(mm), leastMm),
    size: (widthMm, heightMm) => sizeText(widthMm, heightMm, unit),
    thread: (metres) => threadText(metres, unit),
    stretch: (mm) => (mm < metresPerYard * 1000 ? lengthText(mm, unit) : threadText(mm / 1000, unit)),
    angle: (deg) => `${Math.round(deg)} degrees`,
    count: (n, one, many = plural(one)) => `${grouped(n)} ${n === 1 ? one : many}`,
    list: (parts) =>
      parts.length < 2 ? parts.join() : `${parts.slice(0, -1).join(', ')} and ${parts[parts.length - 1]}`,
    place: ({ x, y }) =>
      `${along(x, 'from the left', 'left of the motif')}, ${along(y, 'down', 'above the motif')}`,
    onTop: ([x, y]) => `${signed(x)} across, ${signed(y)} down`,
  };
}

/** Of a noun, whatever stands after it: "straight lines in the layer x", "copies of a stroke", "meshes". */
function plural(one: string): string {
  const [, noun, rest] = /^(.*?)((?: (?:in|of|without|like) .*)?)$/s.exec(one)!;
  if (/(?:s|x|z|ch|sh)$/.test(noun)) return `${noun}es${rest}`;
  return (/[^aeiou]y$/.test(noun) ? `${noun.slice(0, -1)}ies` : `${noun}s`) + rest;
}

const metresPerYard = 0.9144;

function threadText(metres: number, unit: LengthUnit): string {
  const yards = metres / metresPerYard;
  const [yd, m] = [`${yards.toFixed(yards < 0.1 ? 2 : 1)} yd`, `${metres.toFixed(2)} m`];
  return unit === 'in' ? `${yd} (${m})` : `${m} (${yd})`;
}
