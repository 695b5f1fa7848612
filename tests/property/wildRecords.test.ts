/** Random records over the whole range of the schema, most of them no mouth: an answer, or a reason in words. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { NO_MOUTH } from '../support/checkSeat';
import { wildRecord } from '../support/recordArbitrary';
import { tryAnalysis } from '../support/recordTrial';
import { longer, propertySeed, seedWords } from '../support/seed';

const ANALYSES = longer(4_600);
const timeout = 60 * ANALYSES;

it(`${ANALYSES} analyses of random valid records: finite, no claimed seat that is none ${seedWords}`, { timeout }, () => {
  let seated = 0;
  fc.assert(
    fc.property(wildRecord, (record) => {
      if (tryAnalysis(record, NO_MOUTH) === 'seated') seated++;
    }),
    { seed: propertySeed, numRuns: ANALYSES, endOnFailure: true },
  );
  expect(seated).toBeGreaterThan(ANALYSES / 100);
});
