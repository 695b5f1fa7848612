import { describe, expect, it } from 'vitest';
import { buildArch } from '../../../src/core/arch';
import type { Arcs } from '../../../src/core/drawableArcs';
import { catenaryParameter } from '../../../src/core/planarForm';
import type { JawArchSpec } from '../../../src/core/specs';
import type { Vec3 } from '../../../src/core/vector';
import { mendScan } from '../../../src/scans/mendScan';
import { scaleMesh } from '../../../src/scans/mesh';
import type { ThreeTeeth } from '../../../src/scans/scanFrame';
import { type SettledJaw, settleJaw } from '../../../src/scans/settleJaw';
import type { JawName } from '../../../src/scans/startView';
import { expectWithin } from '../../support/expectWithin';
import { cutBall, cutFace } from '../../support/scannedShapes';

const SPEC: JawArchSpec = {
  form: { kind: 'power', widthMm: 61, depthMm: 47, exponent: 0.8 },
  profile: { kind: 'arcs', inclinationDeg: 5, crownHeightMm: 10, crownRadiusMm: 15, gumRadiusMm: 13, gumInclinationDeg: -4 },
};
interface Form {
  readonly widthMm: number;
  readonly depthMm: number;
}
const USUAL: Arcs = { kind: 'arcs', inclinationDeg: 6.1, crownHeightMm: 10.2, crownRadiusMm: 14.3, gumRadiusMm: 16, gumInclinationDeg: 8 };
const arch = buildArch({ upper: SPEC, lower: SPEC, jaw: { openingMm: 0, forwardMm: 0, hingeDeg: 0 } });
const CUT = { arcMm: 44, heights: [0, 24], columns: 200, rows: 60, thickMm: 6, behind: true } as const;

function teethOf(jaw: JawName, arcMm: number): ThreeTeeth {
  const surface = jaw === 'upper' ? arch.upper : arch.lower!;
  return { right: surface.pointAt(-arcMm, 0), left: surface.pointAt(arcMm, 0), front: surface.pointAt(0, 0) };
}

function settled(jaw: JawName, teeth: ThreeTeeth, mmPerUnit = 1, turn: (place: Vec3) => Vec3 = (place) => place): SettledJaw {
  const cut = cutFace(jaw === 'upper' ? arch.upper : arch.lower!, CUT);
  const scan = mendScan(scaleMesh({ ...cut, points: everyPlace(cut.points, turn) }, 1 / mmPerUnit))!;
  const inUnits = (place: Vec3): Vec3 => turn(place).map((value) => value / mmPerUnit) as unknown as Vec3;
  const answer = settleJaw(scan, { jaw, mmPerUnit, teeth: { right: inUnits(teeth.right), left: inUnits(teeth.left), front: inUnits(teeth.front) }, usual: USUAL, only: null });
  if (answer.kind === 'refused') throw new Error(answer.words);
  return answer;
}

const everyPlace = (points: Float64Array, change: (place: Vec3) => Vec3): Float64Array => {
  const changed = new Float64Array(points.length);
  for (let at = 0; at < points.length; at += 3) changed.set(change([points[at]!, points[at + 1]!, points[at + 2]!]), at);
  return changed;
};

const TRUTH = { widthMm: 61, depthMm: 47, inclinationDeg: 5, crownHeightMm: 10, crownRadiusMm: 15, gumRadiusMm: 13, gumInclinationDeg: -4 } as const;

