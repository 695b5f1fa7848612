import { describe, expect, it } from 'vitest';
import { buildArch } from '../../src/core/arch';
import { toDegrees } from '../../src/core/frame';
import type { JawArchSpec } from '../../src/core/specs';
import { dot } from '../../src/core/vector';
import { arches, crownOf, teeth, toothSpec } from '../../src/records/library';
import { expectWithin } from '../support/expectWithin';
import { alikeLips, flatRim, seating, setupOf } from '../support/seating';

const widthOf = (...numbers: readonly number[]): number => numbers.reduce((sum, fdi) => sum + crownOf(fdi).widthMm, 0);
const bothSides = (rightQuadrant: number, leftQuadrant: number, lastTooth: number): number[] =>
  [rightQuadrant, leftQuadrant].flatMap((quadrant) => Array.from({ length: lastTooth }, (_, index) => quadrant * 10 + index + 1));

/**
 * Bolton WA, Angle Orthod 1958;28:113–130, 55 excellent occlusions: anterior 77.2 ± 1.65 %, overall 91.3 ± 1.91 %. The table of
 * tooth widths is another source (Wheeler / Ash & Nelson; most rows: value from memory), so the two check each other.
 */
describe('tooth widths by Bolton’s ratios', () => {
  const anterior = (100 * widthOf(...bothSides(4, 3, 3))) / widthOf(...bothSides(1, 2, 3));
  const overall = (100 * widthOf(...bothSides(4, 3, 6))) / widthOf(...bothSides(1, 2, 6));

  it('anterior: within one standard deviation of 77.2 %', () => {
    expectWithin(anterior, 77.2, { abs: 1.65 });
  });

  it('overall: within one standard deviation of 91.3 %', () => {
    expectWithin(overall, 91.3, { abs: 1.91 });
  });

  it('the sums of the table are 35 : 45 and 85 : 93 (worked by hand)', () => {
    expectWithin(anterior, 77.78, { abs: 0.005 });
    expectWithin(overall, 91.4, { abs: 0.005 });
  });
});

/** ISO 3950: quadrants 1 upper right, 2 upper left, 3 lower left, 4 lower right; counted from the midline. */
describe('tooth numbers', () => {
  it('name upper teeth in quadrants 1 and 2, lower ones in 4 and 3', () => {
    for (const crown of teeth) {
      const place = Number(crown.id.slice(1));
      const quadrants = crown.id.startsWith('U') ? [1, 2] : [4, 3];
      expect(crown.fdi).toEqual(quadrants.map((quadrant) => quadrant * 10 + place));
    }
  });

  it('put the player’s right at minus, in the frame whose x points to the player’s left', () => {
    for (const fdi of [11, 17, 41, 47]) expect(toothSpec(fdi, 0).centreMm).toBeLessThan(0);
    for (const fdi of [21, 27, 31, 37]) expect(toothSpec(fdi, 0).centreMm).toBeGreaterThan(0);
  });
});

/**
 * Published adult means. Canine to canine: 35.41 ± 1.47 and 26.85 ± 1.59 (Class I, 76 casts, cusp tips; the form runs along the labial
 * faces, a difference inside the deviation). First molars' facial points: width 57.92 ± 4.75 and 54.19 ± 5.31, depth 31.59 ± 2.90 and
 * 28.10 ± 2.59 (Mina 2017, Odontology 105:229–236).
 */
describe('the average arch against published widths and depths', () => {
  const average = arches.find(({ id }) => id === 'average')?.arch;
  if (average === undefined || 'single' in average) throw new Error('no average arch of two jaws');

  /** Half the width where the form has this arc length, by fine midpoint steps (error far below a hundredth of a millimetre). */
  function halfWidthAtArc({ form }: JawArchSpec, arcMm: number): number {
    if (form.kind !== 'sextic') throw new Error(`form ${form.kind}`);
    const stepMm = 1e-3;
    let x = 0;
    for (let arc = 0; arc < arcMm; x += stepMm) {
      const middle = x + stepMm / 2;
      arc += stepMm * Math.hypot(1, 6 * form.a * middle ** 5 + 2 * form.b * middle);
    }
    return x;
  }

  it.each([
    ['upper canines', average.upper, 23, 35.41, 1.47],
    ['lower canines', average.lower, 33, 26.85, 1.59],
    ['upper first molars', average.upper, 26, 57.92, 4.75],
    ['lower first molars', average.lower, 36, 54.19, 5.31],
  ])('%s, placed by the tooth widths, are within one deviation of the mean width', (_, jaw, fdi, meanMm, deviationMm) => {
    expectWithin(2 * halfWidthAtArc(jaw, toothSpec(fdi, 0).centreMm), meanMm, { abs: deviationMm });
  });

  it.each([
    ['upper', average.upper, 57.92, 31.59],
    ['lower', average.lower, 54.19, 28.1],
  ])('%s: the form passes through the mean facial points of the first molars', (_, { form }, widthMm, depthMm) => {
    if (form.kind !== 'sextic') throw new Error(`form ${form.kind}`);
    // The molar half-widths of the working are rounded to 0.01 mm, where the form falls 4 to 5 mm a millimetre.
    expectWithin(form.a * (widthMm / 2) ** 6 + form.b * (widthMm / 2) ** 2, depthMm, { abs: 0.05 });
  });
});

