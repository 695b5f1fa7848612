/** Before a button goes away with what it stood by, its chapter's heading takes the focus: whoever works by keys goes on from there. */
export function focusHeading(from: Element): void {
  const heading = from.closest('.chapter')?.querySelector<HTMLElement>('h2');
  if (heading == null) return;
  heading.tabIndex = -1;
  heading.focus({ preventScroll: true });
}
