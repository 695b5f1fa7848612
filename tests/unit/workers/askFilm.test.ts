import { expose } from 'comlink';
import { expect, test } from 'vitest';
import { askFilm } from '../../../src/workers/askFilm';

/** A port in a worker's place: what is asked is answered by `desk`, and its end is counted. */
function workerWith(desk: object): { readonly worker: Worker; readonly ends: () => number } {
  const { port1, port2 } = new MessageChannel();
  let ends = 0;
  const terminate = (): void => {
    ends += 1;
    port1.close();
  };
  expose(desk, port2);
  port1.start();
  return { worker: Object.assign(port1, { terminate }) as unknown as Worker, ends: () => ends };
}

test('a worker that fails at opening is ended: nobody has a door by which it could be', async () => {
  const { worker, ends } = workerWith({ open: () => Promise.reject(new Error('no memory')) });
  await expect(askFilm(new Blob(['film']) as File, () => worker)).rejects.toThrow('no memory');
  expect(ends()).toBe(1);
});

test('so is one whose film is refused', async () => {
  const { worker, ends } = workerWith({ open: () => ({ kind: 'refused', reason: 'empty', words: 'The file is empty.' }) });
  expect(await askFilm(new Blob([]) as File, () => worker)).toMatchObject({ kind: 'refused' });
  expect(ends()).toBe(1);
});
