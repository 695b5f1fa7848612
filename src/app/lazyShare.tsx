/** The chapter on sharing in a chunk of its own: its place and heading stand at once, the rest when it has come. */
import { type ReactNode, Suspense, lazy } from 'react';
import { sayPage } from '../words/page';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';

const Pane = lazy(() => import('./SharePane').then((module) => ({ default: module.SharePane })));

export function LazyShare(): ReactNode {
  return (
    <FallBack to={<Waiting><PartMissing /></Waiting>}>
      <Suspense fallback={<Waiting />}>
        <Pane />
      </Suspense>
    </FallBack>
  );
}

function Waiting({ children }: { readonly children?: ReactNode }): ReactNode {
  return (
    <section className="chapter" id="share" aria-labelledby="share-heading">
      <h2 id="share-heading">{sayPage('headingShare')}</h2>
      {children}
    </section>
  );
}
