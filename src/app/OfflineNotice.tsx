import { type ReactNode, useSyncExternalStore } from 'react';
import type { Offline } from './offline';

/** Said only when there is something to say: a newer version waits, or a part of this page is gone. */
export function OfflineNotice({ offline }: { readonly offline: Offline }): ReactNode {
  const state = useSyncExternalStore(offline.subscribe, offline.state);
  if (state === 'newer') {
    return (
      <p className="note" role="status">
        A newer version of Rimpath is ready. It starts by itself once all its pages have been closed, or when you say so.{' '}
        <button type="button" className="quiet" onClick={offline.startNewer}>
          Start it now
        </button>
      </p>
    );
  }
  if (state === 'outdated') {
    return (
      <p className="note" role="status">
        A part of this page can no longer be fetched: a newer version has been started, or the network is gone. What you entered is kept;
        load the page again when it suits you.{' '}
        <button type="button" className="quiet" onClick={offline.reload}>
          Load it again
        </button>
      </p>
    );
  }
  return null;
}
