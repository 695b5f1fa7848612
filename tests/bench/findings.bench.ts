/** What the lesson round the picture costs: what the readings say, try-outs, tables and files. */
import { analyse } from '../../src/core/analyse';
import { ownShape } from '../../src/core/findings/ownShape';
import { sayOf } from '../../src/core/findings/say';
import { noteName } from '../../src/core/pitch';
import type { ReadingSpec } from '../../src/core/specs';
import { compareTryOut } from '../../src/core/tryOutComparison';
import { demoPlayers } from '../../src/records/library';
import { readingsFromTable, tableFromReadings } from '../../src/records/readingsTable';
import { MOST_READINGS } from '../../src/records/readingRanges';
import { parsePlayersText, playersFileText } from '../../src/records/schema';
import type { BenchGroup } from './harness';

const { player, record } = demoPlayers[0]!;
const twoTakes = demoPlayers[2]!.record;
const tryOut = player.lessons.at(-1)!.tryOuts[0]!;
const style = { naming: 'scientific', transpositionSemitones: 0, decimal: 'point' } as const;

/** As many readings as a record may hold, each with all that a lesson writes down. */
const full: readonly ReadingSpec[] = Array.from({ length: MOST_READINGS }, (_, index) => ({
  note: noteName(53 + (index % 24)),
  take: 1 + Math.floor(index / 24),
  travel: { upMm: 0.1 * (index % 24), rightMm: -0.05 * (index % 24), sdMm: 0.4 },
  horn: { elevationDeg: -14.5, lateralDeg: 1.5, sdDeg: 1.5 },
  airstream: 'down',
  ease: 4,
  remark: 'spoke late, "breathy"',
}));

export const groups: readonly BenchGroup[] = [
  {
    title: 'What the readings say',
    seed: 12,
    rounds: 20,
    cases: [
      { name: `${record.readings.length} readings, one take`, prepare: () => () => sayOf(record).findings.travel.length },
      { name: `${twoTakes.readings.length} readings, two takes`, prepare: () => () => sayOf(twoTakes).findings.travel.length },
      {
        name: 'a try-out compared',
        prepare: () => {
          const analysis = analyse(record);
          return () => (compareTryOut(analysis, tryOut).kind === 'compared' ? 1 : 0);
        },
      },
      {
        name: 'the own shape fitted',
        prepare: () => {
          const analysis = analyse(record);
          return () => (ownShape(analysis).kind === 'told' ? 1 : 0);
        },
      },
    ],
  },
  {
    title: 'Tables and files',
    seed: 13,
    cases: [
      { name: `${MOST_READINGS} readings to a table`, prepare: () => () => tableFromReadings(full, style).length },
      {
        name: 'and back',
        prepare: () => {
          const text = tableFromReadings(full, style);
          return () => {
            const table = readingsFromTable(text, style);
            return table.kind === 'table' ? table.readings.length : 0;
          };
        },
      },
      {
        name: 'a file of one player read and checked',
        prepare: () => {
          const text = playersFileText([player]);
          return () => (parsePlayersText(text).kind === 'players' ? 1 : 0);
        },
      },
    ],
  },
];
