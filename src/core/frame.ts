/**
 * The only place where people's signs (up, to the player's right; degrees) meet the frame's
 * (x to the player's left, y up, z forward; radians). Definitions: docs/model.md, "Frame and signs".
 */
import type { HornAngles } from './analysis';
import { type Vec3, length } from './vector';

const DEGREE = Math.PI / 180;

export const toRadians = (degrees: number): number => degrees * DEGREE;
export const toDegrees = (radians: number): number => radians / DEGREE;

/** Frontal position in the frame, mm, from travel in people's words. */
export function frontalPosition(upMm: number, rightMm: number): { readonly x: number; readonly y: number } {
  return { x: -rightMm, y: upMm };
}

/** People's travel (up, right) in mm from a frontal displacement in the frame. */
export function travelFromFrontal(x: number, y: number): { readonly upMm: number; readonly rightMm: number } {
  return { upMm: y, rightMm: x === 0 ? 0 : -x };
}

/** Unit vector from mouth to bell for angles in radians. */
export function axisFromRadians(elevation: number, lateral: number): Vec3 {
  return [
    -Math.sin(lateral) * Math.cos(elevation),
    Math.sin(elevation),
    Math.cos(lateral) * Math.cos(elevation),
  ];
}

/** Unit vector from mouth to bell for people's angles. */
export function axisFromAngles(angles: HornAngles): Vec3 {
  return axisFromRadians(toRadians(angles.elevationDeg), toRadians(angles.lateralDeg));
}

/** People's angles of a direction from mouth to bell (need not be a unit vector; not straight up or down). */
export function anglesFromAxis(axis: Vec3): HornAngles {
  const size = length(axis);
  if (!(size > 0)) throw new RangeError(`anglesFromAxis: axis (${axis.join(', ')}); allowed: length > 0`);
  return {
    elevationDeg: toDegrees(Math.atan2(axis[1], Math.hypot(axis[0], axis[2]))),
    lateralDeg: toDegrees(Math.atan2(axis[0] === 0 ? 0 : -axis[0], axis[2])),
  };
}

/** What a photograph taken square from the side shows of a horn angle: atan2(axis_y, axis_z), not the elevation. */
export function sideViewDegrees(angles: HornAngles): number {
  const axis = axisFromAngles(angles);
  return toDegrees(Math.atan2(axis[1], axis[2]));
}

/** The rim's own directions for a horn at (elevation, lateral), radians: across (to the player's left), up, axis. */
export function rimDirections(
  elevation: number,
  lateral: number,
): { readonly across: Vec3; readonly up: Vec3; readonly axis: Vec3 } {
  const ce = Math.cos(elevation);
  const se = Math.sin(elevation);
  const cl = Math.cos(lateral);
  const sl = Math.sin(lateral);
  return { across: [cl, 0, sl], up: [se * sl, ce, -se * cl], axis: [-sl * ce, se, cl * ce] };
}