describe('A jaw settled by three teeth', () => {
  it.each(['upper', 'lower'] as const)('%s: gives back the form it was cut from, and all its numbers, wherever it lies and in whatever unit', (jaw) => {
    const [c, s] = [Math.cos(0.9), Math.sin(0.9)];
    const found = settled(jaw, teethOf(jaw, 18), 25.4, ([x, y, z]) => [c * x - s * y + 50, s * x + c * y, z - 12]);
    expect(found.family).toBe('beta');
    expect(found.residualMm).toBeLessThan(0.01);
    // Above the gum's curve nothing is scanned that a fit looks at: its slope stays near what is usual, and its deviation says so.
    for (const { name, value, sd } of found.numbers) expectWithin(value, TRUTH[name as keyof typeof TRUTH], { abs: name === 'gumInclinationDeg' ? 3 * sd : 0.05 }, name);
    // The other forms miss it by more, and the fit says by how much.
    expect(found.tried.map(({ family }) => family)).toContain('circle');
    expect(found.tried[1]!.residualMm).toBeGreaterThan(found.residualMm);
  });

  it('hands that miss the midline and the molars by some tenths are put right, but for the tilt, whose deviation says so', () => {
    const { right, left, front } = teethOf('upper', 40);
    const found = settled('upper', { right: [right[0], right[1] + 0.4, right[2] + 0.4], left, front: [front[0] + 0.5, front[1], front[2]] });
    expect(found.asymmetryMm).toBeLessThan(0.05);
    const number = (name: string): { readonly value: number; readonly sd: number } => found.numbers.find((one) => one.name === name)!;
    expectWithin(number('widthMm').value, 61, { abs: 0.4 }, 'width');
    const inclination = number('inclinationDeg');
    expectWithin(inclination.value, 5, { abs: 2 * inclination.sd }, 'inclination');
    // Molars tell the tilt better than canines do.
    expect(inclination.sd).toBeLessThan(settled('upper', teethOf('upper', 18)).numbers.find((one) => one.name === 'inclinationDeg')!.sd / 2);
  });

  it.each([
    ['parabola', { kind: 'power', widthMm: 90, depthMm: 90, exponent: 1 }, (form: Form) => form.widthMm ** 2 / (8 * form.depthMm)],
    ['catenary', { kind: 'catenary', widthMm: 80, depthMm: 60 }, (form: Form) => catenaryParameter(form.widthMm, form.depthMm)],
  ] as const)('%s: of which width and depth only tell the end is found by its radius in front', (family, form, radiusOf) => {
    const jaw = buildArch({ upper: { ...SPEC, form }, lower: SPEC, jaw: { openingMm: 0, forwardMm: 0, hingeDeg: 0 } }).upper;
    const scan = mendScan(cutFace(jaw, { ...CUT, columns: 90, rows: 30 }))!;
    const answer = settleJaw(scan, { jaw: 'upper', mmPerUnit: 1, teeth: { right: jaw.pointAt(-18, 0), left: jaw.pointAt(18, 0), front: jaw.pointAt(0, 0) }, usual: USUAL, only: null });
    if (answer.kind === 'refused') throw new Error(answer.words);
    expect(answer.family).toBe(family);
    expectWithin(radiusOf(answer.spec.form as Form), radiusOf(form), { abs: 0.05 }, 'radius in front');
    const told = answer.numbers.filter(({ name }) => name === 'widthMm' || name === 'depthMm');
    expect(told).toHaveLength(1);
    expect(told[0]!.sd / told[0]!.value).toBeLessThan(0.02);
  });

  it('deviations do not hang on how fine the scan is: what counts is the places, not the triangles', () => {
    const sdOf = (columns: number): number => {
      const scan = mendScan(cutFace(arch.upper, { ...CUT, columns, rows: Math.round(columns / 3) }))!;
      const answer = settleJaw(scan, { jaw: 'upper', mmPerUnit: 1, teeth: teethOf('upper', 18), usual: USUAL, only: 'beta' });
      if (answer.kind === 'refused') throw new Error(answer.words);
      return answer.numbers.find(({ name }) => name === 'widthMm')!.sd;
    };
    const fine = sdOf(160);
    // With so many columns nearly twice as many places are fitted as with others.
    for (const columns of [36, 40, 44, 48, 52, 56]) expectWithin(sdOf(columns), fine, { rel: 0.15 }, `${columns} columns`);
  });

  it('refuses in words what cannot be: right for left, teeth in one place, no teeth before them', () => {
    const { right, left, front } = teethOf('upper', 18);
    const scan = mendScan(cutFace(arch.upper, CUT))!;
    expect(settleJaw(scan, { jaw: 'upper', mmPerUnit: 1, teeth: { right: left, left: right, front }, usual: USUAL, only: null })).toMatchObject({ kind: 'refused', reason: 'upside-down' });
    expect(settleJaw(scan, { jaw: 'upper', mmPerUnit: 1, teeth: { right, left: right, front }, usual: USUAL, only: null })).toMatchObject({ kind: 'refused', reason: 'teeth-too-near' });
    const ball = mendScan(cutBall(4, 40))!;
    expect(settleJaw(ball, { jaw: 'upper', mmPerUnit: 1, teeth: { right: [-15, -5, -10], left: [15, -5, -10], front: [0, -5, 4] }, usual: USUAL, only: null })).toMatchObject({ kind: 'refused' });
  });
});
