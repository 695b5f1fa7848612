/**
 * Where the nine landmarks of an adult lie before anything is known of the person: mm in the player's frame (docs/model.md), and one
 * standard deviation for each coordinate. Only what lies between landmarks matters; where all lie against the teeth is a constant
 * that travel does not see.
 *
 * Widths: between the inner eye corners 31 to 38 mm by origin (pooled review, PMC9029890, table of its abstract); between the outer
 * ones 94 to 98 mm over the skin and the cheekbones' greatest width 130 to 134 mm (Maxillofacial Plastic and Reconstructive Surgery
 * 2019, doi 10.1186/s40902-019-0191-7, table 9). The outer corners are taken nearer together, as calipers find them, the cheekbone
 * where it stands out forward, not at its widest. Heights, depths, ears and all deviations: values from memory, made wide.
 */
import type { LandmarkName } from './marks';
import type { Vec3 } from '../core/vector';

export interface LandmarkPlace {
  readonly placeMm: Vec3;
  readonly sdMm: Vec3;
}

/** By how much the whole head may be larger or smaller, as a part: value from memory, children of ten included. */
export const HEAD_SIZE_SD = 0.06;

const NOSE: LandmarkPlace = { placeMm: [0, 75, 2], sdMm: [1, 3.5, 3] };
const INNER_EYE: LandmarkPlace = { placeMm: [16.5, 70, -13], sdMm: [1.8, 2.5, 2.5] };
const OUTER_EYE: LandmarkPlace = { placeMm: [46, 71, -23], sdMm: [2.5, 3, 3.5] };
const CHEEKBONE: LandmarkPlace = { placeMm: [55, 45, -23], sdMm: [5, 6, 5] };
/** The tragus, before the ear's opening. */
const EAR: LandmarkPlace = { placeMm: [71, 46, -95], sdMm: [3.5, 5, 6] };

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

function onTheRight({ placeMm: [x, y, z], sdMm }: LandmarkPlace): LandmarkPlace {
  return { placeMm: [-x, y, z], sdMm };
}
