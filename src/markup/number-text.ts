/** A coordinate or length as files carry it: to 0.001 mm, without trailing zeros, never "-0". */
export function numberText(value: number): string {
  return String(toMicron(value));
}

/** Rounded to 0.001 mm. */
export function toMicron(value: number): number {
  return Math.round(value * 1000) / 1000 || 0;
}
