/** Workers for `drawBands` outside a browser: a real thread, and one that lives in the test's own. */
import { Worker } from 'node:worker_threads';
import { type Endpoint, expose } from 'comlink';
import { createBlockDrawer } from '../../src/core/drawnBands';
import type { DrawingWorker } from '../../src/workers/bandPool';

export function startThread(): DrawingWorker {
  const worker = new Worker(new URL('./nodeBandWorker.mjs', import.meta.url));
  return {
    endpoint: endpointOf(worker),
    onFault: (listener) => void worker.once('error', listener),
    stop: () => void worker.terminate(),
  };
}

export function startHere(): DrawingWorker {
  const { port1, port2 } = new MessageChannel();
  expose(createBlockDrawer(), port1);
  return {
    endpoint: port2,
    onFault: () => undefined,
    stop() {
      port1.close();
      port2.close();
    },
  };
}

/** A thread heard the way a browser's worker is. */
function endpointOf(worker: Worker): Endpoint {
  const heard = new Map<EventListenerOrEventListenerObject, (data: unknown) => void>();
  return {
    postMessage: (message: unknown) => worker.postMessage(message),
    addEventListener(_type, listener) {
      const hear = (data: unknown): void => {
        const event = { data } as MessageEvent;
        if (typeof listener === 'function') listener(event);
        else listener.handleEvent(event);
      };
      heard.set(listener, hear);
      worker.on('message', hear);
    },
    removeEventListener(_type, listener) {
      const hear = heard.get(listener);
      if (hear) worker.off('message', hear);
      heard.delete(listener);
    },
  };
}
