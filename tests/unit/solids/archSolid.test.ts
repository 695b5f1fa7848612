/** The printed arch against its closed forms, and at the ends of what a record may say. */
import { describe, expect, test } from 'vitest';
import { type Arch, buildArch } from '../../../src/core/arch';
import type { ArchSpec, JawSpec } from '../../../src/core/specs';
import { type ArchPart, CHORD_MM, LEAST_WALL_MM, archSolid } from '../../../src/solids/archSolid';
import { checkSolid, isPrintable } from '../../../src/solids/checkSolid';
import { refusalWords } from '../../../src/solids/refusalWords';
import { type Solid, boxOf } from '../../../src/solids/solid';
import { arches } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';
import { integrate, singleArch } from '../../support/surfaces';
import { type Triangle, countAlternatingRays } from '../../support/soup';

const WISH = { part: 'upper', heightMm: 20, rimReachMm: 20 } as const;

function made(arch: Arch, wish: { part: ArchPart; heightMm: number; rimReachMm: number } = WISH) {
  const answer = archSolid(arch, wish);
  if (answer.kind === 'refused') throw new Error(refusalWords(answer.why));
  return answer;
}

const trianglesOf = ({ positions, index }: Solid): Triangle[] => {
  const corner = (at: number) => [positions[at * 3]!, positions[at * 3 + 1]!, positions[at * 3 + 2]!] as const;
  return Array.from({ length: index.length / 3 }, (_, at) => [corner(index[at * 3]!), corner(index[at * 3 + 1]!), corner(index[at * 3 + 2]!)]);
};

/** Chords stand at most CHORD_MM inside a convex face: so much volume may be missing for each mm² of the front, and none may be over. */
function expectVolume(solid: Solid, truth: number, frontMm2: number): void {
  const { volumeMm3 } = checkSolid(solid);
  expect(volumeMm3).toBeLessThanOrEqual(truth * (1 + 1e-6));
  expectWithin(volumeMm3, truth, { abs: CHORD_MM * frontMm2 }, 'volume');
}

