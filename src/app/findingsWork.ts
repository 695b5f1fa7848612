/** Where what the readings say is worked out: in a worker, begun with the first question; the own shape in others, when it is asked for. */
import type { Said } from '../core/findings/said';
import { askOwnShape } from '../workers/askOwnShape';
import { createBandPool } from '../workers/bandPool';
import { languageNow } from '../words/language';
import { sayWorkers } from '../words/workers';
import type { SayAnswer, SayQuestion } from '../workers/saying';
import type { FindingsWork } from './findingsKeeper';

export function createFindingsWork(): FindingsWork {
  const waiting = new Map<number, { done(said: Said): void; failed(error: Error): void }>();
  let worker: Worker | null = null;
  let asked = 0;
  const pool = createBandPool();
  const failAll = (words: string): void => {
    for (const { failed } of waiting.values()) failed(new Error(words));
    waiting.clear();
  };
  const started = (): Worker => {
    if (worker !== null) return worker;
    try {
      worker = new Worker(new URL('../workers/saying.ts', import.meta.url), { type: 'module', name: 'saying' });
    } catch {
      // What the browser says of it is for programmers.
      throw new Error(sayWorkers('none'));
    }
    worker.onmessage = ({ data }: MessageEvent<SayAnswer>): void => {
      const one = waiting.get(data.id);
      waiting.delete(data.id);
      if ('said' in data) one?.done(data.said);
      else one?.failed(new Error(data.failure));
    };
    worker.onerror = (event): void => {
      event.preventDefault();
      failAll(event.message === '' ? sayWorkers('none') : event.message);
      worker = null;
    };
    return worker;
  };
  return {
    say: (record) =>
      new Promise((done, failed) => {
        const question: SayQuestion = { id: ++asked, record, language: languageNow() };
        const answering = started();
        waiting.set(question.id, { done, failed });
        answering.postMessage(question);
      }),
    ownShape: (record, onPart) => askOwnShape(record, pool, onPart),
    dispose: () => {
      pool.close();
      worker?.terminate();
      worker = null;
      failAll(sayWorkers('calledOff'));
    },
  };
}
