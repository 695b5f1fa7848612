/** The page's band worker in a thread of Node: TypeScript by tsx, messages by comlink's own adapter. */
import { parentPort } from 'node:worker_threads';
import { expose } from 'comlink';
import nodeEndpoint from 'comlink/dist/esm/node-adapter.mjs';
import { register } from 'tsx/esm/api';

register();
const { createBlockDrawer } = await import('../../src/core/drawnBands.ts');
expose(createBlockDrawer(), nodeEndpoint(parentPort));
