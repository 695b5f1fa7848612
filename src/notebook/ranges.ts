/** What each field allows, as the record's schema does, and how finely it steps. */
import type { RimSpec } from '../core/specs';
import type { NumberRange } from './numberText';

export interface FieldShape {
  readonly range: NumberRange;
  readonly step: number;
  readonly places: number;
}

const field = (min: number, max: number, unit: string, step: number, places: number): FieldShape => ({
  range: { min, max, unit },
  step,
  places,
});

const above = (min: number, max: number, unit: string, step: number, places: number): FieldShape => ({
  range: { min, max, unit, aboveMin: true },
  step,
  places,
});

export const FIELDS = {
  travel: field(-60, 60, 'mm', 0.1, 2),
  deviation: field(0.001, 20, 'mm', 0.1, 2),
  hornAngle: field(-80, 80, '°', 0.5, 1),
  hornDeviation: field(0.001, 45, '°', 0.5, 1),
  homePlace: field(-60, 60, 'mm', 0.1, 2),
  force: above(0, 200, 'N', 1, 1),
  lipShare: field(0.01, 0.99, '', 0.01, 2),
  opening: field(0, 40, 'mm', 0.5, 2),
  forward: field(-30, 30, 'mm', 0.5, 2),
  hinge: field(-10, 45, '°', 0.5, 2),
  formWidth: field(2, 2000, 'mm', 0.5, 2),
  formDepth: field(0.5, 1000, 'mm', 0.5, 2),
  exponent: field(0.5, 2, '', 0.05, 3),
  radius: field(2, 10_000, 'mm', 0.5, 2),
  inclination: field(-45, 45, '°', 1, 2),
  crownHeight: field(1, 30, 'mm', 0.5, 2),
  gumRadius: field(0.5, 10_000, 'mm', 0.5, 2),
  gumInclination: field(-60, 60, '°', 1, 2),
  toothOut: field(-2, 2, 'mm', 0.1, 2),
  rimDiameter: above(0, 300, 'mm', 0.1, 2),
  contourRadius: above(0, 10_000, 'mm', 0.1, 2),
  lipThickness: field(0.5, 60, 'mm', 0.5, 2),
  tryOutPlace: above(0, 6, 'mm', 0.5, 1),
  tryOutRound: above(0, 20, '°', 1, 1),
  lipModulus: field(0.1, 1_000_000, 'kPa', 10, 1),
} as const satisfies Record<string, FieldShape>;

/** The contour's arc must reach from the high point to the further edge. */
export function contourReachMm(rim: RimSpec): number {
  const { innerDiameterMm: inner, outerDiameterMm: outer, highPointDiameterMm: high } = rim;
  return Number((Math.max(high - inner, outer - high) / 2).toFixed(6));
}

interface DiameterLimits {
  readonly min: number;
  readonly max: number;
  readonly aboveMin: boolean;
}

/** How far each diameter can go while the others and the contour stay as they are. */
export function diameterLimits(rim: RimSpec): Readonly<Record<'inner' | 'highPoint' | 'outer', DiameterLimits>> {
  const { innerDiameterMm: inner, outerDiameterMm: outer, highPointDiameterMm: high, contourRadiusMm: contour } = rim;
  const { max: largest } = FIELDS.rimDiameter.range;
  const spanMm = contour === null ? largest : 2 * contour;
  const limits = (least: number, most: number): DiameterLimits => {
    const min = Number(Math.max(0, least).toFixed(6));
    return { min, max: Number(Math.min(largest, most).toFixed(6)), aboveMin: min === 0 };
  };
  return {
    inner: limits(high - spanMm, Math.min(high, outer - NARROWEST_MM)),
    highPoint: limits(Math.max(inner, outer - spanMm), Math.min(outer, inner + spanMm)),
    outer: limits(Math.max(high, inner + NARROWEST_MM), high + spanMm),
  };
}

/** A rim has some width, mm: the finest step that its fields show. */
const NARROWEST_MM = 0.01;
