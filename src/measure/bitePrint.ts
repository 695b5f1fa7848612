/**
 * A bite print in a picture, in millimetres of its card: by the card's corners, by something round lying beside it, or by a stretch of a ruler.
 * What marks put by hand err by is passed on: each point gets its own deviation, and the size that all share a common one. docs/numerics.md §25.
 */
import { lowerRoot } from '../core/smallSystem';
import { HAND_SD_PX, fitEllipse } from './ellipseFit';
import { formFrom, numbersOf } from './ellipseForm';
import { type Corners, type PlaneMap, mapOfCorners, mapSlopes, mapped } from './homography';
import type { Point } from './picture';

/** What is known of a length, as it was marked and typed. */
export type PrintScale =
  | { readonly by: 'card'; readonly corners: Corners; readonly widthMm: number; readonly heightMm: number }
  | { readonly by: 'circle'; readonly points: readonly Point[]; readonly diameterMm: number }
  | { readonly by: 'ruler'; readonly from: Point; readonly to: Point; readonly lengthMm: number };

export interface PrintPoint {
  readonly xMm: number;
  readonly yMm: number;
  /** One deviation, each way: of the mark itself, and of what the scale's marks do to it beyond its size. */
  readonly sdMm: number;
}

export interface PrintInMm {
  readonly kind: 'converted';
  readonly points: readonly PrintPoint[];
  /** One deviation of the size that all points share, as a part of it. */
  readonly scalePart: number;
  /** Pixels to millimetres. */
  readonly map: PlaneMap;
  /** Millimetres of a pixel at the print's middle. */
  readonly mmPerPx: number;
  /** By the picture the card's sides are likelier the other way round: its width was typed for its height, or the corners begin at the next one. */
  readonly isTurned: boolean;
}

export interface NoPrint {
  readonly kind: 'refused';
  /**
   * corners-line, corners-crossing: as in homography.ts. circle-few, circle-none: fewer than five points of it, or no ellipse through them.
   * ruler-short: its ends lie in one place. behind: a tooth's mark lies beyond the card's horizon, so that a corner must be wrong. unsure: what a
   * hand errs by in the scale's marks leaves the size, or a tooth's place, as good as open.
   */
  readonly reason: 'corners-line' | 'corners-crossing' | 'circle-few' | 'circle-none' | 'ruler-short' | 'behind' | 'unsure';
}

/** A ruler's stretch below this tells no scale, px. */
const SHORTEST_RULER_PX = 10;

/** A size less sure than this part of itself, one deviation, tells no more of an arch than is known of anybody's: canine widths spread by 4 %. */
const MOST_SCALE_PART = 0.05;
/** A tooth's place less sure than this, one deviation each way, mm, could be any of its neighbours'. */
const MOST_POINT_SD_MM = 5;

/**
 * Millimetres, y down as in the picture, origin and turn as they fall. A round thing evens out a tilt as far as one far away would be seen
 * tilted; a ruler evens out none. Throws RangeError for a typed length that is not above 0.
 */
export function printInMm(scale: PrintScale, teeth: readonly Point[]): PrintInMm | NoPrint {
  const reference = referenceOf(scale);
  if (reference.kind === 'refused') return reference;
  const { map } = reference;
  if (teeth.length === 0) return { kind: 'converted', points: [], scalePart: 0, map, mmPerPx: 0, isTurned: isTurned(scale) };
  const side = Math.sign(below(map, reference.inside));
  if (teeth.some((tooth) => Math.sign(below(map, tooth)) !== side)) return { kind: 'refused', reason: 'behind' };
  const places = teeth.map((tooth) => mapped(map, tooth));
  const middle = meanOf(places);
  const spread = places.reduce((sum, place) => sum + squareOf(minus(place, middle)), 0);
  let size = 0;
  const beyond = places.map(() => 0);
  // What each independent error of the scale's marks does: a shift and a turn of all points mean nothing, their size is shared, the rest is each one's own.
  for (const moved of reference.moved) {
    const by = teeth.map((tooth, at) => minus(mapped(moved, tooth), places[at]!));
    const shift = meanOf(by);
    let [along, across] = [0, 0];
    places.forEach((place, at) => {
      const [arm, off] = [minus(place, middle), minus(by[at]!, shift)];
      along += arm.x * off.x + arm.y * off.y;
      across += arm.x * off.y - arm.y * off.x;
    });
    const [grown, turned] = spread > 0 ? [along / spread, across / spread] : [0, 0];
    size += grown ** 2;
    places.forEach((place, at) => {
      const [arm, off] = [minus(place, middle), minus(by[at]!, shift)];
      beyond[at]! += squareOf({ x: off.x - grown * arm.x + turned * arm.y, y: off.y - grown * arm.y - turned * arm.x }) / 2;
    });
  }
  const points = places.map(({ x, y }, at) => ({ xMm: x, yMm: y, sdMm: Math.sqrt((HAND_SD_PX * scaleAt(map, teeth[at]!)) ** 2 + beyond[at]!) }));
  const scalePart = Math.sqrt(size);
  if (!(scalePart <= MOST_SCALE_PART && points.every(({ sdMm }) => sdMm <= MOST_POINT_SD_MM))) return { kind: 'refused', reason: 'unsure' };
  return {
    kind: 'converted',
    points,
    scalePart,
    map,
    mmPerPx: scaleAt(map, meanOf(teeth)),
    isTurned: isTurned(scale),
  };
}

