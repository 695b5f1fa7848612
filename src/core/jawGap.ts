/**
 * The gap between a point and one jaw, with everything its second derivatives need: the hot half of the seat.
 * Closest point in two exact steps (foot on the form, then on the profile in that normal plane): docs/numerics.md §3.
 */
import { AT_PARAMETER, AT_X, AT_Z, FOOT_OUT, curveScratch, footAt, footOnCurve } from './curveFoot';
import { ANSWER_AT_END, ANSWER_GAP, ANSWER_TIGHTNESS, type GapFace, type GapRoom } from './gapFace';
import { type LabialProfile, footOnProfile } from './profile';
import type { PlaneCurve } from './planarForm';

/** Places in `Jaw.place`. */
const OPENING = 0;
const FORWARD = 1;
const HINGE_COS = 2;
const HINGE_SIN = 3;
const ARM = 4;
const GUMWARD = 5;

/** A form with its profile, where the jaw stands: a moulding surface as the seat asks it. */
export interface Jaw extends GapFace {
  /** opening, forward, hinge cosine and sine, arm, gumward as typed numbers, for the hot loop. */
  readonly place: Float64Array;
  readonly curve: PlaneCurve;
  readonly profile: LabialProfile;
  /** Height from the edge toward the gum grows with y (+1, upper or single) or against it (−1, lower). */
  readonly gumward: 1 | -1;
  readonly openingMm: number;
  readonly forwardMm: number;
  /** Turn about the hinge axis, which runs across the head at height 0, `armMm` behind the origin. */
  readonly hingeCos: number;
  readonly hingeSin: number;
  readonly armMm: number;
  /** True where the profile begins at an edge, so that a point beyond it is at least that far away. */
  readonly hasEdge: boolean;
}

/** Offsets into what `gapOfJaw` writes. */
export const GAP = 0;
/** Unit normal (gradient of the gap), 3 numbers. */
export const NORMAL = 1;
// From 4: the first curvature direction (in the normal plane), 3 numbers, and its κ/(1 + gap·κ); from 8: the second (along the form), likewise.
/** 1 where the foot lies at an end of the form. */
export const AT_END = 12;
/** 1 + d·κ at the foot: the form is refused below FORM_TIGHTEST. */
export const TIGHTNESS = 13;
/** Region of the profile (REGION_…). */
export const REGION = 14;
/** Height of the foot from the edge toward the gum. */
export const FOOT_HEIGHT = 15;
export const GAP_OUT = 16;

/** Keeps a division finite where a point lies at the form's centre of curvature; such a seat is refused afterwards. */
const LEAST_DENOMINATOR = 1e-6;

/** How far above (or below) the jaw's edge a point lies, mm: a lower bound of the gap; −∞ where there is no edge. */
function beyondEdge(jaw: Jaw, y: number, z: number): number {
  if (!jaw.hasEdge) return -Infinity;
  const place = jaw.place;
  const localY = y * place[HINGE_COS]! + (z + place[ARM]!) * place[HINGE_SIN]!;
  return -place[GUMWARD]! * (localY + place[OPENING]!);
}

/**
 * The gap of `room.point`, left with both feet in `room`: room.profile[0], mm. `warm[index]` is the form's parameter to start from (NaN
 * for none) and receives the foot's.
 */
export function gapAlone(jaw: Jaw, warm: Float64Array, index: number, room: GapRoom): void {
  const { place } = jaw;
  const { point, at, section, form } = room;
  const sin = place[HINGE_SIN]!;
  let localY = point[1]!;
  let localZ = point[2]!;
  if (sin !== 0) {
    const cos = place[HINGE_COS]!;
    const y = localY;
    const reach = localZ + place[ARM]!;
    localY = y * cos + reach * sin;
    localZ = reach * cos - y * sin - place[ARM]!;
  }
  at[AT_X] = point[0]!;
  at[AT_Z] = localZ - place[FORWARD]!;
  at[AT_PARAMETER] = warm[index]!;
  footAt(jaw.curve, at, room.curve, form);
  warm[index] = at[AT_PARAMETER]!;
  section[0] = form[0]!;
  section[1] = place[GUMWARD]! * (localY + place[OPENING]!);
  footOnProfile(jaw.profile, section, room.profile);
}

/** The gap with its normal, curvature directions and bends: GAP_OUT numbers. */
export function gapOfJaw(
  jaw: Jaw,
  x: number,
  y: number,
  z: number,
  warm: Float64Array,
  index: number,
  room: GapRoom,
  out: Float64Array,
): void {
  room.point[0] = x;
  room.point[1] = y;
  room.point[2] = z;
  gapAlone(jaw, warm, index, room);
  out[0] = room.profile[0]!;
  const form = room.form;
  const profile = room.profile;
  const nx = form[1]!;
  const nz = form[2]!;
  const bend = form[3]!;
  const nd = profile[1]!;
  const nh = jaw.gumward * profile[2]!;
  const normalZ = nd * nz;
  const tangentZ = -nh * nz;
  out[1] = nd * nx;
  out[4] = -nh * nx;
  out[8] = nz;
  if (jaw.hingeSin === 0) {
    out[2] = nh;
    out[3] = normalZ;
    out[5] = nd;
    out[6] = tangentZ;
    out[9] = 0;
    out[10] = -nx;
  } else {
    const cos = jaw.hingeCos;
    const sin = jaw.hingeSin;
    out[2] = nh * cos - normalZ * sin;
    out[3] = nh * sin + normalZ * cos;
    out[5] = nd * cos - tangentZ * sin;
    out[6] = nd * sin + tangentZ * cos;
    out[9] = nx * sin;
    out[10] = -nx * cos;
  }
  out[7] = profile[3]!;
  const denominator = 1 + form[0]! * bend;
  out[11] = (nd * bend) / (denominator > LEAST_DENOMINATOR ? denominator : LEAST_DENOMINATOR);
  out[12] = form[4]!;
  out[13] = 1 + profile[5]! * bend;
  out[14] = profile[6]!;
  out[15] = profile[4]!;
}

