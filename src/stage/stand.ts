/** Where the rim stands, as plain arrays that the frame loop overwrites: no allocation. */
import type { RimPose } from '../core/analysis';
import type { RimStand } from './lipSheet';

export function createStand(): RimStand {
  return { centre: new Float64Array(3), directions: Float64Array.of(1, 0, 0, 0, 1, 0, 0, 0, 1) };
}

/** The rim's own directions follow from the axis: across is level, up is square to both. */
export function writeStand(pose: RimPose, stand: RimStand): void {
  const { rimCentreMm, axis } = pose;
  const { centre, directions } = stand;
  const level = Math.hypot(axis[0], axis[2]) || 1;
  centre[0] = rimCentreMm[0];
  centre[1] = rimCentreMm[1];
  centre[2] = rimCentreMm[2];
  directions[0] = axis[2] / level;
  directions[1] = 0;
  directions[2] = -axis[0] / level;
  directions[3] = (-axis[1] * axis[0]) / level;
  directions[4] = level;
  directions[5] = (-axis[1] * axis[2]) / level;
  directions[6] = axis[0];
  directions[7] = axis[1];
  directions[8] = axis[2];
}

/** Column-major 4 × 4 of the stand, for a scene object. */
export function standMatrix(stand: RimStand, elements: number[]): void {
  for (let column = 0; column < 3; column++) {
    for (let row = 0; row < 3; row++) elements[column * 4 + row] = stand.directions[column * 3 + row]!;
    elements[column * 4 + 3] = 0;
    elements[12 + column] = stand.centre[column]!;
  }
  elements[15] = 1;
}
