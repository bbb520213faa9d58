/** A size that is a guess is told wherever it is used, in the words of the rule that finds it. */
import physicalSize from '../../rules/physical-size.js';
import type { Study } from '../../shared/study.js';
import { lint } from '../lint/index.js';

/** A sentence or none: none, too, where the rule is switched off. */
export function assumedSizeWords(study: Study): string[] {
  return lint(study, [physicalSize]).map(({ message }) => message);
}

/** For a JSON document: a key that is there only where the size is a guess. */
export function assumedSizeKey({ assumedSize }: { readonly assumedSize?: boolean }): { assumedSize?: true } {
  return assumedSize ? { assumedSize } : {};
}