/** A jaw's form and profile moved by opening, offset and hinge (degrees turned to radians by the caller). */
export function placeJaw(
  curve: PlaneCurve,
  profile: LabialProfile,
  gumward: 1 | -1,
  place: { readonly openingMm: number; readonly forwardMm: number; readonly hinge: number; readonly armMm: number },
): Jaw {
  const hingeCos = Math.cos(place.hinge);
  const hingeSin = Math.sin(place.hinge);
  return new PlacedJaw(
    Float64Array.of(place.openingMm, place.forwardMm, hingeCos, hingeSin, place.armMm, gumward),
    curve, profile, gumward, place.openingMm, place.forwardMm, hingeCos, hingeSin, place.armMm, profile.lowMm === 0,
  );
}

/** A class, so that a jaw made for each frame of a drag brings no functions of its own. */
class PlacedJaw implements Jaw {
  constructor(
    readonly place: Float64Array,
    readonly curve: PlaneCurve,
    readonly profile: LabialProfile,
    readonly gumward: 1 | -1,
    readonly openingMm: number,
    readonly forwardMm: number,
    readonly hingeCos: number,
    readonly hingeSin: number,
    readonly armMm: number,
    readonly hasEdge: boolean,
  ) {}

  ask(warm: Float64Array, index: number, room: GapRoom): void {
    gapAlone(this, warm, index, room);
    const { answer, form, profile } = room;
    answer[ANSWER_GAP] = profile[0]!;
    answer[ANSWER_TIGHTNESS] = 1 + profile[5]! * form[3]!;
    answer[ANSWER_AT_END] = form[4]!;
  }

  /** The normal in the player's frame: turned by the hinge, y = y'·cos − z'·sin, z = y'·sin + z'·cos. */
  writeNormal(room: GapRoom, out: Float64Array, from: number): void {
    const { form, profile } = room;
    const place = this.place;
    const cos = place[HINGE_COS]!;
    const sin = place[HINGE_SIN]!;
    const nd = profile[1]!;
    const nh = place[GUMWARD]! * profile[2]!;
    const along = nd * form[2]!;
    out[from] = nd * form[1]!;
    out[from + 1] = nh * cos - along * sin;
    out[from + 2] = nh * sin + along * cos;
  }

  /** Σ bend·T·Tᵀ over the two directions of curvature, one in the foot's normal plane and one along the form. */
  writeBends(room: GapRoom, out: Float64Array, from: number): void {
    const { form, profile } = room;
    const place = this.place;
    const cos = place[HINGE_COS]!;
    const sin = place[HINGE_SIN]!;
    const nx = form[1]!;
    const nz = form[2]!;
    const bendForm = form[3]!;
    const nd = profile[1]!;
    const nh = place[GUMWARD]! * profile[2]!;
    const bendV = profile[3]!;
    const denominator = 1 + form[0]! * bendForm;
    const bendH = (nd * bendForm) / (denominator > LEAST_DENOMINATOR ? denominator : LEAST_DENOMINATOR);
    const vx = -nh * nx;
    const vAlong = -nh * nz;
    const vy = nd * cos - vAlong * sin;
    const vz = nd * sin + vAlong * cos;
    const hy = nx * sin;
    const hz = -nx * cos;
    out[from] = bendV * vx * vx + bendH * nz * nz;
    out[from + 1] = bendV * vx * vy + bendH * nz * hy;
    out[from + 2] = bendV * vx * vz + bendH * nz * hz;
    out[from + 3] = bendV * vy * vy + bendH * hy * hy;
    out[from + 4] = bendV * vy * vz + bendH * hy * hz;
    out[from + 5] = bendV * vz * vz + bendH * hz * hz;
  }

  beyondEdge(y: number, z: number): number {
    return beyondEdge(this, y, z);
  }

  shiftedFrom(other: GapFace): number {
    const from = other as Partial<Jaw>;
    const same =
      from.curve === this.curve && from.profile === this.profile && from.hingeSin === this.hingeSin && from.armMm === this.armMm;
    return same ? Math.hypot(from.openingMm! - this.openingMm, from.forwardMm! - this.forwardMm) : NaN;
  }

  facingAt(x: number): number {
    return facingAt(this.curve, x);
  }
}

/** In front of the mouth, further out than any rim sits, mm. */
const IN_FRONT_MM = 10;

function facingAt(curve: PlaneCurve, x: number): number {
  const foot = new Float64Array(FOOT_OUT);
  footOnCurve(curve, x, IN_FRONT_MM, NaN, curveScratch(), foot);
  return Math.atan2(-foot[1]!, foot[2]!);
}
