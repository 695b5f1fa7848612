/**
 * What the seat asks of whatever a rim rests on: the gap of a point and how it changes from there. A moulding surface (jawGap) and a scan
 * answer it, and nothing above knows which of them it has: net, energy and solver see no more of a mouth than this.
 */
import { AT_SIZE, type CurveScratch, FOOT_OUT, curveScratch } from './curveFoot';
import { PROFILE_OUT } from './profile';
import type { JawSpec } from './specs';

export interface GapFace {
  /**
   * The signed gap of `room.point`, mm, to `room.answer`, with what else a seat must know of the foot. `warm[index]` is whatever the face
   * likes to remember of a foot, NaN for none; it is kept for each point apart and changes no answer.
   */
  ask(warm: Float64Array, index: number, room: GapRoom): void;
  /** For the point just asked in this room: the gap's gradient, a unit vector of three numbers, to `out` from `from` on. */
  writeNormal(room: GapRoom, out: Float64Array, from: number): void;
  /** For the point just asked in this room: the gap's second derivatives xx, xy, xz, yy, yz, zz, 1/mm, to `out` from `from` on. */
  writeBends(room: GapRoom, out: Float64Array, from: number): void;
  /** A lower bound of the gap of any point at this height and depth, mm, found without looking closely; −∞ where there is none. */
  beyondEdge(y: number, z: number): number;
  /** How far this face has been shifted from another without turning, mm: no gap changes by more. NaN where it is not the same face. */
  shiftedFrom(other: GapFace): number;
  /** The lateral angle, radians, at which a horn in front of x meets the face squarely: where a cold search begins. */
  facingAt(x: number): number;
}

/** Places in `GapRoom.answer`: the gap, mm. */
export const ANSWER_GAP = 0;
/** How much tighter the face may still bend before it folds over itself, 1 at ease; a seat is refused below FORM_TIGHTEST. */
export const ANSWER_TIGHTNESS = 1;
/** 1 where the foot lies at an end of the face, where nothing is known of what comes next. */
export const ANSWER_AT_END = 2;

/** Room for one question and its answer; one per solver. What follows `answer` is what a moulding surface works in. */
export interface GapRoom {
  /** The point asked about, (x, y, z). */
  readonly point: Float64Array;
  readonly answer: Float64Array;
  readonly curve: CurveScratch;
  /** Its place over the form (and the foot's parameter), and in the foot's normal plane. */
  readonly at: Float64Array;
  readonly section: Float64Array;
  readonly form: Float64Array;
  readonly profile: Float64Array;
}

export const gapRoom = (): GapRoom => ({
  point: new Float64Array(3),
  answer: new Float64Array(3),
  curve: curveScratch(),
  at: new Float64Array(AT_SIZE),
  section: new Float64Array(2),
  form: new Float64Array(FOOT_OUT),
  profile: new Float64Array(PROFILE_OUT),
});

/** What a rim is seated on: two jaws, or one face for both. An arch is one of these. */
export interface Faces {
  readonly upper: { readonly placed: GapFace };
  readonly lower: { readonly placed: GapFace } | null;
}

/** The same wherever the lower jaw stands: an arch, or scans that stand in for one. */
export interface Mouth {
  /** Null: with the jaw as in the record. */
  at(jaw: JawSpec | null): Faces;
  /** The lower jaw alone, elsewhere; only for a mouth of two jaws. */
  lowerAt(jaw: JawSpec): GapFace;
}
