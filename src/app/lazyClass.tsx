/** The class view in a chunk of its own. */
import { type ReactNode, Suspense, lazy } from 'react';

const View = lazy(() => import('./class/ClassView').then((module) => ({ default: module.ClassView })));

export function LazyClass(): ReactNode {
  return (
    <Suspense fallback={<p className="stage-waiting">The class view is being fetched…</p>}>
      <View />
    </Suspense>
  );
}
