/** The chapter on sharing in a chunk of its own: its place and heading stand at once, the rest when it has come. */
import { type ReactNode, Suspense, lazy } from 'react';

const Pane = lazy(() => import('./SharePane').then((module) => ({ default: module.SharePane })));

export function LazyShare(): ReactNode {
  return (
    <Suspense fallback={<Waiting />}>
      <Pane />
    </Suspense>
  );
}

function Waiting(): ReactNode {
  return (
    <section className="chapter" id="share" aria-labelledby="share-heading">
      <h2 id="share-heading">Share, show and hold</h2>
    </section>
  );
}
