/** What every named view has to hold: both jaws, the lips before the front teeth, the rim wherever a note puts it, horn and fan. */
import type { Analysis } from '../core/analysis';
import { axisFromAngles } from '../core/frame';
import type { JawSpec, LipsSpec, RimSpec } from '../core/specs';
import { type Vec3, add, scale } from '../core/vector';
import { gumEnd } from './gumShape';
import { jawMove, movedPoint } from './jawMove';
import type { DrawnJaw } from './Mouth';

/** How far rim and horn range over all notes, rounded outward so that the camera stays where it is through small changes. */
export interface Spread {
  readonly elevationDeg: readonly [number, number];
  readonly lateralDeg: readonly [number, number];
  readonly xMm: readonly [number, number];
  readonly yMm: readonly [number, number];
  readonly zMm: readonly [number, number];
}

const ANGLE_STEP_DEG = 4;
const ANGLE_AIR_DEG = 1;
const PLACE_STEP_MM = 2;
const PLACE_AIR_MM = 0.5;

export function spreadOf({ home, readings }: Analysis): Spread {
  const poses = [home.follow.pose, ...readings.map((reading) => reading.follow.pose)];
  const angles = (values: readonly number[]): readonly [number, number] => outward(values, ANGLE_STEP_DEG, ANGLE_AIR_DEG);
  const places = (axis: 0 | 1 | 2): readonly [number, number] =>
    outward(poses.map((pose) => pose.rimCentreMm[axis]), PLACE_STEP_MM, PLACE_AIR_MM);
  return {
    elevationDeg: angles(poses.map((pose) => pose.elevationDeg)),
    lateralDeg: angles(poses.map((pose) => pose.lateralDeg)),
    xMm: places(0),
    yMm: places(1),
    zMm: places(2),
  };
}

/**
 * Whether notes now reach so far beyond a spread that the picture must be framed anew. One step more stays within the picture's margin,
 * and a picture that shifts when the rim is let go would be worse.
 */
export function outgrows(now: Spread, kept: Spread): boolean {
  const beyond = (key: keyof Spread, step: number): boolean => now[key][0] < kept[key][0] - step || now[key][1] > kept[key][1] + step;
  return (
    beyond('elevationDeg', ANGLE_STEP_DEG) || beyond('lateralDeg', ANGLE_STEP_DEG) ||
    beyond('xMm', PLACE_STEP_MM) || beyond('yMm', PLACE_STEP_MM) || beyond('zMm', PLACE_STEP_MM)
  );
}

interface Scene {
  readonly jaws: readonly DrawnJaw[];
  /** Where the lower jaw stands as drawn, and where else notes put it. */
  readonly own: JawSpec | null;
  readonly elsewhere: readonly JawSpec[];
  readonly lips: LipsSpec;
  readonly rim: RimSpec;
  readonly lengthMm: number;
}

/** Lips are drawn as far as their corners; beyond, they fade. */
const LIP_ARC_MM = 27;
const GUM_DEPTH_MM = 9;
/** Marks at the fan's tips, and the rim's own roundness. */
const MARK_MM = 1.5;
const AROUND = [0, 1, 2, 3, 4, 5, 6, 7].map((eighth) => (eighth * Math.PI) / 4);

/** `spread` null: the mouth alone. */
export function scenePoints(scene: Scene, spread: Spread | null): Vec3[] {
  return [...mouthPoints(scene), ...(spread === null ? [] : hornPoints(scene, spread))];
}

function mouthPoints({ jaws, own, elsewhere, lips }: Scene): Vec3[] {
  return jaws.flatMap(({ face, teeth }) => {
    const ends = teeth.flatMap((tooth) => [-0.5, 0, 0.5].map((part) => tooth.arcMm + part * tooth.measures.widthMm));
    const lipMm = (face.upper ? lips.upper : lips.lower).thicknessMm;
    const points = ends.flatMap((arc) => {
      const normal = face.normalAt(arc, 0);
      const level = Math.hypot(normal[0], normal[2]) || 1;
      const back: Vec3 = [(-normal[0] / level) * GUM_DEPTH_MM, 0, (-normal[2] / level) * GUM_DEPTH_MM];
      const edge = face.pointAt(arc, 0);
      const end = face.pointAt(arc, gumEnd(face));
      const lip = Math.abs(arc) <= LIP_ARC_MM ? [add(edge, scale(normal, lipMm)), add(end, scale(face.normalAt(arc, gumEnd(face)), lipMm))] : [];
      return [edge, end, add(end, back), ...lip];
    });
    return face.upper ? points : [own, ...elsewhere].flatMap((jaw) => points.map((point) => movedPoint(point, jawMove(own, jaw))));
  });
}

function hornPoints({ rim, lengthMm }: Scene, spread: Spread): Vec3[] {
  const centres = corners(spread.xMm, spread.yMm).flatMap(([x, y]) => spread.zMm.map((z): Vec3 => [x, y, z]));
  const axes = corners(spread.elevationDeg, spread.lateralDeg).map(([elevationDeg, lateralDeg]) => axisFromAngles({ elevationDeg, lateralDeg }));
  const radius = rim.outerDiameterMm / 2 + MARK_MM;
  return centres.flatMap((centre) => [
    ...AROUND.map((angle): Vec3 => [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle), centre[2]]),
    ...axes.flatMap((axis) => {
      const tip = add(centre, scale(axis, lengthMm));
      return [MARK_MM, -MARK_MM].flatMap((mm): Vec3[] => [[tip[0] + mm, tip[1], tip[2] + mm], [tip[0], tip[1] + mm, tip[2] + mm]]);
    }),
  ]);
}

function corners(first: readonly [number, number], second: readonly [number, number]): readonly (readonly [number, number])[] {
  return first.flatMap((one) => second.map((other) => [one, other] as const));
}

function outward(values: readonly number[], step: number, air: number): readonly [number, number] {
  return [Math.floor((Math.min(...values) - air) / step) * step, Math.ceil((Math.max(...values) + air) / step) * step];
}
