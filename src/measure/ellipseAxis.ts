/**
 * The plane of a circle of known diameter from the ellipse it is seen as, exactly under a pinhole camera. The camera's frame: mm, x to
 * the picture's right, y down, z away from the camera; the optical axis goes through the picture's middle. Formulas: docs/numerics.md §18.
 */
import { type Vec3, add, cross, dot, length, normalize, scale, subtract } from '../core/vector';
import { type Covariance5, type EllipseForm, formFrom, formOf, numbersOf } from './ellipseForm';
import type { CameraSpec } from './marks';
import type { Point } from './picture';
import { symmetricEigen } from './symmetricEigen';
import type { RimEllipse } from './traces';

export interface CirclePlane {
  /** Unit normal, on the side that the camera sees: for a rim, from the mouth toward the bell. */
  readonly axis: Vec3;
  /** The circle's centre, mm. */
  readonly centreMm: Vec3;
}

export interface SeenCirclePlane extends CirclePlane {
  /** Between the normal and the line of sight to the centre, degrees. */
  readonly tiltDeg: number;
  /** Deviation of the normal in the plane of normal and line of sight, and across it, degrees. */
  readonly tiltSdDeg: number;
  readonly acrossSdDeg: number;
  /** 3 × 3, of the normal (no unit) and of the centre (mm²). */
  readonly axisCovariance: readonly (readonly number[])[];
  readonly centreCovariance: readonly (readonly number[])[];
}

/**
 * Both planes whose circle of this diameter is seen as the ellipse. One picture of the circle cannot tell them apart; for a circle seen
 * straight on they are one. Throws RangeError where diameter, camera or ellipse are no numbers of their kind.
 */
export function circlePlanes(ellipse: RimEllipse, camera: CameraSpec, diameterMm: number): readonly [CirclePlane, CirclePlane] {
  checkInput(ellipse, camera, diameterMm);
  return planesOf(formOf(ellipse), camera, camera.focalPx, diameterMm / 2);
}

/** The same with deviations from the ellipse's own and the camera's focal length. `covariance` is of the form (ellipseForm.ts). */
export function circlePlanesSeen(
  ellipse: RimEllipse,
  covariance: Covariance5,
  camera: CameraSpec,
  diameterMm: number,
): readonly [SeenCirclePlane, SeenCirclePlane] {
  checkInput(ellipse, camera, diameterMm);
  const form = formOf(ellipse);
  const planes = planesOf(form, camera, camera.focalPx, diameterMm / 2);
  const nearby = sigmaPoints(form, covariance, camera).map(({ moved, focalPx }) => planesOf(moved, camera, focalPx, diameterMm / 2));
  return [withDeviation(planes[0], nearby), withDeviation(planes[1], nearby)];
}

/** Of the two planes the one whose normal, seen from the centre, runs toward a mark on the tube in front of it; px. */
export function planeTowardMark<T extends CirclePlane>(planes: readonly [T, T], camera: CameraSpec, mark: Point): T {
  const towardMark = (plane: T): number => {
    const [near, far] = [plane.centreMm, add(plane.centreMm, plane.axis)].map((place) => pixelOf(camera, place));
    const [dx, dy] = [far!.x - near!.x, far!.y - near!.y];
    const [mx, my] = [mark.x - near!.x, mark.y - near!.y];
    // Angles between the two ways, not lengths: where on the tube the mark is does not matter.
    return Math.abs(Math.atan2(dx * my - dy * mx, dx * mx + dy * my));
  };
  return towardMark(planes[0]) <= towardMark(planes[1]) ? planes[0] : planes[1];
}

function planesOf(form: EllipseForm, camera: CameraSpec, focalPx: number, radiusMm: number): readonly [CirclePlane, CirclePlane] {
  const cone = coneOf(form, camera, focalPx);
  const { values, vectors } = symmetricEigen(cone);
  const [low, middle, high] = [values[0]!, values[1]!, values[2]!];
  const [lowWay, highWay] = [vectors[0]!, vectors[2]!];
  const alongHigh = Math.sqrt((high - middle) / (high - low));
  const alongLow = Math.sqrt((middle - low) / (high - low));
  const planeFor = (sign: number): CirclePlane => {
    const normal = [0, 1, 2].map((i) => sign * alongHigh * highWay[i]! + alongLow * lowWay[i]!) as unknown as Vec3;
    // The centre is where the cone's own slope in the plane vanishes: along cone⁻¹·normal.
    const toCentre = [0, 1, 2].map((i) =>
      values.reduce((sum, value, k) => sum + (vectors[k]![i]! * dot(vectors[k] as unknown as Vec3, normal)) / value, 0),
    ) as unknown as Vec3;
    const reach = radiusMm * Math.sqrt(-middle / dot(normal, toCentre));
    const centreMm = scale(toCentre, toCentre[2] > 0 ? reach : -reach);
    return { axis: dot(normal, centreMm) < 0 ? normal : scale(normal, -1), centreMm };
  };
  return [planeFor(1), planeFor(-1)];
}

