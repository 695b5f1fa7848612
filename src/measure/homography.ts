/**
 * Maps of one plane onto another as 3 × 3 matrices: from pixels of a picture to millimetres of a card, and back. Four corners give the map of a
 * card seen from any side. Heckbert, "Fundamentals of Texture Mapping and Image Warping" (1989), square to quadrilateral in closed form (value
 * from memory). docs/numerics.md §25.
 */
import type { Point } from './picture';

/** Row by row: (x, y) goes to (m₀x + m₁y + m₂, m₃x + m₄y + m₅)/(m₆x + m₇y + m₈). */
export type PlaneMap = readonly [number, number, number, number, number, number, number, number, number];

export interface CornersMap {
  readonly kind: 'found';
  readonly map: PlaneMap;
}

export interface NoCornersMap {
  readonly kind: 'refused';
  /** line: three corners lie on a line, or two in one place. crossing: taken round in this order, the sides cross or turn inward. */
  readonly reason: 'line' | 'crossing';
}

export type Corners = readonly [Point, Point, Point, Point];

/** Least area of a corner's triangle as a part of the largest one: thinner, a pixel's error turns the card over. Our judgement. */
const THINNEST = 0.02;

/**
 * The map that takes four corners, in order round the card, to (0, 0), (width, 0), (width, height), (0, height): from the first to the second is
 * the width. Throws RangeError for a corner that is no number, or a size that is not above 0.
 */
export function mapOfCorners(corners: Corners, widthMm: number, heightMm: number): CornersMap | NoCornersMap {
  corners.forEach(({ x, y }, at) => {
    if (!(Number.isFinite(x) && Number.isFinite(y))) throw new RangeError(`corners[${at}] (${x}, ${y}): allowed are finite numbers`);
  });
  for (const [field, value] of [['widthMm', widthMm], ['heightMm', heightMm]] as const) {
    if (!(value > 0 && value < Infinity)) throw new RangeError(`${field} ${value}: allowed is above 0`);
  }
  const areas = corners.map((corner, at) => twiceArea(corners[(at + 3) % 4]!, corner, corners[(at + 1) % 4]!));
  const largest = Math.max(...areas.map(Math.abs));
  if (!areas.every((area) => Math.abs(area) > THINNEST * largest)) return { kind: 'refused', reason: 'line' };
  if (!areas.every((area) => Math.sign(area) === Math.sign(areas[0]!))) return { kind: 'refused', reason: 'crossing' };
  const back = inverseMap(squareTo(corners));
  // From the unit square to the card's size.
  return { kind: 'found', map: back.map((value, at) => value * (at < 3 ? widthMm : at < 6 ? heightMm : 1)) as unknown as PlaneMap };
}

/** Where a point goes; throws RangeError for one on the map's horizon. */
export function mapped(map: PlaneMap, { x, y }: Point): Point {
  const below = map[6] * x + map[7] * y + map[8];
  if (!(Math.abs(below) > HORIZON * (Math.abs(map[6] * x) + Math.abs(map[7] * y) + Math.abs(map[8])))) {
    throw new RangeError(`mapped: point (${x}, ${y}); allowed: not on the horizon of the map`);
  }
  return { x: (map[0] * x + map[1] * y + map[2]) / below, y: (map[3] * x + map[4] * y + map[5]) / below };
}

/** Below this part of its terms a sum is rounding. */
const HORIZON = 1e-12;

/** Derivatives of `mapped` at a point: x by x, x by y, y by x, y by y. */
export function mapSlopes(map: PlaneMap, point: Point): readonly [number, number, number, number] {
  const below = map[6] * point.x + map[7] * point.y + map[8];
  const { x, y } = mapped(map, point);
  return [(map[0] - x * map[6]) / below, (map[1] - x * map[7]) / below, (map[3] - y * map[6]) / below, (map[4] - y * map[7]) / below];
}

/** The map back, by the adjugate: up to a factor, which no map feels. */
export function inverseMap([a, b, c, d, e, f, g, h, i]: PlaneMap): PlaneMap {
  return [
    e * i - f * h, c * h - b * i, b * f - c * e,
    f * g - d * i, a * i - c * g, c * d - a * f,
    d * h - e * g, b * g - a * h, a * e - b * d,
  ];
}

/** The unit square's corners (0, 0), (1, 0), (1, 1), (0, 1) to these. */
function squareTo([p0, p1, p2, p3]: Corners): PlaneMap {
  const [sumX, sumY] = [p0.x - p1.x + p2.x - p3.x, p0.y - p1.y + p2.y - p3.y];
  const [x1, x2] = [p1.x - p2.x, p3.x - p2.x];
  const [y1, y2] = [p1.y - p2.y, p3.y - p2.y];
  const all = x1 * y2 - x2 * y1;
  const g = (sumX * y2 - x2 * sumY) / all;
  const h = (x1 * sumY - sumX * y1) / all;
  return [
    p1.x - p0.x + g * p1.x, p3.x - p0.x + h * p3.x, p0.x,
    p1.y - p0.y + g * p1.y, p3.y - p0.y + h * p3.y, p0.y,
    g, h, 1,
  ];
}

const twiceArea = (a: Point, b: Point, c: Point): number => (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
