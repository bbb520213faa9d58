/** One file of many as work to be handed to a thread: plain data all of it. */
import type { Setup } from '../../shared/setup.js';
import type { Typed } from './options.js';

/** The commands that take many files. */
export type FileCommand = 'check' | 'convert' | 'mend';

/** What the work on every file of a run needs. */
export interface Run {
  readonly command: FileCommand;
  readonly typed: Typed;
  readonly setup: Setup;
  /** Never written to. */
  readonly inputs: readonly string[];
  /** Whether what people read may be coloured. */
  readonly colour: boolean;
}

export interface FileJob {
  readonly file: string;
  /** Base name of its outputs. */
  readonly name: string;
}

/** What came of one file: both where it was done but not all of it could be written. */
export interface FileDone<T = unknown> {
  readonly result?: T;
  /** Why it could not be done. */
  readonly refused?: string;
}
