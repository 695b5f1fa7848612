/** The worker in which what the readings say is worked out: one question after the other, each answered by its number. */
import { sayOf } from '../core/findings/say';
import type { PlayerRecord } from '../core/specs';
import type { Said } from '../core/findings/said';

export interface SayQuestion {
  readonly id: number;
  readonly record: PlayerRecord;
}

export type SayAnswer = { readonly id: number; readonly said: Said } | { readonly id: number; readonly failure: string };

self.onmessage = ({ data }: MessageEvent<SayQuestion>): void => self.postMessage(answerTo(data));

function answerTo({ id, record }: SayQuestion): SayAnswer {
  try {
    return { id, said: sayOf(record) };
  } catch (error) {
    return { id, failure: error instanceof Error ? error.message : String(error) };
  }
}
