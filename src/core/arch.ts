/** Two jaws, or one surface for both: built from a record's arch and where the lower jaw stands. */
import { withStandingTeeth } from './standingTooth';
import { toRadians } from './frame';
import type { Mouth } from './gapFace';
import { type Jaw, placeJaw } from './jawGap';
import { buildCurve } from './planarForm';
import { buildProfile } from './profile';
import type { ArchSpec, JawArchSpec, JawSpec } from './specs';
import { type JawSurface, createJawSurface } from './surface';
import type { Vec3 } from './vector';

/**
 * Distance over which one jaw hands over to the other, mm: where the gaps to the two jaws differ by less, the gap is
 * `blendedMinimum`, twice continuously differentiable and at most 3/16 of this below the smaller one.
 */
export const JAW_BLEND_MM = 0.2;

/**
 * Side of the published triangle condyle–condyle–incisal point, 4 in (value from memory): the reach from the hinge to the edge
 * when a record gives none. docs/decisions/0003-hinge-arm.md.
 */
export const HINGE_ARM_MM = 101.6;

export interface Arch {
  readonly spec: ArchSpec;
  /** Where the lower jaw stands; null for a single surface. */
  readonly jaw: JawSpec | null;
  /** The upper jaw, or the single surface. */
  readonly upper: JawSurface;
  readonly lower: JawSurface | null;
  /** Signed distance from a point to the nearer jaw, blended, mm. */
  gapAt(point: Vec3): number;
}

/** Builds an arch; `jaw` replaces the record's own where the lower jaw was seen elsewhere. Throws RangeError naming the field. */
export function buildArch(spec: ArchSpec, jaw?: Partial<JawSpec>): Arch {
  if ('single' in spec) {
    const surface = createJawSurface('single', fixedJaw(spec.single, true, 'arch.single'));
    return { spec, jaw: null, upper: surface, lower: null, gapAt: (point) => surface.gapAt(point) };
  }
  const upper = createJawSurface('upper', fixedJaw(spec.upper, false, 'arch.upper'));
  const lower = fixedJaw(spec.lower, false, 'arch.lower');
  return twoJaws(spec, { ...spec.jaw, ...jaw }, upper, lower);
}

/** The same arch with its lower jaw elsewhere; forms and profiles are shared, so this is cheap. A single surface stays as it is. */
export function moveJaw(arch: Arch, jaw: JawSpec): Arch {
  return arch.lower === null ? arch : twoJaws(arch.spec, jaw, arch.upper, arch.lower.placed);
}

/** What a rim rests on where nothing else stands in for the arch. Throws TypeError where a single surface is asked for its lower jaw. */
export const mouthOfArch = (arch: Arch): Mouth => ({
  at: (jaw) => (jaw === null ? arch : moveJaw(arch, jaw)),
  lowerAt: (jaw) => {
    if (arch.lower === null) throw new TypeError('lowerAt: a single surface; allowed: two jaws');
    return lowerJawAt(arch.lower.placed, jaw);
  },
});

/** Scans in an arch's place, or the arch itself. */
export type MouthOf = (arch: Arch) => Mouth;

/** The lower jaw's form and profile where the jaw stands. */
export function lowerJawAt(parts: Jaw, jaw: JawSpec): Jaw {
  return placeJaw(parts.curve, parts.profile, -1, {
    openingMm: jaw.openingMm,
    forwardMm: jaw.forwardMm,
    hinge: toRadians(jaw.hingeDeg),
    armMm: jaw.hingeArmMm ?? HINGE_ARM_MM,
  });
}

function twoJaws(spec: ArchSpec, jaw: JawSpec, upper: JawSurface, parts: Jaw): Arch {
  const lower = createJawSurface('lower', lowerJawAt(parts, jaw));
  return {
    spec,
    jaw,
    upper,
    lower,
    gapAt: (point) => blendedMinimum(upper.gapAt(point), lower.gapAt(point)),
  };
}

/**
 * Smooth minimum of two gaps: (a + b − A)/2, with A = |b − a| outside the blend and the even quartic that meets it with two
 * derivatives inside (u = (b − a)/w: A = w(3/8 + 3u²/4 − u⁴/8)).
 */
export function blendedMinimum(a: number, b: number): number {
  const difference = b - a;
  if (difference >= JAW_BLEND_MM) return a;
  if (difference <= -JAW_BLEND_MM) return b;
  const square = (difference / JAW_BLEND_MM) ** 2;
  return (a + b - JAW_BLEND_MM * (0.375 + square * (0.75 - 0.125 * square))) / 2;
}

function fixedJaw(spec: JawArchSpec, twoSided: boolean, field: string): Jaw {
  const curve = withStandingTeeth(buildCurve(spec.form), spec.teeth ?? []);
  const profile = buildProfile(spec.profile, twoSided, `${field}.profile`);
  return placeJaw(curve, profile, 1, { openingMm: 0, forwardMm: 0, hinge: 0, armMm: HINGE_ARM_MM });
}
