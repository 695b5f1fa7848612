/** The named views: where the camera stands, and how much of the scene it must hold whatever the picture's shape. */
import type { StageCamera } from './props';

export interface View {
  /** Round the player, degrees: 0 in front, + toward the player's right. */
  readonly azimuthDeg: number;
  /** Above the level, degrees. */
  readonly elevationDeg: number;
  readonly target: readonly [number, number, number];
  /** Half of what must fit across and upright in the target's plane, mm. */
  readonly halfWidthMm: number;
  readonly halfHeightMm: number;
  /** A picture turned left for right, as a mirror shows it: a matter of the picture, never of the data. */
  readonly mirrored: boolean;
}

export const FIELD_OF_VIEW_DEG = 14;
export const STEEPEST_DEG = 88;

/** `reachMm` is how far the fan's tips are from the rim. */
export function viewOf(camera: StageCamera, centre: readonly [number, number, number], reachMm: number): View {
  const [x, y, z] = centre;
  const front = { azimuthDeg: 0, elevationDeg: 4, target: [0, y * 0.5, z], halfWidthMm: 40, halfHeightMm: 29 } as const;
  switch (camera) {
    case 'face':
      return { ...front, mirrored: false };
    case 'mirror':
      return { ...front, mirrored: true };
    case 'side':
      return {
        azimuthDeg: 90,
        elevationDeg: 0,
        target: [x, y, z + reachMm * 0.34],
        halfWidthMm: reachMm * 0.54 + 17,
        halfHeightMm: 26,
        mirrored: false,
      };
    case 'above':
      return {
        azimuthDeg: 0,
        elevationDeg: STEEPEST_DEG,
        target: [0, y, z + reachMm * 0.36],
        halfWidthMm: 46,
        halfHeightMm: reachMm * 0.58 + 18,
        mirrored: false,
      };
    default:
      return {
        azimuthDeg: 34,
        elevationDeg: 15,
        target: [x, y + 5, z + reachMm * 0.3],
        halfWidthMm: reachMm * 0.3 + 33,
        halfHeightMm: 36,
        mirrored: false,
      };
  }
}

/** Distance at which both half extents fit a picture of this aspect. */
export function fitDistance(view: View, aspect: number): number {
  const tangent = Math.tan(((FIELD_OF_VIEW_DEG / 2) * Math.PI) / 180);
  return Math.max(view.halfHeightMm / tangent, view.halfWidthMm / (tangent * aspect));
}
