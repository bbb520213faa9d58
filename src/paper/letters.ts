/** A, B, … Z, AA, AB, … for the rows of sheets, from 0. */
export function rowLetters(row: number): string {
  const last = String.fromCharCode(65 + (row % 26));
  return row < 26 ? last : rowLetters(Math.floor(row / 26) - 1) + last;
}