/**
 * How fast the labial tangent turns, on the ready-made average profile: upper incisors about 10° between 2 and 4.5 mm from the edge
 * (van Loenen et al., Eur J Orthod 2005;27:258–262); lower incisors about 2° a millimetre (31 normal occlusions, Braz Dent J 2006;17(2)).
 * Inclinations 6.11 ± 3.97° and −1.71 ± 5.79° (Andrews, Am J Orthod 1972;62:296–309; value from memory).
 */
describe('the average labial profile', () => {
  const average = arches.find(({ id }) => id === 'average')?.arch;
  if (average === undefined || 'single' in average) throw new Error('no average arch of two jaws');

  function slopeDeg({ profile }: JawArchSpec, heightMm: number): number {
    if (profile.kind !== 'arcs') throw new Error(`profile ${profile.kind}`);
    const middle = Math.sin((profile.inclinationDeg * Math.PI) / 180);
    return (Math.asin(middle + (heightMm - profile.crownHeightMm / 2) / profile.crownRadiusMm) * 180) / Math.PI;
  }

  it('turns by 10° over 2.5 mm above and by 2° a millimetre below, within a twentieth', () => {
    expectWithin(slopeDeg(average.upper, 4.5) - slopeDeg(average.upper, 2), 10, { rel: 0.05 });
    expectWithin(slopeDeg(average.lower, 5) - slopeDeg(average.lower, 4), 2, { rel: 0.05 });
  });

  it.each(arches)('$id: the built surface’s normal turns by 10° between 2 and 4.5 mm above the upper edge, wherever along the arch', ({ arch }) => {
    const { upper } = buildArch(arch);
    for (const arcMm of [-12, 0, 4.25]) {
      const turn = toDegrees(Math.acos(dot(upper.normalAt(arcMm, 2), upper.normalAt(arcMm, 4.5))));
      expectWithin(turn, 10, { rel: 0.05 });
    }
  });

  it('has the mean inclination at mid-crown', () => {
    expectWithin(slopeDeg(average.upper, 10.2 / 2), 6.11, { abs: 1e-9 });
    expectWithin(slopeDeg(average.lower, 9 / 2), -1.71, { abs: 1e-9 });
  });
});

/**
 * Two flat half plates, the lower one OJ further back, under an annulus with alike linear lips wholly in contact: the step is a load
 * OJ·k on one half, so the footing formula gives sin φ = OJ·Q/I, Q = (2/3)(ro³ − ri³), I = (π/4)(ro⁴ − ri⁴) (worked out). The formula
 * has no edges; the model's gap rounds the step's corner within about √(2·gap·OJ) of it, which makes the tilt less.
 */
describe('tilt from a step between two flat half plates', () => {
  const plate: JawArchSpec = { form: { kind: 'line' }, profile: { kind: 'straight' } };
  const MODULUS_KPA = 200;
  const STRAIN = 0.4; // deep enough that all of the rim touches on either plate

  /** Tilt as a part of the formula's. */
  function partOfFormula(inner: number, outer: number, overjetMm: number): number {
    const arch = buildArch({ upper: plate, lower: plate, jaw: { openingMm: 0, forwardMm: -overjetMm, hingeDeg: 0 } });
    const area = Math.PI * (outer ** 2 - inner ** 2);
    const forceN = (MODULUS_KPA / 1000) * STRAIN * area;
    const { seat, load } = seating(setupOf(arch, flatRim(inner, outer), alikeLips('linear', 12, MODULUS_KPA))).follow(0, 0, forceN);
    expectWithin(load.contactFraction, 1, { abs: 1e-12 }, 'contact');
    expectWithin(seat.lateral, 0, { abs: 1e-9 }, 'lateral');
    const q = (2 / 3) * (outer ** 3 - inner ** 3);
    const inertia = (Math.PI / 4) * (outer ** 4 - inner ** 4);
    // The lower plate is further back, so the bell goes down.
    return -seat.elevation / Math.asin((overjetMm * q) / inertia);
  }

  const annuli = [['trumpet', 8.25, 13.5], ['horn', 8.75, 12.5], ['trombone', 13, 19.5], ['tuba', 16.25, 23]] as const;

  it.each(annuli)('%s: within 3 %% of asin(OJ·Q/I) at 1 mm', (_, inner, outer) => {
    expectWithin(partOfFormula(inner, outer, 1), 1, { abs: 0.03 });
  });

  it.each(annuli)('%s: the edges take the more off, the higher the step, and at 3 mm no more than a tenth', (_, inner, outer) => {
    const parts = [0.5, 1, 2, 3].map((overjetMm) => partOfFormula(inner, outer, overjetMm));
    parts.forEach((part, index) => expect(part).toBeLessThan(parts[index - 1] ?? 1));
    expect(parts[3]).toBeGreaterThan(0.9);
  });
});