describe('closed forms', () => {
  test('a flat plate is a box', () => {
    const { solid, chordMm } = made(singleArch({ kind: 'line' }));
    const { low, high } = boxOf([solid]);
    expect([low, high]).toEqual([[-48, -20, -LEAST_WALL_MM], [48, 20, 0]]);
    expectWithin(checkSolid(solid).volumeMm3, 96 * 40 * LEAST_WALL_MM, { rel: 1e-6 });
    expectWithin(chordMm.whereRimsAre, 0, { abs: 1e-9 });
  });

  test('a cylinder', () => {
    const radius = 24;
    const { solid } = made(singleArch({ kind: 'circle', radiusMm: radius }));
    const { low, high } = boxOf([solid]);
    const half = high[0];
    expectWithin(low[0], -half, { abs: 1e-6 }, 'symmetry');
    // The face is cut off where a fifth of its normal points forward.
    expectWithin(half, radius * Math.sqrt(1 - 0.2 ** 2), { abs: 0.1 }, 'width');
    expectWithin(high[2], 0, { abs: CHORD_MM }, 'front');
    expectWithin(low[2], Math.sqrt(radius ** 2 - half ** 2) - radius - LEAST_WALL_MM, { abs: 1e-6 }, 'back');
    // ∫√(R² − x²) over −a … a = a√(R² − a²) + R² asin(a/R).
    const under = half * Math.sqrt(radius ** 2 - half ** 2) + radius ** 2 * Math.asin(half / radius);
    expectVolume(solid, 40 * (under - 2 * half * (radius + low[2])), 40 * 2 * radius * Math.asin(half / radius));
  });

  test('a sphere', () => {
    const radius = 30;
    const { solid } = made(singleArch({ kind: 'circle', radiusMm: radius }, { kind: 'arc', radiusMm: radius }));
    const { low, high } = boxOf([solid]);
    const [a, b] = [high[0], high[1]];
    expect(b).toBe(20);
    const c = Math.sqrt(radius ** 2 - a ** 2 - b ** 2);
    // The quarter of ∫∫√(R² − x² − y²) over a rectangle within the disc; checked by a rule that knows nothing of it.
    const quarter =
      (a * b * c) / 3 + (a * (3 * radius ** 2 - a ** 2) * Math.atan(b / c)) / 6 +
      (b * (3 * radius ** 2 - b ** 2) * Math.atan(a / c)) / 6 - (radius ** 3 * Math.atan((a * b) / (radius * c))) / 3;
    expectWithin(quarter, integrate((x) => integrate((y) => Math.sqrt(radius ** 2 - x * x - y * y), 0, b), 0, a), { rel: 1e-9 }, 'formula');
    const front = integrate((x) => integrate((y) => radius / Math.sqrt(radius ** 2 - x * x - y * y), -b, b), -a, a);
    expectVolume(solid, 4 * quarter - 4 * a * b * (radius + low[2]), front);
    for (const [x, y, z] of frontCorners(solid)) expectWithin(Math.hypot(x, y, z + radius), radius, { abs: 1e-6 }, 'corner on the sphere');
  });

  test('a torus, and a saddle of one', () => {
    const [form, profile] = [26, 40];
    const { solid } = made(singleArch({ kind: 'circle', radiusMm: form }, { kind: 'arc', radiusMm: profile }));
    const { low, high } = boxOf([solid]);
    const [a, b] = [high[0], high[1]];
    const ring = (y: number): number => form - profile + Math.sqrt(profile ** 2 - y * y);
    // Sections at constant height are circles.
    const volume = integrate((y) => a * Math.sqrt(ring(y) ** 2 - a * a) + ring(y) ** 2 * Math.asin(a / ring(y)) - 2 * a * (form + low[2]), -b, b);
    expectVolume(solid, volume, integrate((y) => 2 * ring(y) * Math.asin(a / ring(y)) * (profile / Math.sqrt(profile ** 2 - y * y)), -b, b));
  });

  test('the chord error that is told is one that other points keep to', () => {
    const arch = buildArch(arches[0]!.arch);
    const { solid, chordMm } = made(arch, { part: 'both', heightMm: 20, rimReachMm: 20 });
    expect(chordMm.whereRimsAre).toBeLessThanOrEqual(CHORD_MM);
    const { positions, index } = solid;
    let worst = 0;
    let looked = 0;
    for (let at = 0; at < index.length; at += 3) {
      const at3 = [index[at]!, index[at + 1]!, index[at + 2]!];
      const onFace = (corner: number): boolean => Math.abs(arch.upper.gapAt(pointOf(positions, corner))) < 1e-6 || Math.abs(arch.lower!.gapAt(pointOf(positions, corner))) < 1e-6;
      if (!at3.every(onFace)) continue;
      const upper = at3.every((corner) => Math.abs(arch.upper.gapAt(pointOf(positions, corner))) < 1e-6);
      const surface = upper ? arch.upper : arch.lower!;
      for (const [p, q, r] of [[1 / 3, 1 / 3, 1 / 3], [0.6, 0.2, 0.2], [0.2, 0.6, 0.2], [0.45, 0.1, 0.45]] as const) {
        const point = [0, 1, 2].map((axis) => p * positions[at3[0]! * 3 + axis]! + q * positions[at3[1]! * 3 + axis]! + r * positions[at3[2]! * 3 + axis]!);
        const seen = surface.closest(point as unknown as [number, number, number]);
        if (!seen.interior || Math.abs(point[0]!) > 20) continue;
        looked += 1;
        worst = Math.max(worst, Math.abs(seen.gapMm));
      }
    }
    expect(looked).toBeGreaterThan(2000);
    expect(worst).toBeLessThanOrEqual(CHORD_MM);
  });
});

