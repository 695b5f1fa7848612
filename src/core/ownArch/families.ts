/**
 * Families of arch form as they are fitted: few unknowns, each of about even scale, that any values of them make a form of. Formulas:
 * docs/numerics.md §1; which is too pointed in front and why: docs/model.md.
 */
import { catenaryParameter } from '../planarForm';
import type { ArchFamily, FormSpec } from '../specs';

/** Half width and depth behind the foremost point, mm. */
export interface Place {
  readonly xMm: number;
  readonly depthMm: number;
}

export interface Family {
  readonly id: ArchFamily;
  /** Unknowns of a form through about these two places. */
  start(canine: Place, molar: Place): number[];
  /** The place at t (what t is, is the family's own matter; more is further back); null beyond the form. */
  placeAt(unknowns: readonly number[], t: number): Place | null;
  /** Where first molars stand, of a family whose width and depth are those of the molars by definition; null: anywhere along the form. */
  readonly molarT: number | null;
  /** t about where this place is nearest. */
  tOf(unknowns: readonly number[], place: Place): number;
  frontRadiusMm(unknowns: readonly number[]): number;
  form(unknowns: readonly number[]): FormSpec;
  /** Unknowns of a form of this family; null for any other. */
  unknownsOf(form: FormSpec): readonly number[] | null;
}

/** The sextic's second unknown is the logarithm of what its x⁶ adds at this half width, mm: about a first molar's. */
const SEXTIC_AT_MM = 29;
/** Smallest x⁶ coefficient that a fit starts from, mm⁻⁵: next to nothing at the molars. */
const LEAST_SEXTIC_A = 1e-9;
/** A power form ends at the second molars (Braun et al. 1998); first molars stand at about this part of its half width: our judgement. */
const FIRST_MOLAR_PART = 0.95;
/** How deep a catenary that is fitted goes, mm: behind any first molar. */
const CATENARY_DEPTH_MM = 60;
/** A circle's place is its angle; it is used to this part of the way round (planarForm.ts). */
const CIRCLE_END = 0.95 * Math.PI;

const sextic: Family = {
  id: 'sextic',
  molarT: null,
  start: (canine, molar) => {
    const [near, far] = [canine.depthMm / canine.xMm ** 2, molar.depthMm / molar.xMm ** 2];
    const a = Math.max((far - near) / (molar.xMm ** 4 - canine.xMm ** 4), LEAST_SEXTIC_A);
    const b = Math.max(near - a * canine.xMm ** 4, near / 4);
    return [-Math.log(2 * b), Math.log(a * SEXTIC_AT_MM ** 6)];
  },
  placeAt: ([logRadius, logBack], t) =>
    t <= 0 ? null : { xMm: t, depthMm: (t * t) / (2 * Math.exp(logRadius!)) + Math.exp(logBack!) * (t / SEXTIC_AT_MM) ** 6 },
  tOf: (_, { xMm }) => xMm,
  frontRadiusMm: ([logRadius]) => Math.exp(logRadius!),
  form: ([logRadius, logBack]) => ({ kind: 'sextic', a: Math.exp(logBack!) / SEXTIC_AT_MM ** 6, b: 1 / (2 * Math.exp(logRadius!)) }),
  unknownsOf: (form) => (form.kind === 'sextic' && form.a > 0 && form.b > 0 ? [-Math.log(2 * form.b), Math.log(form.a * SEXTIC_AT_MM ** 6)] : null),
};

function power(id: ArchFamily, exponent: number): Family {
  const molarT = Math.asin(FIRST_MOLAR_PART);
  const depthPart = (t: number): number => 1 - Math.cos(t) ** (2 * exponent);
  return {
    id,
    molarT,
    start: (_, molar) => [Math.log((2 * molar.xMm) / FIRST_MOLAR_PART), Math.log(molar.depthMm / depthPart(molarT))],
    placeAt: ([logWidth, logDepth], t) =>
      t <= 0 || t >= Math.PI / 2 ? null : { xMm: (Math.exp(logWidth!) / 2) * Math.sin(t), depthMm: Math.exp(logDepth!) * depthPart(t) },
    tOf: ([logWidth], { xMm }) => Math.asin(Math.min((2 * xMm) / Math.exp(logWidth!), FIRST_MOLAR_PART)),
    frontRadiusMm: ([logWidth, logDepth]) => Math.exp(2 * logWidth! - logDepth!) / (8 * exponent),
    form: ([logWidth, logDepth]) => ({ kind: 'power', widthMm: Math.exp(logWidth!), depthMm: Math.exp(logDepth!), exponent }),
    unknownsOf: (form) => (form.kind === 'power' && form.exponent === exponent ? [Math.log(form.widthMm), Math.log(form.depthMm)] : null),
  };
}

const catenary: Family = {
  id: 'catenary',
  molarT: null,
  start: (_, molar) => [Math.log(catenaryParameter(2 * molar.xMm, molar.depthMm))],
  placeAt: ([logA], t) => (t <= 0 ? null : { xMm: t, depthMm: 2 * Math.exp(logA!) * Math.sinh(t / Math.exp(logA!) / 2) ** 2 }),
  tOf: (_, { xMm }) => xMm,
  frontRadiusMm: ([logA]) => Math.exp(logA!),
  form: ([logA]) => {
    const a = Math.exp(logA!);
    return { kind: 'catenary', widthMm: 2 * a * Math.acosh(1 + CATENARY_DEPTH_MM / a), depthMm: CATENARY_DEPTH_MM };
  },
  unknownsOf: (form) => (form.kind === 'catenary' ? [Math.log(catenaryParameter(form.widthMm, form.depthMm))] : null),
};

const circle: Family = {
  id: 'circle',
  molarT: null,
  start: (_, { xMm, depthMm }) => [Math.log((xMm * xMm + depthMm * depthMm) / (2 * depthMm))],
  placeAt: ([logRadius], t) => {
    const radius = Math.exp(logRadius!);
    return t <= 0 || t >= CIRCLE_END ? null : { xMm: radius * Math.sin(t), depthMm: 2 * radius * Math.sin(t / 2) ** 2 };
  },
  tOf: ([logRadius], { xMm, depthMm }) => Math.atan2(xMm, Math.exp(logRadius!) - depthMm),
  frontRadiusMm: ([logRadius]) => Math.exp(logRadius!),
  form: ([logRadius]) => ({ kind: 'circle', radiusMm: Math.exp(logRadius!) }),
  unknownsOf: (form) => (form.kind === 'circle' ? [Math.log(form.radiusMm)] : null),
};

/** The sextic first: it alone passes through canines and molars as they usually stand, and the ready-made arches are of it. */
export const FAMILIES: readonly Family[] = [sextic, power('ellipse', 0.5), power('beta', 0.8), power('parabola', 1), catenary, circle];

export function familyOf(id: ArchFamily): Family {
  const found = FAMILIES.find((one) => one.id === id);
  if (!found) throw new RangeError(`family: ${id}; allowed: ${FAMILIES.map((one) => one.id).join(', ')}`);
  return found;
}
