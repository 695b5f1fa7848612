/** The path of rim centres and the fan of horn axes as plain arrays: what is drawn is where each pose points. */
import type { Analysis, LiveFrame, RimPose } from '../core/analysis';
import { axisFromAngles } from '../core/frame';
import type { Vec3 } from '../core/vector';

export interface AxisLine {
  readonly readingIndex: number;
  readonly note: string;
  readonly from: Vec3;
  readonly axis: Vec3;
}

export interface Fan {
  readonly predicted: readonly AxisLine[];
  /** Measured angles, laid on the model's home: both fans agree at home, and differ by what the changes differ. */
  readonly measured: readonly AxisLine[];
  /** Poses along the whole path for the sheet and the ribbon, in order. */
  readonly sheet: readonly { readonly from: Vec3; readonly axis: Vec3 }[];
}

export function fanOf(analysis: Analysis, path: readonly LiveFrame[], horn: 'follow' | 'held'): Fan {
  const home = analysis.home;
  const predicted = analysis.readings.map((reading, readingIndex) => lineOf(reading.follow.pose, readingIndex, reading.note));
  const measured = analysis.readings.flatMap((reading, readingIndex) => {
    if (!reading.measured) return [];
    const shiftUp = home.measured ? home.follow.pose.elevationDeg - home.measured.elevationDeg : 0;
    const shiftRight = home.measured ? home.follow.pose.lateralDeg - home.measured.lateralDeg : 0;
    const axis = axisFromAngles({
      elevationDeg: reading.measured.elevationDeg + shiftUp,
      lateralDeg: reading.measured.lateralDeg + shiftRight,
    });
    return [{ readingIndex, note: reading.note, from: reading.follow.pose.rimCentreMm, axis }];
  });
  const sheet = path.map((frame) => {
    const pose = horn === 'held' ? frame.follow.pose : frame.shown;
    return { from: pose.rimCentreMm, axis: pose.axis };
  });
  return { predicted, measured, sheet };
}

/** The point `along` mm out on an axis. */
export const pointOn = (line: { readonly from: Vec3; readonly axis: Vec3 }, along: number): Vec3 => [
  line.from[0] + line.axis[0] * along,
  line.from[1] + line.axis[1] * along,
  line.from[2] + line.axis[2] * along,
];

/** A strip between two distances along the axes: positions two a pose, and triangles. */
export function stripBetween(
  poses: Fan['sheet'],
  near: number,
  far: number,
): { readonly positions: Float32Array; readonly index: Uint32Array } {
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

const lineOf = (pose: RimPose, readingIndex: number, note: string): AxisLine => ({
  readingIndex,
  note,
  from: pose.rimCentreMm,
  axis: pose.axis,
});
