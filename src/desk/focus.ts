/** Takes the focus to a heading, where what had it is gone: whoever works by keyboard or ear must not be lost. */
export function focusOn(id: string): void {
  document.getElementById(id)?.focus({ preventScroll: true });
}

/** Where the heading has the focus, it is moved out from under the picture. */
export function keepInSight(id: string): void {
  if (document.activeElement?.id === id) document.activeElement.scrollIntoView({ block: 'nearest' });
}
