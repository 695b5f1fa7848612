/** The choice of another player in a chunk of its own; until it has come there is nothing to choose. */
import { type ReactNode, Suspense, lazy } from 'react';
import { FallBack } from './FallBack';

const Part = lazy(() => import('./beside/BesidePart').then((module) => ({ default: module.BesidePart })));

export function LazyBeside(): ReactNode {
  return (
    <FallBack to={null}>
      <Suspense fallback={null}>
        <Part />
      </Suspense>
    </FallBack>
  );
}
