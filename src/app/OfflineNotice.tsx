import { type ReactNode, useSyncExternalStore } from 'react';
import type { Offline } from './offline';
import { sayPage } from '../words/page';

/** Said only when there is something to say: a newer version waits, or a part of this page is gone. */
export function OfflineNotice({ offline }: { readonly offline: Offline }): ReactNode {
  const state = useSyncExternalStore(offline.subscribe, offline.state);
  if (state === 'newer') {
    return (
      <p className="note" role="status">
        {sayPage('newerReady')}{' '}
        <button type="button" className="quiet" onClick={offline.startNewer}>
          {sayPage('startNewer')}
        </button>
      </p>
    );
  }
  if (state === 'outdated') {
    return (
      <p className="note" role="status">
        {sayPage('partGone')}{' '}
        <button type="button" className="quiet" onClick={offline.reload}>
          {sayPage('loadAgain')}
        </button>
      </p>
    );
  }
  return null;
}
