/** Runs in a worker: photographs decoded and read, which takes a large one most of a second. Asked by `askStill`. */
import { expose, transfer } from 'comlink';
import type { Refused } from '../measure/refusals';
import { type StillSeen, stillSeen } from './stillSeen';

export interface StillDesk {
  open(file: File): Promise<StillSeen | Refused>;
}

expose({
  open: async (file) => {
    const seen = await stillSeen(file);
    if (seen.kind === 'refused') return seen;
    return transfer(seen, [seen.bitmap, seen.grey.luma.buffer, ...(seen.small === null ? [] : [seen.small])]);
  },
} satisfies StillDesk);
