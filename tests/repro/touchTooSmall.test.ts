/** A touch far smaller than the rim, between lips unlike by a factor of 10⁵, was once claimed as a seat although its forces did not add up. */
import { expect, it } from 'vitest';
import { createSeatSession } from '../../src/core/session';
import type { PlayerRecord } from '../../src/core/specs';

const record: PlayerRecord = {
  player: { label: 'Invented', instrument: 'trumpet' },
  arch: { single: { form: { kind: 'sextic', a: 0, b: 0.00010001017177710438 }, profile: { kind: 'straight', inclinationDeg: 18.0372 } } },
  rim: { innerDiameterMm: 17.574082, outerDiameterMm: 29.056586, highPointDiameterMm: 21.6682790332384, contourRadiusMm: 4.433087616354494 },
  lips: {
    upper: { thicknessMm: 59.99913825767471, effectiveModulusKPa: 34841.43228725772 },
    lower: { thicknessMm: 2.0559105058802234, effectiveModulusKPa: 0.1000032236710894 },
    law: 'stiffening',
  },
  force: { newtons: 0.007609472434071366 },
  upperLipShare: { value: 0.3612261, by: 'area' },
  readings: [],
};

it('is answered with a reason instead', () => {
  const answer = createSeatSession(record).follow({ upMm: 57.5, rightMm: 11.65164, forceN: record.force.newtons, jaw: null });
  expect(answer.kind).toBe('unseated');
  if (answer.kind === 'unseated') expect(answer.words.length).toBeGreaterThan(0);
});
