/** The chapter on the readings in a chunk of its own: its place and heading stand at once, the rest when it has come. */
import { type ReactNode, Suspense, lazy } from 'react';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';
import type { EntryStyle } from '../notebook/props';
import { sayPage } from '../words/page';

const Pane = lazy(() => import('./SaysPane').then((module) => ({ default: module.SaysPane })));

export function LazySays({ entry }: { readonly entry: EntryStyle }): ReactNode {
  return (
    <FallBack to={<Waiting><PartMissing /></Waiting>}>
      <Suspense fallback={<Waiting />}>
        <Pane entry={entry} />
      </Suspense>
    </FallBack>
  );
}

function Waiting({ children }: { readonly children?: ReactNode }): ReactNode {
  return (
    <section className="chapter" id="says" aria-labelledby="says-heading">
      <h2 id="says-heading">{sayPage('headingSays')}</h2>
      {children}
    </section>
  );
}
