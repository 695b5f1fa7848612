/** The way into the class view and out of it: an address of its own, `#class` or `#class/STEP`. All of it that belongs to the first load. */
import { useSyncExternalStore } from 'react';

const ADDRESS = /^#class(?:\/([A-Za-z0-9_-]{1,60}))?$/;
export const CLASS_BUTTON_ID = 'class-view';

/** The step that an address names: '' for the first one, null where the address is not the class view's. */
export function stepInAddress(hash: string): string | null {
  const found = ADDRESS.exec(hash);
  return found === null ? null : (found[1] ?? '');
}

export const useInClass = (): boolean => useSyncExternalStore(subscribe, inClass);

/** From the page: the browser's own way back leads to the page again. */
export function openClass(): void {
  scrolledPx = window.scrollY;
  window.location.hash = '#class';
}

export function leaveClass(): void {
  // Where the address may not be rewritten, as in some browsers for a page from a disk, it loses its step and keeps its #.
  if (!rewriteAddress(window.location.pathname + window.location.search)) window.location.hash = '';
  for (const listener of listeners) listener();
  window.requestAnimationFrame(() => {
    window.scrollTo(0, scrolledPx);
    document.getElementById(CLASS_BUTTON_ID)?.focus({ preventScroll: true });
  });
}

/** A step forward is no page of its own to go back to. */
export function noteStep(stepId: string): void {
  if (stepInAddress(window.location.hash) !== stepId) rewriteAddress(`#class/${stepId}`);
}

function rewriteAddress(address: string): boolean {
  try {
    window.history.replaceState(null, '', address);
    return true;
  } catch {
    return false;
  }
}

const listeners = new Set<() => void>();
let scrolledPx = 0;

const inClass = (): boolean => stepInAddress(window.location.hash) !== null;

function subscribe(listener: () => void): () => void {
  listeners.add(listener);
  window.addEventListener('hashchange', listener);
  return () => {
    listeners.delete(listener);
    window.removeEventListener('hashchange', listener);
  };
}
