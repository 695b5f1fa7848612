/** The own arch in a chunk of its own, fetched when it is opened. */
import { type ReactNode, Suspense, lazy, useState } from 'react';
import { sayApp } from '../words/app';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';

const Pane = lazy(() => import('./OwnArchPane').then((module) => ({ default: module.OwnArchPane })));

export function LazyOwnArch(): ReactNode {
  const [isShown, setShown] = useState(false);
  const [wasOpened, setWasOpened] = useState(false);
  return (
    <details
      onToggle={(event) => {
        setShown(event.currentTarget.open);
        if (event.currentTarget.open) setWasOpened(true);
      }}
    >
      <summary>{sayApp('ownArch')}</summary>
      {wasOpened ? (
        <FallBack to={<PartMissing />}>
          <Suspense fallback={<p className="note">{sayApp('coming')}</p>}>
            <Pane isShown={isShown} />
          </Suspense>
        </FallBack>
      ) : null}
    </details>
  );
}
