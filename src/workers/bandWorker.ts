/** Runs in a worker: draws blocks of bands for `drawBands`. */
import { expose } from 'comlink';
import { createBlockDrawer } from '../core/drawnBands';

expose(createBlockDrawer());
