/** The page's door to the worker that makes bodies: one worker a question, so that a stop ends it at once and nothing stays behind. */
import type { HeldWish } from '../solids/heldThings';
import { sayWorkers } from '../words/workers';
import type { SolidAnswer } from './solidWorker';

export interface SolidAsked {
  /** Never rejects; after `cancel` it never settles. */
  readonly answer: Promise<SolidAnswer>;
  cancel(): void;
}

export function askSolid(wish: HeldWish, startWorker: () => Worker = startPageWorker): SolidAsked {
  let worker: Worker;
  try {
    worker = startWorker();
  } catch {
    return { answer: Promise.resolve({ kind: 'failed', words: sayWorkers('noSolidWorker') }), cancel: () => undefined };
  }
  const answer = new Promise<SolidAnswer>((done) => {
    const end = (what: SolidAnswer): void => {
      worker.terminate();
      done(what);
    };
    worker.onmessage = ({ data }: MessageEvent<SolidAnswer>): void => end(data);
    const died = (event: Event): void => {
      event.preventDefault();
      end({ kind: 'failed', words: sayWorkers('solidWorkerDied') });
    };
    worker.onerror = died;
    worker.onmessageerror = died;
  });
  worker.postMessage(wish);
  return { answer, cancel: () => worker.terminate() };
}

const startPageWorker = (): Worker => new Worker(new URL('./solidWorker.ts', import.meta.url), { type: 'module', name: 'solids' });
