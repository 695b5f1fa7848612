/** Random players: never NaN, never a seat that is none. Shares its count with wildRecords.test.ts: 10⁴ together, ten times that by `npm run property:long`. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { MOUTH } from '../support/checkSeat';
import { mouthlikeRecord } from '../support/recordArbitrary';
import { type Outcome, tryAnalysis, trySeat } from '../support/recordTrial';
import { longer, propertySeed, seedWords } from '../support/seed';

const SEATS = longer(3_500);
const ANALYSES = longer(300);
/** On one busy core a trial takes some 20 ms, an analysis 60 ms. */
const timeout = 60 * (SEATS + 3 * ANALYSES);

function tally(): { readonly add: (outcome: Outcome) => void; readonly part: (outcome: Outcome) => number } {
  const counts = new Map<Outcome, number>();
  let all = 0;
  return {
    add(outcome) {
      counts.set(outcome, (counts.get(outcome) ?? 0) + 1);
      all++;
    },
    part: (outcome) => (counts.get(outcome) ?? 0) / all,
  };
}

it(`${SEATS} seats of random players balance on an even net too ${seedWords}`, { timeout }, () => {
  const outcomes = tally();
  fc.assert(fc.property(mouthlikeRecord, (record) => outcomes.add(trySeat(record, MOUTH))), { seed: propertySeed, numRuns: SEATS, endOnFailure: true });
  // Else the check would say nothing: most players must find a seat.
  expect(outcomes.part('seated')).toBeGreaterThan(0.6);
});

it(`${ANALYSES} analyses of random players: finite, whole, and each claimed seat balances ${seedWords}`, { timeout }, () => {
  const outcomes = tally();
  fc.assert(fc.property(mouthlikeRecord, (record) => outcomes.add(tryAnalysis(record, MOUTH))), { seed: propertySeed, numRuns: ANALYSES, endOnFailure: true });
  expect(outcomes.part('seated')).toBeGreaterThan(0.6);
});
