/** Runs in a worker: photographs decoded and read, which takes a large one most of a second. Asked by `askStill`. */
import { expose, transfer } from 'comlink';
import type { Refused } from '../measure/refusals';
import { type Language, speak } from '../words/language';
import { type StillSeen, stillSeen } from './stillSeen';

export interface StillDesk {
  /** `language`: in which is told why it cannot be opened. */
  open(file: File, language: Language): Promise<StillSeen | Refused>;
}

expose({
  open: async (file, language) => {
    await speak(language).catch(() => undefined);
    const seen = await stillSeen(file);
    if (seen.kind === 'refused') return seen;
    return transfer(seen, [seen.bitmap, seen.grey.luma.buffer, ...(seen.small === null ? [] : [seen.small])]);
  },
} satisfies StillDesk);
