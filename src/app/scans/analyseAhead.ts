/** A record analysed between the page's other work, before the page is to show it: on a scan all its seats take longer than a hand should wait. */
import { analysisSteps } from '../../core/analyse';
import type { Analysis } from '../../core/analysis';
import type { MouthOf } from '../../core/arch';
import type { PlayerRecord } from '../../core/specs';
import { HomeUnseatedError } from '../../core/words';

/** Null where it is no longer wanted, or cannot be done: of that the page speaks when it comes to the record itself. */
export async function analyseAhead(
  record: PlayerRecord, mouthOf: MouthOf | null, isLeft: () => boolean, breathe: () => Promise<void> = nextTask,
): Promise<Analysis | null> {
  const steps = analysisSteps(record, undefined, 'full', mouthOf);
  try {
    for (;;) {
      await breathe();
      if (isLeft()) return null;
      const step = steps.next();
      if (step.done) return step.value;
    }
  } catch (trouble) {
    if (trouble instanceof HomeUnseatedError || trouble instanceof RangeError) return null;
    throw trouble;
  }
}

/** The next task of the page's own. */
export const nextTask = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));
