/** What a record's analysis and its bands cost. */
import { analyse } from '../../src/core/analyse';
import { computeBands } from '../../src/core/bands';
import { createLive } from '../../src/core/live';
import { drawChanges } from '../../src/core/monteCarlo';
import { noteName } from '../../src/core/pitch';
import { createRandom } from '../../src/core/random';
import type { PlayerRecord } from '../../src/core/specs';
import { createBandPool } from '../../src/workers/bandPool';
import { drawBands } from '../../src/workers/drawBands';
import { startThread } from '../support/bandThreads';
import { demoPlayers } from '../support/demos';
import type { BenchGroup } from './harness';

const [demo] = demoPlayers;
if (!demo) throw new Error('no demo player to measure with');
const { record } = demo;
const NOTES = 24;
const DRAWS = 2000;

/** The demo player on a path of 24 notes. */
const long: PlayerRecord = {
  ...record,
  readings: Array.from({ length: NOTES }, (_, index) => ({
    note: noteName(53 + index),
    travel: { upMm: 0.15 * (index - 12), rightMm: 0.05 * (index - 12), sdMm: 0.4 },
  })),
};

export const groups: readonly BenchGroup[] = [
  {
    title: 'Analysing a record',
    seed: 5,
    cases: [
      { name: `${record.readings.length} readings, from nothing`, prepare: () => () => analyse(record).readings.length },
      {
        name: 'one reading moved by 0.1 mm',
        prepare: () => {
          let before = analyse(record);
          let turn = 0;
          return () => {
            turn++;
            const readings = record.readings.map((reading, index) =>
              index === 6 ? { ...reading, travel: { ...reading.travel, upMm: 2.6 + 0.1 * (turn % 7) } } : reading,
            );
            before = analyse({ ...before.record, readings }, before);
            return before.readings.length;
          };
        },
      },
      {
        name: 'one frame of the playing path (follow, held, pressure)',
        prepare: () => {
          const live = createLive(analyse(record));
          let turn = 0;
          return () => live.atPitch(60 + (turn++ % 100) / 10, { horn: 'follow', view: 'seated' })?.travel.upMm ?? NaN;
        },
      },
      { name: 'bands of all readings, first order', prepare: () => () => computeBands(analyse(record)).length },
    ],
  },
  {
    title: `A ${NOTES}-note path with ${DRAWS} Monte Carlo draws`,
    seed: 9,
    cases: [
      {
        name: 'all draws, on one core',
        unit: 's',
        measure: () => {
          const analysis = analyse(long);
          drawChanges(analysis, 50, createRandom(1));
          return [1, 2, 3].map((seed) => {
            const start = performance.now();
            drawChanges(analysis, DRAWS, createRandom(seed));
            return (performance.now() - start) / 1000;
          });
        },
      },
      {
        name: 'by two workers, the first time with their start',
        unit: 's',
        measure: async () => {
          const analysis = analyse(long);
          const seconds: number[] = [];
          const pool = createBandPool(startThread);
          for (const seed of [1, 2, 3]) {
            const start = performance.now();
            const answer = await drawBands(analysis, { draws: DRAWS, seed, pool });
            if (answer.kind !== 'drawn') throw new Error(answer.kind);
            seconds.push((performance.now() - start) / 1000);
          }
          pool.close();
          return seconds;
        },
      },
    ],
  },
];
