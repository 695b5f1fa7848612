import { afterEach, describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { computeBands } from '../../../src/core/bands';
import { blocksOf, createBlockDrawer, mergeBlocks } from '../../../src/core/drawnBands';
import { DEFAULT_DEVIATIONS } from '../../../src/core/deviations';
import { createRandom } from '../../../src/core/random';
import { demoPlayers } from '../../../src/records/library';
import { type BandPool, type DrawingWorker, createBandPool } from '../../../src/workers/bandPool';
import { type BandsAnswer, drawBands } from '../../../src/workers/drawBands';
import { startHere, startThread } from '../../support/bandThreads';
import { expectWithin } from '../../support/expectWithin';

const analysis = analyse(demoPlayers[0]!.record);
/** A stop is heard within this, milliseconds, with room for a busy machine. */
const STOP_MS = 50;
/** For what starts threads or draws much, on a machine that does other things too. */
const SLOW_MS = 60_000;

function drawn(answer: BandsAnswer): Extract<BandsAnswer, { kind: 'drawn' }> {
  if (answer.kind !== 'drawn') throw new Error(JSON.stringify(answer));
  return answer;
}

const pools: BandPool[] = [];
const poolOf = (start: () => DrawingWorker): BandPool => {
  const pool = createBandPool(start);
  pools.push(pool);
  return pool;
};
afterEach(() => pools.splice(0).forEach((pool) => pool.close()));

describe('draws in blocks', () => {
  it('come to the number asked for', () => {
    expect(blocksOf(250)).toEqual([100, 100, 50]);
    expect(() => blocksOf(0)).toThrow(/draws: 0/);
    expect(() => blocksOf(1.5)).toThrow(/draws: 1.5/);
  });

  it('have streams of their own, the first being the seed\'s', () => {
    const numbers = (stream?: number): number[] => {
      const random = createRandom(4, stream);
      return Array.from({ length: 50 }, () => random.uniform());
    };
    expect(numbers(0)).toEqual(numbers());
    expect(new Set([...numbers(0), ...numbers(1), ...numbers(2)]).size).toBe(150);
    expect(() => createRandom(4, -1)).toThrow(/stream -1/);
  });

  it('go together in the order of the blocks, whichever was drawn first', () => {
    const drawer = createBlockDrawer();
    drawer.begin(analysis);
    const second = drawer.draw(7, 1, 5, DEFAULT_DEVIATIONS);
    const first = drawer.draw(7, 0, 10, DEFAULT_DEVIATIONS);
    const whole = mergeBlocks([first, second]);
    expect(whole.draws).toBe(15);
    expect([...whole.elevationDeg]).toEqual([...first.elevationDeg, ...second.elevationDeg]);
  });
});

describe('bands drawn by workers', () => {
  it('hang on the seed, not on the number of workers', async () => {
    const one = drawn(await drawBands(analysis, { draws: 250, seed: 3, pool: poolOf(startHere), workers: 1 }));
    const two = drawn(await drawBands(analysis, { draws: 250, seed: 3, pool: poolOf(startHere) }));
    const other = drawn(await drawBands(analysis, { draws: 250, seed: 4, pool: poolOf(startHere) }));
    expect(two).toEqual(one);
    expect(other.readings).not.toEqual(one.readings);
    expect(one.readings.map(({ note }) => note)).toEqual(analysis.readings.map(({ note }) => note));
    expect(one.readings[0]!.elevation.found).toBeGreaterThan(240);
  });

  it('tell how far they are, rising to 1', async () => {
    const parts: number[] = [];
    await drawBands(analysis, { draws: 300, seed: 1, pool: poolOf(startHere), onProgress: (part) => parts.push(part) });
    expect(parts).toEqual([1 / 3, 2 / 3, 1]);
  });

  it('come from a thread of its own as from here, and stop within 50 ms', async () => {
    const here = await drawBands(analysis, { draws: 200, seed: 9, pool: poolOf(startHere) });
    expect(await drawBands(analysis, { draws: 200, seed: 9, pool: poolOf(startThread) })).toEqual(here);
    const stop = new AbortController();
    let asked = Infinity;
    const answer = drawBands(analysis, {
      draws: 20_000, seed: 9, pool: poolOf(startThread), signal: stop.signal,
      onProgress: () => {
        if (asked !== Infinity) return;
        asked = performance.now();
        stop.abort();
      },
    });
    expect(await answer).toEqual({ kind: 'stopped' });
    expect(performance.now() - asked).toBeLessThan(STOP_MS);
    expect(await drawBands(analysis, { draws: 10, seed: 1, signal: stop.signal, pool: poolOf(startHere) })).toEqual({ kind: 'stopped' });
  }, SLOW_MS);

  it('are drawn by the same workers again, but not by any that was stopped', async () => {
    let [started, ended] = [0, 0];
    const pool = poolOf(() => {
      started++;
      const worker = startHere();
      return { ...worker, stop: () => void (ended++, worker.stop()) };
    });
    const first = await drawBands(analysis, { draws: 200, seed: 2, pool });
    const again = await drawBands(analysis, { draws: 200, seed: 2, pool });
    expect([started, ended]).toEqual([2, 0]);
    expect(again).toEqual(first);
    const stop = new AbortController();
    expect(await drawBands(analysis, { draws: 400, seed: 2, pool, signal: stop.signal, onProgress: () => stop.abort() })).toEqual({ kind: 'stopped' });
    expect([started, ended]).toEqual([2, 2]);
    expect(await drawBands(analysis, { draws: 200, seed: 2, pool })).toEqual(first);
    expect([started, ended]).toEqual([4, 2]);
    pool.close();
    expect(ended).toBe(4);
  }, SLOW_MS);

  it('are of first order where there are no workers, and say so', async () => {
    const none = (): never => {
      throw new Error('no workers here');
    };
    const { method, readings } = drawn(await drawBands(analysis, { draws: 100, seed: 1, pool: createBandPool(none) }));
    expect(method).toBe('first-order');
    computeBands(analysis).forEach(({ change }, index) => {
      expectWithin(readings[index]!.elevation.sd, change.elevationSdDeg, { abs: 1e-12 }, 'deviation');
    });
  });

  it('fail in words where the mouth cannot be built', async () => {
    const { record } = analysis;
    const arch = { single: { form: { kind: 'circle', radiusMm: -1 }, profile: { kind: 'straight', inclinationDeg: 0 } } } as const;
    const answer = await drawBands({ ...analysis, record: { ...record, arch } }, { draws: 100, seed: 1, pool: poolOf(startHere) });
    expect(answer.kind === 'failed' && answer.words).toMatch(/radiusMm/);
  });
});
