/**
 * The own shape, worked out beside the page: the fit in a worker of its own, then the bands of the chosen arch at every note, drawn. What
 * is stopped ends at once, in the middle of a step.
 */
import type { Finding, FitFailed, OwnShape } from '../core/findings/findings';
import { withDrawnBands } from '../core/findings/ownShape';
import type { PlayerRecord } from '../core/specs';
import type { BandPool } from './bandPool';
import { drawBands } from './drawBands';
import { languageNow } from '../words/language';
import { sayWorkers } from '../words/workers';
import type { OwnShapeMessage, OwnShapeQuestion } from './ownShaping';

const BAND_DRAWS = 2000;
/** The same readings always give the same bands. */
const BAND_SEED = 1;
/** Of the whole work, by the clock. */
const FIT_PART = 0.3;

export interface OwnShapeAsked {
  readonly answer: Promise<Finding<OwnShape> | FitFailed>;
  cancel(): void;
}

/** Rejects with a sentence's words where it cannot be worked out; after `cancel` it never settles. */
export function askOwnShape(record: PlayerRecord, pool: BandPool, onPart: (part: number) => void): OwnShapeAsked {
  const stop = new AbortController();
  let worker: Worker | null = null;
  const end = (): void => {
    worker?.terminate();
    worker = null;
  };
  const fitted = new Promise<Extract<OwnShapeMessage, { own: unknown }>>((done, failed) => {
    try {
      worker = new Worker(new URL('./ownShaping.ts', import.meta.url), { type: 'module', name: 'own-shape' });
    } catch {
      failed(new Error(sayWorkers('none')));
      return;
    }
    worker.onmessage = ({ data }: MessageEvent<OwnShapeMessage>): void => {
      if ('part' in data) return onPart(FIT_PART * data.part);
      end();
      if ('own' in data) done(data);
      else failed(new Error(data.failure));
    };
    worker.onerror = (event): void => {
      event.preventDefault();
      end();
      failed(new Error(event.message === '' ? sayWorkers('none') : event.message));
    };
    const question: OwnShapeQuestion = { record, language: languageNow() };
    worker.postMessage(question);
  });
  const answer = fitted.then(async ({ own, analysis }) => {
    if (own.kind !== 'told') return own;
    const drawn = await drawBands(analysis, {
      draws: BAND_DRAWS,
      seed: BAND_SEED,
      pool,
      signal: stop.signal,
      onProgress: (part) => onPart(FIT_PART + (1 - FIT_PART) * part),
    });
    if (drawn.kind === 'stopped') return new Promise<never>(() => undefined);
    if (drawn.kind === 'failed') throw new Error(drawn.words);
    return drawn.method === 'drawn' ? { ...own, ...withDrawnBands(own, drawn.readings) } : own;
  });
  return {
    answer,
    cancel: () => {
      stop.abort();
      end();
    },
  };
}