describe('two jaws', () => {
  const arch = buildArch(arches[0]!.arch);

  test.each(['upper', 'lower', 'both'] as const)('%s: closed, outward, along every ray', (part) => {
    const { solid } = made(arch, { part, heightMm: 20, rimReachMm: 20 });
    expect(isPrintable(checkSolid(solid))).toBe(true);
    const triangles = trianglesOf(solid);
    const { low, high } = boxOf([solid]);
    for (const axis of [0, 1, 2] as const) {
      const [u, v] = [0, 1, 2].filter((one) => one !== axis) as [number, number];
      const starts = Array.from({ length: 60 }, (_, at) => [low[u]! + ((at * 0.618) % 1) * (high[u]! - low[u]!), low[v]! + ((at * 0.7549 + 0.01) % 1) * (high[v]! - low[v]!)] as const);
      const rays = countAlternatingRays(triangles, axis, starts);
      expect(rays.wrong).toBe(0);
      expect(rays.crossing).toBeGreaterThan(20);
    }
  });

  test('both stand as they bite: the gap between the edges is the opening', () => {
    const { solid } = made(arch, { part: 'both', heightMm: 20, rimReachMm: 20 });
    const { low, high } = boxOf([solid]);
    expectWithin(high[1] - low[1], 20 + arch.jaw!.openingMm + 20, { abs: 1e-6 }, 'height');
    // A point in the gap before the front of the teeth's edges is outside, one behind an edge inside.
    const triangles = trianglesOf(solid);
    const crossings = (x: number, y: number): number => countAlternatingRays(triangles, 2, [[x, y]]).wrong;
    expect(crossings(0.013, -3.1)).toBe(0);
    const depthAt = (y: number): number => Math.max(...triangles.flatMap((triangle) => heightOver(triangle, 0.013, y)));
    expect(depthAt(0.05)).toBeGreaterThan(depthAt(-3.1) + 8);
  });

  test.each([
    ['closed', { openingMm: 0, forwardMm: 0, hingeDeg: 0 }, /apart/],
    ['past each other', { openingMm: 2, forwardMm: -3, hingeDeg: -10 }, /apart/],
    ['wide open', { openingMm: 40, forwardMm: -30, hingeDeg: 45 }, null],
    ['tilted', { openingMm: 5, forwardMm: 0, hingeDeg: 12, hingeArmMm: 80 }, null],
  ] as const)('a jaw %s is printed or refused in words', (_name, jaw: JawSpec, refusal) => {
    const answer = archSolid(buildArch(arches[0]!.arch, jaw), { part: 'both', heightMm: 20, rimReachMm: 20 });
    if (refusal !== null) expect(answer.kind === 'refused' ? refusalWords(answer.why) : 'made').toMatch(refusal);
    else if (answer.kind === 'solid') expect(isPrintable(checkSolid(answer.solid))).toBe(true);
    else expect(refusalWords(answer.why)).toMatch(/Print each jaw by itself/);
  });

  test('a single surface has no lower jaw', () => {
    expect(archSolid(singleArch({ kind: 'line' }), { ...WISH, part: 'lower' }).kind).toBe('refused');
  });
});

/** Of the 102 below: a change that refuses what could be made is told. */
const LEAST_MADE = 65;

