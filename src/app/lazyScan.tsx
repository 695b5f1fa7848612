/** The own arch from a scan in a chunk of its own, fetched when it is opened. */
import { type ReactNode, Suspense, lazy, useState } from 'react';
import { sayApp } from '../words/app';

const Pane = lazy(() => import('./ScanPane').then((module) => ({ default: module.ScanPane })));

export function LazyScan(): ReactNode {
  const [opened, setOpened] = useState(false);
  return (
    <details onToggle={(event) => setOpened((before) => before || event.currentTarget.open)}>
      <summary>{sayApp('scan')}</summary>
      {opened ? (
        <Suspense fallback={<p className="note">{sayApp('coming')}</p>}>
          <Pane />
        </Suspense>
      ) : null}
    </details>
  );
}
