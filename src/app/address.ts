/** The page's own address: what comes in it, and what is taken out of it again. */
import { linkArrival } from './arrival';
import type { Guest } from './guest';

/** A link opened while the page is open, and one that was gone back to. Of several in a row only the last is shown. */
export function watchAddress(guest: Guest): void {
  let shown = window.location.hash;
  window.addEventListener('hashchange', () => {
    const { hash } = window.location;
    // Back from a place on the page to the link that is shown.
    if (hash === shown && guest.current().kind === 'shown') return;
    void linkArrival(hash).then((arrival) => {
      if (arrival.kind === 'none' || hash !== window.location.hash) return;
      shown = hash;
      if (arrival.kind === 'picture') void guest.show(arrival.picture);
      else guest.refuse(arrival.message);
    });
  });
}

/** The link goes out of the address and the rest stays; a place on the page is left as it is. */
export function forgetAddress(): void {
  const { hash, pathname, search } = window.location;
  if (!/^#see\d/.test(hash)) return;
  try {
    window.history.replaceState(window.history.state, '', `${pathname}${search}`);
  } catch {
    // Some browsers forbid it to a page from a disk: then a reload shows the link once more.
  }
}

/** Where links to this page begin; null for a page that was opened from a disk, which is nowhere but there. */
export function linkBase(): string | null {
  const { protocol, origin, pathname } = window.location;
  return protocol === 'http:' || protocol === 'https:' ? `${origin}${pathname}` : null;
}
