/** The class view in a chunk of its own. */
import { type ReactNode, Suspense, lazy } from 'react';
import { sayApp } from '../words/app';
import { sayPage } from '../words/page';
import { FallBack } from './FallBack';
import { PartMissing } from './PartMissing';
import { leaveClass } from './classDoor';

const View = lazy(() => import('./class/ClassView').then((module) => ({ default: module.ClassView })));

export function LazyClass(): ReactNode {
  return (
    <FallBack to={<Missing />}>
      <Suspense fallback={<p className="stage-waiting">{sayPage('classFetched')}</p>}>
        <View />
      </Suspense>
    </FallBack>
  );
}

/** Nothing else is on the page then: the way back to it is. */
function Missing(): ReactNode {
  return (
    <main className="guest-band">
      <PartMissing />
      <button type="button" onClick={leaveClass}>
        {sayApp('close')}
      </button>
    </main>
  );
}
