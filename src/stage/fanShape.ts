/** The path of rim centres and the fan of horn axes as plain arrays: what is drawn is where each pose points. */
import type { Analysis, KnownHorn, LiveFrame, RimPose } from '../core/analysis';
import { axisFromAngles } from '../core/frame';
import { isAngleSeen } from '../core/readings';
import { type Vec3, add, cross, length, normalize, scale, subtract } from '../core/vector';

export interface AxisLine {
  readonly readingIndex: number;
  readonly note: string;
  readonly from: Vec3;
  readonly axis: Vec3;
}

export interface FanPose {
  readonly from: Vec3;
  readonly axis: Vec3;
}

export interface Fan {
  readonly predicted: readonly AxisLine[];
  /**
   * Measured angles, laid on the model's home: both fans agree at home, and differ by what the changes differ. Only where both angles
   * were seen, at the note and at home.
   */
  readonly measured: readonly AxisLine[];
  /** Poses along each way of the path for the sheets and ribbons, in order. */
  readonly sheets: readonly (readonly FanPose[])[];
}

export function fanOf(analysis: Analysis, path: readonly (readonly LiveFrame[])[], horn: 'follow' | 'held'): Fan {
  const home = analysis.home;
  const predicted = analysis.readings.map((reading, readingIndex) => lineOf(reading.follow.pose, readingIndex, reading.note));
  const measured = analysis.readings.flatMap((reading, readingIndex) => {
    // An axis has two angles: where one was not seen, here or at home, there is none to draw.
    if (!reading.measured || !isWhole(reading.measured) || (home.measured && !isWhole(home.measured))) return [];
    const shiftUp = home.measured ? home.follow.pose.elevationDeg - home.measured.elevationDeg : 0;
    const shiftRight = home.measured ? home.follow.pose.lateralDeg - home.measured.lateralDeg : 0;
    const axis = axisFromAngles({
      elevationDeg: reading.measured.elevationDeg + shiftUp,
      lateralDeg: reading.measured.lateralDeg + shiftRight,
    });
    return [{ readingIndex, note: reading.note, from: reading.follow.pose.rimCentreMm, axis }];
  });
  const sheets = path.map((way) =>
    way.map((frame) => {
      const pose = horn === 'held' ? frame.follow.pose : frame.shown;
      return { from: pose.rimCentreMm, axis: pose.axis };
    }));
  return { predicted, measured, sheets };
}

/** Triangles: three coordinates a vertex, three vertices a triangle. */
export interface Shape {
  readonly positions: Float32Array;
  readonly index: Uint32Array;
}

/** The point `along` mm out on an axis. */
export const pointOn = (line: { readonly from: Vec3; readonly axis: Vec3 }, along: number): Vec3 => [
  line.from[0] + line.axis[0] * along,
  line.from[1] + line.axis[1] * along,
  line.from[2] + line.axis[2] * along,
];

/** A strip between two distances along the axes: positions two a pose, and triangles. */
export function stripBetween(poses: readonly FanPose[], near: number, far: number): Shape {
  const positions = new Float32Array(poses.length * 6);
  poses.forEach((pose, place) => {
    positions.set(pointOn(pose, near), place * 6);
    positions.set(pointOn(pose, far), place * 6 + 3);
  });
  const index = poses.slice(1).flatMap((_, place) => {
    const a = place * 2;
    return [a, a + 1, a + 2, a + 2, a + 1, a + 3];
  });
  return { positions, index: Uint32Array.from(index) };
}

/** Points round a tube. */
const TUBE_SIDES = 8;

/** A round tube through points in order; points on top of each other are passed over. */
export function tubeThrough(points: readonly Vec3[], radiusMm: number): Shape {
  const apart = points.filter((point, place) => place === 0 || separation(point, points[place - 1]!) > 1e-4);
  if (apart.length < 2) return { positions: new Float32Array(0), index: new Uint32Array(0) };
  const positions = new Float32Array(apart.length * TUBE_SIDES * 3);
  apart.forEach((point, place) => {
    const before = apart[Math.max(0, place - 1)]!;
    const after = apart[Math.min(apart.length - 1, place + 1)]!;
    const along = normalize(subtract(after, before));
    // Any direction that is not along the tube will do to start from; a path never runs straight out of the mouth.
    const aside = normalize(cross(along, Math.abs(along[2]) < 0.9 ? [0, 0, 1] : [1, 0, 0]));
    const third = cross(along, aside);
    for (let side = 0; side < TUBE_SIDES; side++) {
      const angle = (2 * Math.PI * side) / TUBE_SIDES;
      const ring = add(scale(aside, Math.cos(angle) * radiusMm), scale(third, Math.sin(angle) * radiusMm));
      positions.set(add(point, ring), (place * TUBE_SIDES + side) * 3);
    }
  });
  const index = new Uint32Array((apart.length - 1) * TUBE_SIDES * 6);
  for (let place = 0, at = 0; place + 1 < apart.length; place++) {
    for (let side = 0; side < TUBE_SIDES; side++, at += 6) {
      const a = place * TUBE_SIDES + side;
      const b = place * TUBE_SIDES + ((side + 1) % TUBE_SIDES);
      index.set([a, b, a + TUBE_SIDES, b, b + TUBE_SIDES, a + TUBE_SIDES], at);
    }
  }
  return { positions, index };
}

/** A shape of size 1 made `size` mm large and put at a place, its z axis along `axis`; it stays upright as far as that allows. */
export function placed(shape: Shape, at: Vec3, axis: Vec3, size: number): Shape {
  const level = Math.hypot(axis[0], axis[2]) || 1;
  const aside: Vec3 = [axis[2] / level, 0, -axis[0] / level];
  const up = cross(axis, aside);
  const positions = new Float32Array(shape.positions.length);
  for (let start = 0; start < positions.length; start += 3) {
    const [x, y, z] = [shape.positions[start]! * size, shape.positions[start + 1]! * size, shape.positions[start + 2]! * size];
    for (let part = 0; part < 3; part++) positions[start + part] = at[part]! + aside[part]! * x + up[part]! * y + axis[part]! * z;
  }
  return { positions, index: shape.index };
}

const isWhole = ({ sdDeg, lateralSdDeg }: KnownHorn): boolean => isAngleSeen(sdDeg) && isAngleSeen(lateralSdDeg);

const separation = (a: Vec3, b: Vec3): number => length(subtract(a, b));

const lineOf = (pose: RimPose, readingIndex: number, note: string): AxisLine => ({
  readingIndex,
  note,
  from: pose.rimCentreMm,
  axis: pose.axis,
});
