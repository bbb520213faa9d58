/**
 * The take-up roll. Cloth of length L and thickness t, seen from the side, covers the area L t whether it lies flat or
 * rolled up: pi (r^2 - r0^2) = L t. The roll lies between needle and machine, so what its diameter has grown is depth
 * lost.
 */
export interface Machine {
  readonly throatMm: number;
  /** Kept free of the throat. */
  readonly reserveMm: number;
  /** Diameter of the empty roller. */
  readonly rollerMm: number;
  readonly quiltThicknessMm: number;
}

/** Radius of the roll with `rolledMm` of the quilt on it. */
export function rollRadiusMm(
  rolledMm: number,
  { rollerMm, quiltThicknessMm }: Pick<Machine, 'rollerMm' | 'quiltThicknessMm'>,
): number {
  return Math.sqrt((rollerMm / 2) ** 2 + (Math.max(0, rolledMm) * quiltThicknessMm) / Math.PI);
}

/** The depth that can be stitched in a pass; without a machine there is no end to it. */
export function usableDepthMm(rolledMm: number, machine: Machine | null): number {
  if (machine === null) return Infinity;
  const grownMm = 2 * rollRadiusMm(rolledMm, machine) - machine.rollerMm;
  return machine.throatMm - machine.reserveMm - grownMm;
}

/**
 * The largest motif that fits from the first row of a field so deep to its last: as deep as the throat is when all of
 * the field but that row is rolled on. Rows trimmed by the lower border lose depth faster than the roll grows. Found
 * by halving, to under 0.001 mm; 0 where nothing fits.
 */
export function largestHeightMm(fieldDepthMm: number, machine: Machine): number {
  let fits = 0;
  let tooTall = fieldDepthMm;
  if (usableDepthMm(0, machine) >= fieldDepthMm) return fieldDepthMm;
  while (tooTall - fits > 0.0005) {
    const middle = (fits + tooTall) / 2;
    if (usableDepthMm(fieldDepthMm - middle, machine) >= middle) fits = middle;
    else tooTall = middle;
  }
  return fits;
}
