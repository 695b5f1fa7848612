/** Random records over the whole range of the schema: each arch and rim gives a closed body that keeps to its surface, or a sentence. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { CHORD_MM } from '../../src/solids/archSolid';
import { checkSolid, isPrintable } from '../../src/solids/checkSolid';
import { heldThing } from '../../src/solids/heldThings';
import { refusalWords } from '../../src/solids/refusalWords';
import { mouthlikeRecord, wildRecord } from '../support/recordArbitrary';
import { longer, propertySeed, seedWords } from '../support/seed';

const RUNS = longer(20);

it.each([
  ['mouth-like', mouthlikeRecord, 0.7],
  ['wild', wildRecord, 0],
] as const)(`%s records give bodies or sentences ${seedWords}`, (_name, records, leastMade) => {
  let made = 0;
  let asked = 0;
  fc.assert(
    fc.property(records, fc.constantFrom('upper', 'lower', 'both'), ({ arch, rim }, part) => {
      const wishes = [{ thing: 'arch', part: 'single' in arch ? 'upper' : part, arch, rim, farthest: { upMm: 3, rightMm: 2 } }, { thing: 'rim', rim }] as const;
      for (const wish of wishes) {
        asked += 1;
        const answer = heldThing(wish);
        if (answer.kind === 'refused') {
          expect(refusalWords(answer.why)).toMatch(/^[A-Z].+\.$/);
          // What was made and found open would be a fault, however well it is told.
          expect(refusalWords(answer.why)).not.toContain('not a closed body');
          continue;
        }
        made += 1;
        for (const { solid } of answer.solids) expect(isPrintable(checkSolid(solid))).toBe(true);
        expect(answer.figures.chordMm!).toBeLessThanOrEqual(CHORD_MM);
        expect(answer.figures.sizeMm.every((one) => one > 0 && one < 250)).toBe(true);
      }
    }),
    { seed: propertySeed, numRuns: RUNS, endOnFailure: true },
  );
  expect(made).toBeGreaterThanOrEqual(leastMade * asked);
});
