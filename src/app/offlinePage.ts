/** The page's own surroundings of `createOffline`. */
import { createOffline, type Offline } from './offline';

/** Between two looks for a newer version, ms: a page may stay open for days. */
const ASK_EVERY_MS = 60 * 60 * 1000;

/** What browsers hand over that install pages; no part of the standard yet (W3C Manifest Incubations, `BeforeInstallPromptEvent`). */
interface InstallOffer extends Event {
  prompt(): Promise<unknown>;
}

/** Begins once the page has been loaded, so that what is put by does not delay what is looked at. */
export function offlineOfPage(page: Window): Offline {
  const container = 'serviceWorker' in page.navigator ? page.navigator.serviceWorker : null;
  return createOffline({
    worker: () => {
      if (!import.meta.env.PROD || container === null || page.location.protocol === 'file:') return null;
      return loaded(page)
        .then(() => import('workbox-window'))
        .then(({ Workbox }) => new Workbox(new URL('sw.js', page.document.baseURI).href, { updateViaCache: 'none' }));
    },
    served: container !== null && container.controller !== null,
    reload: () => page.location.reload(),
    nowAndThen: (ask) => {
      page.setInterval(ask, ASK_EVERY_MS);
      page.addEventListener('online', ask);
    },
    // What vite says when a part of the page is not there.
    onMissingPart: (tell) => page.addEventListener('vite:preloadError', tell),
    onInstallable: (tell) => {
      page.addEventListener('beforeinstallprompt', (event) => {
        // Offered where the page speaks of it, not over the picture.
        event.preventDefault();
        tell(() => void (event as InstallOffer).prompt().catch(() => undefined));
      });
      page.addEventListener('appinstalled', () => tell(null));
    },
  });
}

function loaded(page: Window): Promise<void> {
  if (page.document.readyState === 'complete') return Promise.resolve();
  return new Promise((done) => page.addEventListener('load', () => done(), { once: true }));
}
