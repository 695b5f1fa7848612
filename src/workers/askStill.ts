/** The page's door to one photograph: opened beside the page, which goes on answering meanwhile. */
import { wrap } from 'comlink';
import { type Refused, stillRefusals } from '../measure/refusals';
import { languageNow } from '../words/language';
import type { StillSeen } from './stillSeen';
import type { StillDesk } from './stillWorker';

/** A file that cannot be used is refused in words; never rejects. The bitmaps are the caller's to close. */
export async function askStill(file: File, startWorker: () => Worker = startPageWorker): Promise<StillSeen | Refused> {
  let worker: Worker;
  try {
    worker = startWorker();
  } catch {
    // Slower, and the page halts meanwhile; but a picture can be measured all the same.
    const seen = await import('./stillSeen').catch(() => null);
    return seen === null ? stillRefusals.notFetched() : seen.stillSeen(file);
  }
  try {
    const died = new Promise<Refused>((resolve) => {
      const onFault = (event: Event): void => {
        event.preventDefault();
        resolve(stillRefusals.unreadable());
      };
      worker.addEventListener('error', onFault);
      worker.addEventListener('messageerror', onFault);
    });
    return await Promise.race([wrap<StillDesk>(worker).open(file, languageNow()), died]);
  } catch {
    return stillRefusals.unreadable();
  } finally {
    worker.terminate();
  }
}

const startPageWorker = (): Worker => new Worker(new URL('./stillWorker.ts', import.meta.url), { type: 'module', name: 'still' });
