/** Workers that draw bands, kept warm between one drawing and the next: to start one takes longer than to draw a block. */
import { type Endpoint, type Remote, wrap } from 'comlink';
import type { BlockDrawer } from '../core/drawnBands';

export interface DrawingWorker {
  readonly endpoint: Endpoint;
  /** Told once when the worker cannot be loaded or breaks. */
  onFault(listener: () => void): void;
  stop(): void;
}

/** A worker as it is lent. */
export interface LentWorker {
  readonly drawer: Remote<BlockDrawer>;
  /** Resolves when the worker breaks. */
  readonly broken: Promise<'broken'>;
  /** Back to the pool, to be lent again. */
  giveBack(): void;
  /** Ended in the middle of whatever it does. */
  end(): void;
}

export interface BandPool {
  /** As many as can be had, up to `count`; a second that fails to start leaves the work to the first. */
  lend(count: number): LentWorker[];
  /** Ends all that are not lent; those come to an end when they are given back. */
  close(): void;
}

/** `startWorker` may throw where there are no workers; the page's own where left out. */
export function createBandPool(startWorker: () => DrawingWorker = startPageWorker): BandPool {
  const resting: LentWorker[] = [];
  let isClosed = false;
  const start = (): LentWorker => {
    const worker = startWorker();
    const drop = (): void => {
      const at = resting.indexOf(lent);
      if (at >= 0) resting.splice(at, 1);
    };
    const lent: LentWorker = {
      drawer: wrap<BlockDrawer>(worker.endpoint),
      broken: new Promise((resolve) => {
        worker.onFault(() => {
          drop();
          resolve('broken');
        });
      }),
      giveBack() {
        if (isClosed) worker.stop();
        else resting.push(lent);
      },
      end() {
        drop();
        worker.stop();
      },
    };
    return lent;
  };
  return {
    lend(count) {
      const lent = resting.splice(0, count);
      try {
        while (lent.length < count) lent.push(start());
      } catch {
        return lent;
      }
      return lent;
    },
    close() {
      isClosed = true;
      for (const worker of [...resting]) worker.end();
    },
  };
}

function startPageWorker(): DrawingWorker {
  const worker = new Worker(new URL('./bandWorker.ts', import.meta.url), { type: 'module', name: 'bands' });
  return {
    endpoint: worker,
    onFault(listener) {
      worker.addEventListener('error', listener, { once: true });
      worker.addEventListener('messageerror', listener, { once: true });
    },
    stop: () => worker.terminate(),
  };
}
