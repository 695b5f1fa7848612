/** The page's door to the worker that makes bodies: one worker a question, so that a stop ends it at once and nothing stays behind. */
import type { HeldWish } from '../solids/heldThings';
import type { SolidAnswer } from './solidWorker';

export interface SolidAsked {
  /** Never rejects; after `cancel` it never settles. */
  readonly answer: Promise<SolidAnswer>;
  cancel(): void;
}

/** For people, where nothing could be made. */
export const NO_SOLID_WORKER = 'This browser lets no work go on beside the page, so nothing can be made to print.';
export const SOLID_WORKER_DIED = 'Making it broke off: the browser ended the work, perhaps for want of memory.';

export function askSolid(wish: HeldWish, startWorker: () => Worker = startPageWorker): SolidAsked {
  let worker: Worker;
  try {
    worker = startWorker();
  } catch {
    return { answer: Promise.resolve({ kind: 'failed', words: NO_SOLID_WORKER }), cancel: () => undefined };
  }
  const answer = new Promise<SolidAnswer>((done) => {
    const end = (what: SolidAnswer): void => {
      worker.terminate();
      done(what);
    };
    worker.onmessage = ({ data }: MessageEvent<SolidAnswer>): void => end(data);
    const died = (event: Event): void => {
      event.preventDefault();
      end({ kind: 'failed', words: SOLID_WORKER_DIED });
    };
    worker.onerror = died;
    worker.onmessageerror = died;
  });
  worker.postMessage(wish);
  return { answer, cancel: () => worker.terminate() };
}

const startPageWorker = (): Worker => new Worker(new URL('./solidWorker.ts', import.meta.url), { type: 'module', name: 'solids' });