describe('the ends of what a record may say give a body or a sentence', () => {
  const bodies = new Set<string>();
  const straight = { kind: 'straight' } as const;
  const profiles = [
    straight,
    { kind: 'straight', inclinationDeg: 60 },
    { kind: 'straight', inclinationDeg: -60 },
    { kind: 'arc', radiusMm: 2 },
    { kind: 'arc', radiusMm: 100_000 },
    { kind: 'arcs', inclinationDeg: 45, crownHeightMm: 1, crownRadiusMm: 2, gumRadiusMm: 0.5, gumInclinationDeg: -60 },
    { kind: 'arcs', inclinationDeg: -45, crownHeightMm: 30, crownRadiusMm: 10_000, gumRadiusMm: 10_000, gumInclinationDeg: -60 },
    { kind: 'arcs', inclinationDeg: 0, crownHeightMm: 3, crownRadiusMm: 2, gumRadiusMm: 0.5, gumInclinationDeg: 40 },
  ] as const;
  const forms = [
    { kind: 'power', widthMm: 2, depthMm: 1000, exponent: 0.5 },
    { kind: 'power', widthMm: 2000, depthMm: 0.5, exponent: 2 },
    { kind: 'power', widthMm: 60, depthMm: 50, exponent: 0.8 },
    { kind: 'sextic', a: 0.0001, b: 0.25 },
    { kind: 'sextic', a: 0, b: 0 },
    { kind: 'catenary', widthMm: 2000, depthMm: 1000 },
    { kind: 'catenary', widthMm: 30, depthMm: 60 },
    { kind: 'circle', radiusMm: 2 },
    { kind: 'circle', radiusMm: 100_000 },
    { kind: 'line' },
    { kind: 'points', points: [[-30, -40], [-12, -2], [-10, -4], [0, 0], [9, -3], [11, -1], [28, -35]] },
    { kind: 'points', points: [[-300, 300], [-1, 0], [1, 0], [300, 300]] },
  ] as const;
  const cases = forms.flatMap((form) => profiles.map((profile) => [`${JSON.stringify(form)} ${JSON.stringify(profile)}`, { single: { form, profile } }] as [string, ArchSpec]));

  test.each(forms.map((form) => [form.kind, JSON.stringify(form)] as const))('form %s %s', (_kind, form) => {
    for (const [name, arch] of cases.filter(([, { single }]: [string, ArchSpec & { single?: { form: unknown } }]) => JSON.stringify(single?.form) === form)) expectBodyOrSentence(name, arch);
  });

  test('teeth that stand out and in', () => {
    const base = arches[0]!.arch as Extract<ArchSpec, { upper: unknown }>;
    for (const [outMm, widthMm] of [[2, 8.5], [-2, 8.5], [2, 2], [-2, 2], [0.5, 6], [2, 20]] as const) {
      expectBodyOrSentence(`tooth ${outMm} ${widthMm}`, { ...base, upper: { ...base.upper, teeth: [{ fdi: 21, outMm, centreMm: 4.3, widthMm }] } });
    }
  });

  test('of these, many are bodies', () => {
    expect(bodies.size).toBeGreaterThanOrEqual(LEAST_MADE);
  });

  function expectBodyOrSentence(name: string, spec: ArchSpec): void {
    const answer = archSolid(buildArch(spec), { part: 'upper', heightMm: 24, rimReachMm: 25 });
    if (answer.kind === 'refused') expect([name, refusalWords(answer.why)]).toEqual([name, expect.stringMatching(/^[A-Z].+\.$/)]);
    else {
      expect([name, isPrintable(checkSolid(answer.solid))]).toEqual([name, true]);
      expect(answer.chordMm.whereRimsAre).toBeLessThanOrEqual(CHORD_MM);
      bodies.add(name);
    }
  }
});

const pointOf = (positions: Float64Array, corner: number) => [positions[corner * 3]!, positions[corner * 3 + 1]!, positions[corner * 3 + 2]!] as const;

/** Corners of the front: those that are not on the back. */
function frontCorners(solid: Solid): (readonly [number, number, number])[] {
  const { low } = boxOf([solid]);
  return Array.from({ length: solid.positions.length / 3 }, (_, at) => pointOf(solid.positions, at)).filter(([, , z]) => z > low[2] + 1e-9);
}

/** z of a triangle over (x, y); none where it does not stand there. */
function heightOver([a, b, c]: Triangle, x: number, y: number): number[] {
  const area = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  if (Math.abs(area) < 1e-12) return [];
  const p = ((b[0] - x) * (c[1] - y) - (b[1] - y) * (c[0] - x)) / area;
  const q = ((c[0] - x) * (a[1] - y) - (c[1] - y) * (a[0] - x)) / area;
  return p < 0 || q < 0 || p + q > 1 ? [] : [p * a[2] + q * b[2] + (1 - p - q) * c[2]];
}
