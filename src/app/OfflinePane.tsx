import type { ReactNode } from 'react';
import { sayApp } from '../words/app';
import { useOffline } from './OfflineContext';
import { linkBase } from './address';

/** Whether this page opens without a network, for whoever goes to a hall without one; and the browser's offer to install it. */
export function OfflinePane(): ReactNode {
  const { state, canInstall, install } = useOffline();
  // What is to be done where a part is gone is said over the notebook.
  const words = linkBase() === null ? sayApp('needsNoNetwork') : state === 'none' ? sayApp('notPutBy') : state === 'outdated' ? '' : sayApp('putBy');
  return (
    <>
      <p className="note" role="status">
        {words}
      </p>
      {canInstall ? (
        <>
          <p className="note">{sayApp('installWhat')}</p>
          <p>
            <button type="button" onClick={install}>
              {sayApp('install')}
            </button>
          </p>
        </>
      ) : null}
    </>
  );
}
