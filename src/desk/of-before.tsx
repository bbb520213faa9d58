import type { ComponentChildren } from 'preact';
import { askAgain, halted, longSince } from './follow.js';
import { answeredFor, known } from './known.js';
import type { Kind } from './questions.js';
import { current } from './state.js';

/** Whether what is known still holds for the choices before, and has for longer than a blink. */
export function isOfBefore(kind: Kind): boolean {
  const now = current.value?.choices;
  return now !== undefined && longSince.value === now && answeredFor.value[kind] !== now;
}

/**
 * What is known, `children`, or in its place that it is being worked out. Where it is of before the last change that is said
 * above it: it is no verdict on what was chosen since.
 */
export function OfBefore({
  kind,
  waiting,
  children,
}: {
  readonly kind: keyof typeof known;
  readonly waiting: string;
  readonly children: ComponentChildren;
}) {
  const isKnown = known[kind].value !== null;
  const isOld = isKnown && isOfBefore(kind);
  const isHalted = halted.value === current.value?.choices;
  const words = isOld
    ? isHalted
      ? 'This is as it was before the change: working out how it is now was stopped.'
      : 'This is as it was before the change; how it is now is being worked out …'
    : isHalted
      ? 'Working this out was stopped.'
      : `${waiting} …`;
  return (
    <div class={isOld ? 'of-before' : undefined}>
      <div aria-live="polite">
        {(isOld || !isKnown) && (
          <p>
            {words}{' '}
            {isHalted && (
              <button type="button" onClick={askAgain}>
                Work it out
              </button>
            )}
          </p>
        )}
      </div>
      {isKnown && children}
    </div>
  );
}
