/** Random records over the whole range of the schema, most of them no mouth: an answer, or a reason in words. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { NO_MOUTH } from '../support/checkSeat';
import { wildRecord } from '../support/recordArbitrary';
import { type Outcome, tryAnalysis, trySeat } from '../support/recordTrial';
import { longer, propertySeed, seedWords } from '../support/seed';

const SEATS = longer(5_800);
const ANALYSES = longer(400);
const timeout = 60 * (SEATS + 3 * ANALYSES);

it.each([
  [SEATS, 'seats', trySeat],
  [ANALYSES, 'whole analyses', tryAnalysis],
] as const)(`%d %s of random valid records: finite, no claimed seat that is none ${seedWords}`, { timeout }, (runs, _, attempt) => {
  const outcomes: Outcome[] = [];
  fc.assert(
    fc.property(wildRecord, (record) => {
      outcomes.push(attempt(record, NO_MOUTH));
    }),
    { seed: propertySeed, numRuns: runs, endOnFailure: true },
  );
  // Few of these are mouths, but some must seat for the check to say anything.
  expect(outcomes.filter((outcome) => outcome === 'seated').length).toBeGreaterThan(runs / 100);
});
