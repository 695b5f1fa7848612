/** One jaw's labial face as a moulding surface in the player's frame: for drawing, fitting and tests (the seat uses jawGap). */
import { CURVE_OUT, type PlaneCurve, curvatureOf, evaluateCurve } from './planarForm';
import { type GapRoom, gapRoom } from './gapFace';
import { AT_END, FOOT_HEIGHT, GAP_OUT, type Jaw, REGION, gapAlone, gapOfJaw } from './jawGap';
import { REGION_FACE, profileAt } from './profile';
import { type ArcLength, createArcLength } from './arcLength';
import type { Vec3 } from './vector';

export interface SurfacePoint {
  /** Signed distance, mm: negative only inside a tooth. */
  readonly gapMm: number;
  readonly normal: Vec3;
  /** Foot: arc length from the midline (+ to the player's left) and height from the edge toward the gum, mm. */
  readonly arcMm: number;
  readonly heightMm: number;
  /** False beyond the incisal edge, the gum's end or an end of the form. */
  readonly interior: boolean;
}

export interface JawSurface {
  readonly jaw: 'upper' | 'lower' | 'single';
  readonly placed: Jaw;
  readonly arcRange: readonly [number, number];
  readonly heightRange: readonly [number, number];
  /** The labial face at arc length s and height h, mm. */
  pointAt(arcMm: number, heightMm: number): Vec3;
  /** Outward unit normal there. */
  normalAt(arcMm: number, heightMm: number): Vec3;
  /** Principal curvatures there, 1/mm, positive where convex outward: κ_form·cos β/(1 + d·κ_form) and the profile's own. */
  curvaturesAt(arcMm: number, heightMm: number): { readonly horizontal: number; readonly vertical: number };
  closest(point: Vec3): SurfacePoint;
  /** The signed distance alone, mm: far less work, as no arc length is asked for. */
  gapAt(point: Vec3): number;
}

/** Drawing reach of a profile without an end of its own, mm. */
const DRAWN_REACH_MM = 30;

/** Arc length costs some hundred evaluations and every move of the jaw shares it: kept with the curve, made when first asked. */
const arcLengths = new WeakMap<PlaneCurve, ArcLength>();

function arcLengthOf(curve: PlaneCurve): ArcLength {
  const ready = arcLengths.get(curve) ?? createArcLength(curve);
  arcLengths.set(curve, ready);
  return ready;
}

export function createJawSurface(name: JawSurface['jaw'], jaw: Jaw): JawSurface {
  const curve = new Float64Array(CURVE_OUT);
  const room: GapRoom = gapRoom();
  const out = new Float64Array(GAP_OUT);
  const warm = new Float64Array(1);

  const toPlayer = (x: number, localY: number, localZ: number): Vec3 => {
    const reach = localZ + jaw.armMm;
    return [
      x,
      localY * jaw.hingeCos - reach * jaw.hingeSin,
      localY * jaw.hingeSin + reach * jaw.hingeCos - jaw.armMm,
    ];
  };
  const turn = (x: number, y: number, z: number): Vec3 => [
    x,
    y * jaw.hingeCos - z * jaw.hingeSin,
    y * jaw.hingeSin + z * jaw.hingeCos,
  ];
  const formAt = (arcMm: number): { nx: number; nz: number; x: number; z: number; curvature: number } => {
    evaluateCurve(jaw.curve, arcLengthOf(jaw.curve).parameterAt(arcMm), curve);
    const speed = Math.hypot(curve[2]!, curve[3]!);
    return { x: curve[0]!, z: curve[1]!, nx: -curve[3]! / speed, nz: curve[2]! / speed, curvature: curvatureOf(curve) };
  };

  return {
    jaw: name,
    placed: jaw,
    get arcRange() {
      return arcLengthOf(jaw.curve).range;
    },
    heightRange: [Math.max(jaw.profile.lowMm, -DRAWN_REACH_MM), Math.min(jaw.profile.highMm, DRAWN_REACH_MM)],
    pointAt(arcMm, heightMm) {
      const form = formAt(arcMm);
      const { offsetMm } = profileAt(jaw.profile, heightMm);
      return toPlayer(
        form.x + offsetMm * form.nx,
        jaw.gumward * heightMm - jaw.openingMm,
        form.z + offsetMm * form.nz + jaw.forwardMm,
      );
    },
    normalAt(arcMm, heightMm) {
      const form = formAt(arcMm);
      const { slope } = profileAt(jaw.profile, heightMm);
      return turn(Math.cos(slope) * form.nx, jaw.gumward * Math.sin(slope), Math.cos(slope) * form.nz);
    },
    curvaturesAt(arcMm, heightMm) {
      const form = formAt(arcMm);
      const { offsetMm, slope, curvature } = profileAt(jaw.profile, heightMm);
      return {
        horizontal: (form.curvature * Math.cos(slope)) / (1 + offsetMm * form.curvature),
        vertical: curvature,
      };
    },
    gapAt(point) {
      warm[0] = NaN;
      room.point.set(point);
      gapAlone(jaw, warm, 0, room);
      return room.profile[0]!;
    },
    closest(point) {
      warm[0] = NaN;
      gapOfJaw(jaw, point[0], point[1], point[2], warm, 0, room, out);
      return {
        gapMm: out[0]!,
        normal: [out[1]!, out[2]!, out[3]!],
        arcMm: arcLengthOf(jaw.curve).lengthAt(warm[0]),
        heightMm: out[FOOT_HEIGHT]!,
        interior: out[REGION] === REGION_FACE && out[AT_END] === 0,
      };
    },
  };
}
