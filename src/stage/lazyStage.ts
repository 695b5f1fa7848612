/** The 3D part in a chunk of its own, fetched when it is first shown. */
import { lazy } from 'react';

export const LazyStage = lazy(() => import('./Stage').then((module) => ({ default: module.Stage })));
