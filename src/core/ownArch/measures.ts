/**
 * What can be measured of two jaws with a ruler or a caliper: what is usual among grown people, how sure a careful hand is, and what of the
 * mouth it depends on. Women and men together: men's arches are wider and deeper (Oliva et al., Prog Orthod 2018;19:34), so a deviation of both
 * is wider than that of either. docs/model.md, "The player's own arch".
 */
import type { ArchMeasureName, ArchMeasureSpec } from '../specs';

/** One number as it is spread among people, mm. */
export interface Spread {
  readonly meanMm: number;
  readonly sdMm: number;
}

export interface MeasureKind {
  readonly name: ArchMeasureName;
  /** Of a careful hand with a caliper, mm: our judgement, beside a repeat error below 0.5 mm on casts (Bishara et al. 1997). A ruler: twice that. */
  readonly typicalSdMm: number;
  /** What may be typed, mm. */
  readonly rangeMm: readonly [number, number];
}

export const MEASURES: readonly MeasureKind[] = [
  kind('upper-canine-width', 0.5, 20, 55),
  kind('upper-canine-depth', 0.5, 1, 20),
  kind('upper-molar-width', 0.7, 35, 85),
  kind('upper-molar-depth', 1, 15, 55),
  kind('lower-canine-width', 0.5, 14, 48),
  kind('lower-canine-depth', 0.5, 0.5, 16),
  kind('lower-molar-width', 0.7, 32, 80),
  kind('lower-molar-depth', 1, 12, 50),
  kind('overjet', 0.5, -10, 15),
  kind('overbite', 0.5, -10, 12),
  kind('upper-crown-height', 0.3, 5, 16),
];

/** What is usual of one jaw: where canine tips and the outermost of the first molars stand, and how round the front is. */
export interface JawPopulation {
  readonly canineWidth: Spread;
  readonly molarWidth: Spread;
  readonly molarDepth: Spread;
  readonly frontRadiusMm: number;
}

/**
 * Canine widths: Class I, 76 casts. Molars: facial points of first molars, Mina et al., Odontology 2017;105:229–236. Front radius: middle of 20
 * to 28 mm, derived from published widths; above and below as in the average arch.
 */
export const POPULATION: Readonly<Record<'upper' | 'lower', JawPopulation>> = {
  upper: { canineWidth: spread(35.41, 1.47), molarWidth: spread(57.92, 4.75), molarDepth: spread(31.59, 2.9), frontRadiusMm: 24.3 },
  lower: { canineWidth: spread(26.85, 1.59), molarWidth: spread(54.19, 5.31), molarDepth: spread(28.1, 2.59), frontRadiusMm: 26.97 },
};

/** Deviation of the front radius as a part of it: 20 to 28 mm are two deviations either way, as for a ready-made arch. */
export const FRONT_RADIUS_PART = 0.08;

/**
 * Deviation of the size that a mouth's measures have in common, as a part. No correlations were found published: half of the variance of the
 * upper canine width (4.15 %) is taken to be size, our judgement.
 */
export const SIZE_PART = 0.029;

/** Mean of a textbook norm of 2 to 3 mm (value from memory); with 1.1 mm 59.5 % lie within 1 to 3 mm (NHANES III, age 18 to 50). */
export const OVERJET: Spread = spread(2.5, 1.1);
/** NHANES III (Brunelle et al., J Dent Res 1996;75:706–713): mean 2.9 mm, 8 % at 6 mm and more, which 2.2 mm gives (derived). */
export const OVERBITE: Spread = spread(2.9, 2.2);
/** Clinical crown of the upper central incisor, Orozco-Varo et al. 2015: 10.23 mm. The deviation is our judgement. */
export const CROWN_HEIGHT: Spread = spread(10.23, 0.9);

/** How the jaw stands while playing where overjet is as usual: the average arch's lower edges lie 1 mm behind the upper ones (our judgement). */
export const FORWARD_AT_USUAL_OVERJET_MM = -1;

export function measureKind(name: ArchMeasureName): MeasureKind {
  const found = MEASURES.find((one) => one.name === name);
  if (!found) throw new RangeError(`measures: ${name}; allowed: ${MEASURES.map((one) => one.name).join(', ')}`);
  return found;
}

/** The deviation a measure has when none is typed, mm. */
export function usualSdMm(name: ArchMeasureName, by: ArchMeasureSpec['by']): number {
  return measureKind(name).typicalSdMm * (by === 'ruler' ? 2 : 1);
}

function spread(meanMm: number, sdMm: number): Spread {
  return { meanMm, sdMm };
}

function kind(name: ArchMeasureName, typicalSdMm: number, least: number, most: number): MeasureKind {
  return { name, typicalSdMm, rangeMm: [least, most] };
}
