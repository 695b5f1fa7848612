/** The worker in which what the readings say is worked out: one question after the other, each answered by its number. */
import { sayOf } from '../core/findings/say';
import type { PlayerRecord } from '../core/specs';
import type { Said } from '../core/findings/said';
import { type Language, speak } from '../words/language';

export interface SayQuestion {
  readonly id: number;
  readonly record: PlayerRecord;
  /** In which what goes wrong is told. */
  readonly language: Language;
}

export type SayAnswer = { readonly id: number; readonly said: Said } | { readonly id: number; readonly failure: string };

self.onmessage = ({ data }: MessageEvent<SayQuestion>): void => {
  spoken ??= speak(data.language).catch(() => undefined);
  void spoken.then(() => self.postMessage(answerTo(data)));
};

/** A page keeps its language. */
let spoken: Promise<void> | null = null;

function answerTo({ id, record }: Pick<SayQuestion, 'id' | 'record'>): SayAnswer {
  try {
    return { id, said: sayOf(record) };
  } catch (error) {
    return { id, failure: error instanceof Error ? error.message : String(error) };
  }
}
