/** The worker in which one player's own shape is worked out; it is stopped by ending it. */
import { analyse } from '../core/analyse';
import type { Analysis } from '../core/analysis';
import type { Finding, FitFailed, OwnShape } from '../core/findings/findings';
import { ownShapeSteps, withNotes } from '../core/findings/ownShape';
import type { PlayerRecord } from '../core/specs';
import { type Language, speak } from '../words/language';

export interface OwnShapeQuestion {
  readonly record: PlayerRecord;
  /** In which it is told what stands in the way. */
  readonly language: Language;
}

export type OwnShapeMessage =
  /** 0 to 1. */
  | { readonly part: number }
  /** `analysis`: with every semitone between the lowest and the highest note, which the predictions are of. */
  | { readonly own: Finding<OwnShape> | FitFailed; readonly analysis: Analysis }
  | { readonly failure: string };

self.onmessage = ({ data }: MessageEvent<OwnShapeQuestion>): void => {
  void speak(data.language)
    .catch(() => undefined)
    .then(() => work(data.record));
};

function work(record: PlayerRecord): void {
  try {
    const analysis = withNotes(...everySemitone(analyse(record)));
    const steps = ownShapeSteps(analysis);
    for (;;) {
      const step = steps.next();
      if (step.done) return send({ own: step.value, analysis });
      send({ part: step.value });
    }
  } catch (error) {
    send({ failure: error instanceof Error ? error.message : String(error) });
  }
}

function everySemitone(analysis: Analysis): [Analysis, number[]] {
  const midis = analysis.readings.map(({ midi }) => midi);
  const lowest = Math.min(...midis);
  return [analysis, Array.from({ length: Math.max(...midis) - lowest + 1 }, (_, step) => lowest + step)];
}

const send = (message: OwnShapeMessage): void => self.postMessage(message);
