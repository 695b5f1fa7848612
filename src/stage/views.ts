/** The named views: from where the camera looks, and how far off it stands so that the whole scene fits, whatever the picture's shape. */
import { type Vec3, dot } from '../core/vector';
import type { StageCamera } from './props';

interface Direction {
  readonly azimuthDeg: number;
  /** Above the level, degrees. */
  readonly elevationDeg: number;
}

export interface View {
  /** Round the player, degrees: 0 in front, + toward the player's right; of several, the one that fits the picture's shape best. */
  readonly azimuthsDeg: readonly number[];
  /** Above the level, degrees. */
  readonly elevationDeg: number;
  /** What must be in the picture. */
  readonly points: readonly Vec3[];
  /** A picture turned left for right, as a mirror shows it: a matter of the picture, never of the data. */
  readonly mirrored: boolean;
}

export const FIELD_OF_VIEW_DEG = 14;
export const STEEPEST_DEG = 88;
/** Free part of the picture at each edge. */
export const MARGIN = 0.07;

const DIRECTIONS: Record<StageCamera, Pick<View, 'azimuthsDeg' | 'elevationDeg'>> = {
  face: { azimuthsDeg: [0], elevationDeg: 4 },
  mirror: { azimuthsDeg: [0], elevationDeg: 4 },
  side: { azimuthsDeg: [90], elevationDeg: 0 },
  // The horn points down the picture, or along it as seen from the side.
  above: { azimuthsDeg: [0, 90], elevationDeg: STEEPEST_DEG },
  'three-quarter': { azimuthsDeg: [34], elevationDeg: 15 },
};

export function viewOf(camera: StageCamera, points: readonly Vec3[]): View {
  return { ...DIRECTIONS[camera], points, mirrored: camera === 'mirror' };
}

export interface Fit extends Direction {
  /** What the camera looks at. */
  readonly target: Vec3;
  readonly distance: number;
}

/** The camera's place for a view: on the direction from which it can come nearest. */
export function fitView(view: View, aspect: number): Fit {
  const fits = view.azimuthsDeg.map((azimuthDeg) => fitFrom({ azimuthDeg, elevationDeg: view.elevationDeg }, view.points, aspect));
  return fits.reduce((best, fit) => (fit.distance < best.distance ? fit : best));
}

/**
 * The nearest place on the view's direction from which all points lie within the picture less its margins. Across: each point at
 * right r and depth d toward the camera asks |r − centre| ≤ t·(distance − d); the two tightest askers give centre and distance.
 */
function fitFrom(direction: Direction, points: readonly Vec3[], aspect: number): Fit {
  const { right, up, toward } = directionsOf(direction);
  const tangent = Math.tan(((FIELD_OF_VIEW_DEG / 2) * Math.PI) / 180) * (1 - 2 * MARGIN);
  const across = fitAlong(points, right, toward, tangent * aspect);
  const upright = fitAlong(points, up, toward, tangent);
  const distance = Math.max(across.distance, upright.distance);
  const target: Vec3 = [0, 1, 2].map((axis) => right[axis]! * across.centre + up[axis]! * upright.centre) as unknown as Vec3;
  return { ...direction, target, distance };
}

/** The camera's own directions: to the right of the picture, up in it, and from the target toward the camera. */
export function directionsOf({ azimuthDeg, elevationDeg }: Direction): {
  readonly right: Vec3;
  readonly up: Vec3;
  readonly toward: Vec3;
} {
  const azimuth = (azimuthDeg * Math.PI) / 180;
  const elevation = (elevationDeg * Math.PI) / 180;
  const [ca, sa, ce, se] = [Math.cos(azimuth), Math.sin(azimuth), Math.cos(elevation), Math.sin(elevation)];
  return { right: [ca, 0, sa], up: [sa * se, ce, -ca * se], toward: [-sa * ce, se, ca * ce] };
}

function fitAlong(points: readonly Vec3[], along: Vec3, toward: Vec3, tangent: number): { readonly centre: number; readonly distance: number } {
  let high = -Infinity;
  let low = -Infinity;
  for (const point of points) {
    const place = dot(point, along);
    const depth = tangent * dot(point, toward);
    high = Math.max(high, place + depth);
    low = Math.max(low, depth - place);
  }
  return { centre: (high - low) / 2, distance: (high + low) / (2 * tangent) };
}
