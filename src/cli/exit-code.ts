/** How a run ends, for scripts. */
import type { Status } from '../lint/report.js';

/** 0: no errors found, 1: errors found, 2: could not do it. Of many the worst counts. */
export type ExitCode = 0 | 1 | 2;

export const exitCodes: Readonly<Record<Status, ExitCode>> = {
  clean: 0,
  warnings: 0,
  errors: 1,
  unreadable: 2,
};

export function worst(codes: readonly ExitCode[]): ExitCode {
  return Math.max(0, ...codes) as ExitCode;
}
