/** Several scenes in one canvas, in the chunk of the 3D part. */
import { lazy } from 'react';

export const LazyStageSet = lazy(() => import('./StageSet').then((module) => ({ default: module.StageSet })));
