/** Candidate sizes of the motif, as multiples of its own: as it is, whole repeats across, whole rows down. */

export interface SizesWanted {
  readonly repeatMm: number;
  readonly heightMm: number;
  readonly fieldWidthMm: number;
  readonly fieldHeightMm: number;
  /** How far a size may leave the motif's own, up or down, as a share. */
  readonly resize: number;
  /** The spacing that rows come down at, at the motif's own size, and whether it stays when the motif grows. */
  readonly spacing: { readonly mm: number; readonly isFixed: boolean };
}

/** Ascending in change of size, the motif's own first. Sizes that differ by less than a millionth are one. */
export function candidateSizes(wanted: SizesWanted): number[] {
  const { repeatMm, heightMm, fieldWidthMm, fieldHeightMm, resize, spacing } = wanted;
  const least = 1 - resize;
  const most = 1 + resize;
  const sizes = [1];
  const repeats = fieldWidthMm / repeatMm;
  for (let n = Math.max(1, Math.ceil(repeats / most)); n <= repeats / least; n++) sizes.push(repeats / n);
  const { mm, isFixed } = spacing;
  const rowsAt = (size: number) => (fieldHeightMm - size * heightMm) / (isFixed ? mm : size * mm) + 1;
  for (let n = Math.max(1, Math.ceil(rowsAt(most))); n <= rowsAt(least); n++) {
    sizes.push(
      isFixed ? (fieldHeightMm - (n - 1) * mm) / heightMm : fieldHeightMm / (heightMm + (n - 1) * mm),
    );
  }
  return sizes
    .filter((size) => size > 0 && size >= least && size <= most)
    .sort((a, b) => Math.abs(a - 1) - Math.abs(b - 1))
    .filter((size, i, all) => i === 0 || all.slice(0, i).every((other) => Math.abs(size - other) > 1e-6));
}
