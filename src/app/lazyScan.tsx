/** The own arch from a scan in a chunk of its own, fetched when it is opened. */
import { type ReactNode, Suspense, lazy, useState } from 'react';
import { sayApp } from '../words/app';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';

const Pane = lazy(() => import('./ScanPane').then((module) => ({ default: module.ScanPane })));

export function LazyScan(): ReactNode {
  const [opened, setOpened] = useState(false);
  return (
    <details onToggle={(event) => setOpened((before) => before || event.currentTarget.open)}>
      <summary>{sayApp('scan')}</summary>
      {opened ? (
        <FallBack to={<PartMissing />}>
          <Suspense fallback={<p className="note">{sayApp('coming')}</p>}>
            <Pane />
          </Suspense>
        </FallBack>
      ) : null}
    </details>
  );
}
