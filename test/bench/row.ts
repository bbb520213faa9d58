/** One line of the bench. */
export interface BenchRow {
  /** What was done. */
  readonly work: string;
  /** How long it took, as a ratio where there is something to compare with. */
  readonly measured: string;
  readonly aim: string;
}
