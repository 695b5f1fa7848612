/**
 * Where the nine landmarks of an adult lie before anything is known of the person: mm in the player's frame (docs/model.md), and one
 * standard deviation for each coordinate. Only what lies between landmarks matters; where all lie against the teeth is a constant
 * that travel does not see.
 *
 * Widths: between the inner eye corners 31 to 38 mm by origin (pooled review, PMC9029890, table of its abstract); between the outer
 * ones 94 to 98 mm over the skin and the cheekbones' greatest width 130 to 134 mm (Maxillofacial Plastic and Reconstructive Surgery
 * 2019, doi 10.1186/s40902-019-0191-7, table 9). The outer corners are taken nearer together, as calipers find them, the cheekbone
 * where it stands out forward, not at its widest. Heights, depths, ears and all deviations: values from memory, made wide.
 * Faces are even to a millimetre or two (value from memory): a person whose right eye lies deeper than the generic one has a deep left eye too.
 */
import type { LandmarkName } from './marks';
import type { Vec3 } from '../core/vector';

export interface LandmarkPlace {
  readonly placeMm: Vec3;
  /** Of the person from the generic head, what both sides have in common and what each has by itself together. */
  readonly sdMm: Vec3;
  /** What each side has by itself: a face's own unevenness, and for want of an edge where a hand puts the mark. */
  readonly sideSdMm: Vec3;
}

/** How well the same spot of a face is found again by hand, mm on the face, and how well a point is put, px: our judgement. */
export const SPOT_SD_MM = 0.7;
export const HAND_SD_PX = 1;
/** By how much the whole head may be larger or smaller, as a part: value from memory, children of ten included. */
export const HEAD_SIZE_SD = 0.06;
/** How eyes and ears together stand to what is called level on a head, one deviation, degrees: people differ; our judgement. */
export const HEAD_LEVEL_SD_DEG = 1.5;

const NOSE: LandmarkPlace = { placeMm: [0, 75, 2], sdMm: [1, 3.5, 3], sideSdMm: [1, 3.5, 3] };
const INNER_EYE: LandmarkPlace = { placeMm: [16.5, 70, -13], sdMm: [1.8, 2.5, 2.5], sideSdMm: [1, 1, 1.2] };
const OUTER_EYE: LandmarkPlace = { placeMm: [46, 71, -23], sdMm: [2.5, 3, 3.5], sideSdMm: [1.2, 1.2, 1.5] };
const CHEEKBONE: LandmarkPlace = { placeMm: [55, 45, -23], sdMm: [5, 6, 5], sideSdMm: [3.5, 4, 3] };
/** The tragus, before the ear's opening. */
const EAR: LandmarkPlace = { placeMm: [71, 46, -95], sdMm: [3.5, 5, 6], sideSdMm: [2, 2.5, 3] };

/** Right and left are the player's own: x is positive to the player's left. */
export const GENERIC_HEAD: Readonly<Record<LandmarkName, LandmarkPlace>> = {
  'nose-bridge': NOSE,
  'inner-eye-right': onTheRight(INNER_EYE),
  'inner-eye-left': INNER_EYE,
  'outer-eye-right': onTheRight(OUTER_EYE),
  'outer-eye-left': OUTER_EYE,
  'cheekbone-right': onTheRight(CHEEKBONE),
  'cheekbone-left': CHEEKBONE,
  'ear-right': onTheRight(EAR),
  'ear-left': EAR,
};

/** How far before the teeth's edge the rim's plane lies, lips between, and its deviation, the teeth's own place before the eyes included, mm: a judgement. */
export const RIM_DEPTH_MM = { value: 10, sd: 5 } as const;

/**
 * Covariance of one coordinate of two landmarks before anything is known of the person, without the head's own size, mm²: the two of a pair are off
 * alike, mirrored, but for what each side has by itself; others have nothing to do with each other.
 */
export function shapeCovariance(one: LandmarkName, other: LandmarkName, coordinate: 0 | 1 | 2): number {
  const { sdMm, sideSdMm } = GENERIC_HEAD[one];
  const whole = sdMm[coordinate] ** 2;
  if (one === other) return whole;
  if (kindOf(one) !== kindOf(other)) return 0;
  return (coordinate === 0 ? -1 : 1) * (whole - sideSdMm[coordinate] ** 2);
}

const kindOf = (name: LandmarkName): string => name.replace(/-(right|left)$/, '');

function onTheRight({ placeMm: [x, y, z], sdMm, sideSdMm }: LandmarkPlace): LandmarkPlace {
  return { placeMm: [-x, y, z], sdMm, sideSdMm };
}
