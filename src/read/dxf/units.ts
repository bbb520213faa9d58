/**
 * The size of one drawing unit (DXF Reference, `$INSUNITS`, and `$MEASUREMENT` where it says nothing: 0 for inches, 1
 * for millimetres).
 */
import type { AssumedScale } from '../../../shared/artwork.js';

const inch = 25.4;
/** Of the United States, 1893: 39.37 to the metre, exactly. */
const surveyInch = 1000 / 39.37;
const metre = 1000;

/** Millimetres, by the number of `$INSUNITS`; 0 stands for none. */
const mmPerUnit: readonly number[] = [
  0,
  inch,
  12 * inch,
  63360 * inch,
  1,
  10,
  metre,
  1e3 * metre,
  1e-6 * inch,
  1e-3 * inch,
  36 * inch,
  1e-7,
  1e-6,
  1e-3,
  100,
  10 * metre,
  100 * metre,
  1e9 * metre,
  149_597_870_700 * metre,
  9_460_730_472_580_800 * metre,
  3.085677581491367e16 * metre,
  12 * surveyInch,
  surveyInch,
  36 * surveyInch,
  63360 * surveyInch,
];

export interface Units {
  readonly mm: number;
  /** What was assumed where the file does not say. */
  readonly assumed: AssumedScale | null;
}

export function unitsOf(header: ReadonlyMap<string, number>): Units {
  const mm = mmPerUnit[header.get('$INSUNITS') ?? 0] ?? 0;
  if (mm > 0) return { mm, assumed: null };
  const [inches, millimetres] = ['1 inch to the unit', '1 mm to the unit'];
  return header.get('$MEASUREMENT') === 0
    ? { mm: inch, assumed: { taken: inches, other: millimetres, timesAsLarge: 1 / inch } }
    : { mm: 1, assumed: { taken: millimetres, other: inches, timesAsLarge: inch } };
}