/** The cone of rays through the ellipse: raysᵀ·C·rays = 0, negative inside. */
function coneOf(form: EllipseForm, camera: CameraSpec, focalPx: number): number[][] {
  const x = (form.x - (camera.width - 1) / 2) / focalPx;
  const y = (form.y - (camera.height - 1) / 2) / focalPx;
  const [first, both, second] = [(form.mean + form.p) / focalPx, form.q / focalPx, (form.mean - form.p) / focalPx];
  const area = first * second - both * both;
  const [ia, ib, ic] = [second / area, -both / area, first / area];
  const [xx, xy, yy] = [ia * ia + ib * ib, ib * (ia + ic), ib * ib + ic * ic];
  const [px, py] = [-(xx * x + xy * y), -(xy * x + yy * y)];
  const cone = [
    [xx, xy, px],
    [xy, yy, py],
    [px, py, -(px * x + py * y) - 1],
  ];
  const largest = xx + yy;
  return cone.map((row) => row.map((value) => value / largest));
}

/** Three-point Gauss–Hermite reach: with it squares and fourth powers are summed exactly. */
const REACH = Math.sqrt(3);
const REACH_WEIGHT = 1 / 6;

/** The ellipse and the focal length moved by REACH deviations along each independent direction, both ways. */
function sigmaPoints(form: EllipseForm, covariance: Covariance5, camera: CameraSpec): { moved: EllipseForm; focalPx: number }[] {
  const { values, vectors } = symmetricEigen(covariance);
  const moves = values.flatMap((value, index) => {
    const far = REACH * Math.sqrt(Math.max(0, value));
    return [far, -far].map((by) => ({ moved: keptThin(formFrom(numbersOf(form).map((number, i) => number + by * vectors[index]![i]!))), focalPx: camera.focalPx }));
  });
  const focal = [REACH, -REACH].map((by) => ({ moved: form, focalPx: camera.focalPx * Math.exp(by * camera.focalRelativeSd) }));
  return [...moves, ...focal];
}

/** Deviations larger than a thin ellipse's own width stop at an ellipse that still has one. */
const THINNEST = 0.01;
function keptThin(form: EllipseForm): EllipseForm {
  const mean = Math.max(form.mean, Number.MIN_VALUE);
  const half = Math.hypot(form.p, form.q);
  const most = mean * (1 - THINNEST);
  return half > most ? { ...form, mean, p: (form.p * most) / half, q: (form.q * most) / half } : { ...form, mean };
}

function withDeviation(plane: CirclePlane, nearby: readonly (readonly [CirclePlane, CirclePlane])[]): SeenCirclePlane {
  const same = nearby.map(([one, other]) => (dot(one.axis, plane.axis) >= dot(other.axis, plane.axis) ? one : other));
  const axisCovariance = spread(same.map(({ axis }) => subtract(axis, plane.axis)));
  const centreCovariance = spread(same.map(({ centreMm }) => subtract(centreMm, plane.centreMm)));
  const sight = normalize(scale(plane.centreMm, -1));
  const sideways = cross(sight, plane.axis);
  const across = length(sideways) > 0 ? normalize(sideways) : normalize(cross(sight, [sight[1], sight[2], -sight[0]]));
  const within = cross(across, plane.axis);
  const sdDeg = (way: Vec3): number =>
    (180 / Math.PI) * Math.sqrt(Math.max(0, way.reduce((sum, value, i) => sum + value * way.reduce((inner, other, j) => inner + other * axisCovariance[i]![j]!, 0), 0)));
  return {
    ...plane,
    tiltDeg: (180 / Math.PI) * Math.atan2(length(sideways), dot(sight, plane.axis)),
    tiltSdDeg: sdDeg(within),
    acrossSdDeg: sdDeg(across),
    axisCovariance,
    centreCovariance,
  };
}

function spread(moves: readonly Vec3[]): number[][] {
  return [0, 1, 2].map((i) => [0, 1, 2].map((j) => REACH_WEIGHT * moves.reduce((sum, move) => sum + move[i]! * move[j]!, 0)));
}

function pixelOf(camera: CameraSpec, [x, y, z]: Vec3): Point {
  return { x: (camera.width - 1) / 2 + (camera.focalPx * x) / z, y: (camera.height - 1) / 2 + (camera.focalPx * y) / z };
}

function checkInput(ellipse: RimEllipse, camera: CameraSpec, diameterMm: number): void {
  const above0 = (field: string, value: number): void => {
    if (!(value > 0 && value < Infinity)) throw new RangeError(`${field} ${value}: allowed is above 0`);
  };
  above0('diameterMm', diameterMm);
  above0('camera.focalPx', camera.focalPx);
  above0('ellipse.semiMinorPx', ellipse.semiMinorPx);
  if (!(ellipse.semiMajorPx >= ellipse.semiMinorPx)) {
    throw new RangeError(`ellipse.semiMajorPx ${ellipse.semiMajorPx}: allowed is the semi-minor, ${ellipse.semiMinorPx}, or more`);
  }
}
