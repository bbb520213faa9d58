/** Takes the focus to a heading, where what had it is gone: whoever works by keyboard or ear must not be lost. */
export function focusOn(id: string): void {
  document.getElementById(id)?.focus({ preventScroll: true });
}
