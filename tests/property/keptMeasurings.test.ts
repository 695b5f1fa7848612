/** Whatever a measuring may hold, a record's file gives it back the same, and its traces with it. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { unpackTrace } from '../../src/measure/packedTrace';
import { readMeasuring } from '../../src/records/measuringSchema';
import { parsePlayersText, playersFileText } from '../../src/records/schema';
import { anyMeasuring } from '../support/measurings';
import { fullPlayer } from '../support/records';
import { longer, propertySeed, seedWords } from '../support/seed';

const MEASURINGS = longer(800);

it(`${MEASURINGS} measurings come back from a file as they were kept ${seedWords}`, { timeout: 60 * MEASURINGS }, () => {
  const player = fullPlayer();
  let traces = 0;
  fc.assert(
    fc.property(anyMeasuring, (measuring) => {
      const [first, second] = player.lessons;
      const measured = { ...player, lessons: [first!, { ...second!, measurings: [measuring] }] };
      const parsed = parsePlayersText(playersFileText([measured]));
      if (parsed.kind === 'refused') throw new Error(parsed.message);
      expect(parsed.players).toEqual([measured]);
      const read = readMeasuring(parsed.players[0]!.lessons[1]!.measurings![0]!);
      if (read.kind === 'refused') throw new Error(read.message);
      for (const { trace, view } of read.measuring.sources) {
        if (trace === undefined) continue;
        traces++;
        expect(unpackTrace(trace, view).kind).toBe('trace');
      }
    }),
    { seed: propertySeed, numRuns: MEASURINGS, endOnFailure: true },
  );
  expect(traces).toBeGreaterThan(MEASURINGS / 10);
});
