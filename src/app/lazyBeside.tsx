/** The choice of another player in a chunk of its own; until it has come there is nothing to choose. */
import { type ReactNode, Suspense, lazy } from 'react';

const Part = lazy(() => import('./beside/BesidePart').then((module) => ({ default: module.BesidePart })));

export function LazyBeside(): ReactNode {
  return (
    <Suspense fallback={null}>
      <Part />
    </Suspense>
  );
}
