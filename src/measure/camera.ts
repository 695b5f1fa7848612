/**
 * A pinhole camera without distortion. The camera's frame: origin at its centre, mm, x to the picture's right, y down, z forward into
 * the scene; the optical axis goes through the picture's middle ((width − 1)/2, (height − 1)/2), pixel centres being whole numbers.
 */
import type { Vec3 } from '../core/vector';
import type { CameraSpec } from './marks';
import type { Point } from './picture';

/** The diagonal of a 36 × 24 mm picture, by which equivalent focal lengths are told, mm. */
const FULL_FRAME_DIAGONAL_MM = Math.hypot(36, 24);
/**
 * Nobody says through what a film was taken: phones' main cameras are 24 to 32 mm, their second ones and what is zoomed to 120 and more, and a player is
 * filmed from where there is room. Two deviations of its logarithm are 14 to 150 mm: a judgement, the figures from memory.
 */
const UNKNOWN_EQUIVALENT_MM = 45;
const UNKNOWN_RELATIVE_SD = 0.6;

/** Focal length in px for a focal length told as the equivalent on 36 × 24 mm film (by diagonal). */
export function focalFromEquivalent(equivalentMm: number, width: number, height: number): number {
  requireAbove0('equivalentMm', equivalentMm);
  requireAbove0('width', width);
  requireAbove0('height', height);
  return (equivalentMm / FULL_FRAME_DIAGONAL_MM) * Math.hypot(width, height);
}

/** A camera of whose lens nobody knows anything. From the front a film tells it by itself, to some percent (headFromFilm.ts). */
export function unknownCamera(width: number, height: number): CameraSpec {
  return { width, height, focalPx: focalFromEquivalent(UNKNOWN_EQUIVALENT_MM, width, height), focalRelativeSd: UNKNOWN_RELATIVE_SD };
}

/** Throws a RangeError that names the field unless the camera can be computed with. */
export function checkCamera(camera: CameraSpec): void {
  requireAbove0('camera.width', camera.width);
  requireAbove0('camera.height', camera.height);
  requireAbove0('camera.focalPx', camera.focalPx);
  if (!(camera.focalRelativeSd >= 0 && camera.focalRelativeSd < 1)) {
    throw new RangeError(`camera.focalRelativeSd ${camera.focalRelativeSd}: allowed is 0 or more and below 1`);
  }
}

export function middleOf(camera: CameraSpec): Point {
  return { x: (camera.width - 1) / 2, y: (camera.height - 1) / 2 };
}

/** Where a point of the camera's frame is seen, px; throws for one that is not before the camera. */
export function project(camera: CameraSpec, point: Vec3): Point {
  if (!(point[2] > 0)) throw new RangeError(`project: point (${point.join(', ')}); allowed: z above 0, before the camera`);
  const middle = middleOf(camera);
  return {
    x: middle.x + (camera.focalPx * point[0]) / point[2],
    y: middle.y + (camera.focalPx * point[1]) / point[2],
  };
}

/** Unit vector from the camera's centre through a pixel. */
export function rayOf(camera: CameraSpec, pixel: Point): Vec3 {
  const middle = middleOf(camera);
  const x = (pixel.x - middle.x) / camera.focalPx;
  const y = (pixel.y - middle.y) / camera.focalPx;
  const size = Math.hypot(x, y, 1);
  return [x / size, y / size, 1 / size];
}

/** An ellipse by its centre (px) and the matrix E of (p − centre)ᵀ E⁻¹ (p − centre) = 1, px². */
export interface EllipseForm {
  readonly centre: Point;
  readonly xx: number;
  readonly xy: number;
  readonly yy: number;
}

/**
 * The exact ellipse of a circle with this centre (mm), unit normal and radius; null where the circle reaches the camera's plane.
 * The lines that touch the picture of the circle satisfy lᵀ D l = 0 with D = c·cᵀ − r²(1 − n·nᵀ), written in picture coordinates
 * of focal length 1; of an ellipse D is (m·mᵀ − E, m; mᵀ, 1) up to a factor. Hartley and Zisserman, Multiple View Geometry,
 * dual conics (value from memory).
 */
export function circleForm(camera: CameraSpec, centre: Vec3, normal: Vec3, radiusMm: number): EllipseForm | null {
  const [cx, cy, cz] = centre;
  const [nx, ny, nz] = normal;
  const square = radiusMm * radiusMm;
  const last = cz * cz - square * (1 - nz * nz);
  if (!(last > 0 && cz > 0)) return null;
  const mx = (cx * cz + square * nx * nz) / last;
  const my = (cy * cz + square * ny * nz) / last;
  const f = camera.focalPx;
  const middle = middleOf(camera);
  return {
    centre: { x: middle.x + f * mx, y: middle.y + f * my },
    xx: f * f * (mx * mx - (cx * cx - square * (1 - nx * nx)) / last),
    xy: f * f * (mx * my - (cx * cy + square * nx * ny) / last),
    yy: f * f * (my * my - (cy * cy - square * (1 - ny * ny)) / last),
  };
}

function requireAbove0(field: string, value: number): void {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${field} ${value}: allowed is above 0 and finite`);
}
