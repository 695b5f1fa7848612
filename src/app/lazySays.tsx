/** The chapter on the readings in a chunk of its own: its place and heading stand at once, the rest when it has come. */
import { type ReactNode, Suspense, lazy } from 'react';
import type { EntryStyle } from '../notebook/props';

const Pane = lazy(() => import('./SaysPane').then((module) => ({ default: module.SaysPane })));

export function LazySays({ entry }: { readonly entry: EntryStyle }): ReactNode {
  return (
    <Suspense fallback={<Waiting />}>
      <Pane entry={entry} />
    </Suspense>
  );
}

function Waiting(): ReactNode {
  return (
    <section className="chapter" id="says" aria-labelledby="says-heading">
      <h2 id="says-heading">What the readings say</h2>
    </section>
  );
}