/** From the sides' lengths in the picture, each with the one across: a tilt shortens a side by less than a third below 45°. */
function isTurned(scale: PrintScale): boolean {
  if (scale.by !== 'card') return false;
  const [a, b, c, d] = scale.corners;
  const length = (from: Point, to: Point): number => Math.sqrt(squareOf(minus(from, to)));
  const seen = Math.log((length(a, b) + length(c, d)) / (length(b, c) + length(d, a)));
  const typed = Math.log(scale.widthMm / scale.heightMm);
  return Math.abs(seen + typed) < Math.abs(seen - typed) - TURNED_LEAST;
}

/** By how much likelier, in logarithms of the sides' ratio: a nearly square card tells nothing. Our judgement. */
const TURNED_LEAST = 0.2;

interface Reference {
  readonly kind: 'known';
  readonly map: PlaneMap;
  /** The map with each independent error of its marks, one deviation. */
  readonly moved: readonly PlaneMap[];
  /** A pixel that is surely on the card's side of its horizon. */
  readonly inside: Point;
}

function referenceOf(scale: PrintScale): Reference | NoPrint {
  switch (scale.by) {
    case 'card':
      return cardReference(scale.corners, scale.widthMm, scale.heightMm);
    case 'circle':
      return circleReference(scale.points, required('diameterMm', scale.diameterMm));
    case 'ruler':
      return rulerReference(scale.from, scale.to, required('lengthMm', scale.lengthMm));
  }
}

function cardReference(corners: Corners, widthMm: number, heightMm: number): Reference | NoPrint {
  const found = mapOfCorners(corners, widthMm, heightMm);
  if (found.kind === 'refused') return { kind: 'refused', reason: found.reason === 'line' ? 'corners-line' : 'corners-crossing' };
  const moved: PlaneMap[] = [];
  for (let at = 0; at < 4; at++) {
    for (const way of WAYS) {
      const other = mapOfCorners(corners.map((corner, index) => (index === at ? plus(corner, way) : corner)) as unknown as Corners, widthMm, heightMm);
      if (other.kind === 'refused') return { kind: 'refused', reason: 'corners-line' };
      moved.push(other.map);
    }
  }
  return { kind: 'known', map: found.map, moved, inside: meanOf(corners) };
}

/** The ellipse goes to a circle by the stretch that turns nothing: a tilt either way looks the same from far. */
function circleReference(points: readonly Point[], diameterMm: number): Reference | NoPrint {
  const fit = fitEllipse(points);
  if (fit.kind === 'refused') return { kind: 'refused', reason: fit.reason === 'few' ? 'circle-few' : 'circle-none' };
  const mapOf = (numbers: readonly number[]): PlaneMap => {
    const { x, y, mean, p, q } = formFrom(numbers);
    const all = mean * mean - p * p - q * q;
    const [a, b, d] = [(mean - p) / all, -q / all, (mean + p) / all].map((each) => (each * diameterMm) / 2) as [number, number, number];
    return [a, b, -a * x - b * y, b, d, -b * x - d * y, 0, 0, 1];
  };
  const numbers = numbersOf(fit.form);
  const root = lowerRoot(fit.formCovariance);
  if (root === null) return { kind: 'refused', reason: 'circle-none' };
  const moved = numbers.map((_, column) => mapOf(numbers.map((each, row) => each + (row < column ? 0 : root[row]![column]!))));
  return { kind: 'known', map: mapOf(numbers), moved, inside: fit.ellipse.centre };
}

function rulerReference(from: Point, to: Point, lengthMm: number): Reference | NoPrint {
  if (!(Math.hypot(to.x - from.x, to.y - from.y) >= SHORTEST_RULER_PX)) return { kind: 'refused', reason: 'ruler-short' };
  const mapOf = (start: Point, end: Point): PlaneMap => {
    const perPx = lengthMm / Math.hypot(end.x - start.x, end.y - start.y);
    return [perPx, 0, -perPx * start.x, 0, perPx, -perPx * start.y, 0, 0, 1];
  };
  return { kind: 'known', map: mapOf(from, to), moved: WAYS.flatMap((way) => [mapOf(plus(from, way), to), mapOf(from, plus(to, way))]), inside: from };
}

/** What a hand's mark errs by, each way. */
const WAYS: readonly Point[] = [{ x: HAND_SD_PX, y: 0 }, { x: 0, y: HAND_SD_PX }];

/** Root mean square over all directions. */
function scaleAt(map: PlaneMap, point: Point): number {
  return Math.hypot(...mapSlopes(map, point)) / Math.SQRT2;
}

const below = (map: PlaneMap, { x, y }: Point): number => map[6] * x + map[7] * y + map[8];
const plus = (a: Point, b: Point): Point => ({ x: a.x + b.x, y: a.y + b.y });
const minus = (a: Point, b: Point): Point => ({ x: a.x - b.x, y: a.y - b.y });
const squareOf = ({ x, y }: Point): number => x * x + y * y;
const meanOf = (points: readonly Point[]): Point => ({
  x: points.reduce((sum, { x }) => sum + x, 0) / points.length,
  y: points.reduce((sum, { y }) => sum + y, 0) / points.length,
});

function required(field: string, value: number): number {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${field} ${value}: allowed is above 0`);
  return value;
}
