/**
 * Where the handover is too tangled for rays the seat is balanced on an even net, and the even net of the peak bore it out, being the same one:
 * a touch that fell on four of its nodes was once claimed as a seat although finer nets leave 44 % of the force unbalanced.
 */
import { expect, it } from 'vitest';
import { createSeatSession } from '../../src/core/session';
import type { PlayerRecord } from '../../src/core/specs';

const record: PlayerRecord = {
  format: 'rimpath-record',
  version: 1,
  player: { label: 'Invented', instrument: 'trumpet' },
  arch: {
    upper: {
      form: { kind: 'line' },
      profile: {
        kind: 'arcs', inclinationDeg: -5.976395999999999, crownHeightMm: 7.183655, crownRadiusMm: 12.000532, gumRadiusMm: 5.000225,
        gumInclinationDeg: 0.0126889467900404,
      },
    },
    lower: { form: { kind: 'circle', radiusMm: 2.127665762329115 }, profile: { kind: 'arc', radiusMm: 21849.066862339118 } },
    jaw: { openingMm: 0.00044, forwardMm: 20.32884, hingeDeg: 9.977815, hingeArmMm: 1.001196 },
  },
  rim: { innerDiameterMm: 15.00019, outerDiameterMm: 22.000238, highPointDiameterMm: 18.9005890954104, contourRadiusMm: 7.800732664115997 },
  lips: {
    upper: { thicknessMm: 52.060671315811646, effectiveModulusKPa: 2752.333143993157 },
    lower: { thicknessMm: 26.346778427248147, effectiveModulusKPa: 180.1859815942645 },
    law: 'stiffening',
  },
  force: { newtons: 0.0010001342758132914 },
  upperLipShare: { value: 0.51214215, by: 'diameter' },
  readings: [],
};

it('is answered with a reason instead', () => {
  const place = { upMm: -5.033364 - 27.42048, rightMm: 1.92555 + 46.1502 };
  const answer = createSeatSession(record).follow({ ...place, forceN: record.force.newtons, jaw: null });
  expect(answer.kind).toBe('unseated');
  if (answer.kind === 'unseated') expect(answer.reason).toBe('touch-too-small');
});
