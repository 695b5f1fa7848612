/**
 * Edges to a part of a pixel: the place where brightness changes fastest along a line. A point put by hand is drawn to the edge next to
 * it, and a rim drawn by hand to its own edge all round. Formulas and what was measured: docs/numerics.md §18.
 */
import { changeDirection, edgeOnLine, isInside } from './edgeLine';
import { type EllipseFit, type EllipseRefusal, fitEllipse, fitEllipseRobust } from './ellipseFit';
import { axesCovariance } from './ellipseForm';
import type { GreyPicture, Point } from './picture';
import type { RimEllipse } from './traces';

/** What lies outside the rim's edge: something darker than the rim there, something lighter, or nobody knows. */
export type EdgePolarity = 'dark-outside' | 'light-outside' | 'either';

export interface SnappedPoint {
  readonly kind: 'snapped';
  readonly point: Point;
  /** Unit vector across the edge, toward its lighter side. */
  readonly toLight: Point;
  /** Change of brightness over a pixel there, more than 0 (of 255). */
  readonly strength: number;
}

export interface SnapRefusal {
  readonly kind: 'refused';
  /** outside: the point is not in the picture. no-edge: brightness changes too little within reach. */
  readonly reason: 'outside' | 'no-edge';
}

export interface SnapOptions {
  /** How far the point may be moved, px. */
  readonly radiusPx?: number;
  /** The line on which to look, any length but 0; absent, across the edge that is strongest round the point. */
  readonly along?: Point;
}

/** How far a point put by hand is drawn, px. */
export const SNAP_RADIUS_PX = 8;
/** A hand puts the point nearer than that, as a part of it, one deviation: our judgement. A thin rim's other edge may lie within reach and be the sharper one. */
const HAND_PART = 0.5;

/** The edge that a point put by hand was meant for: of those within reach the strongest, one further off counting less. Throws RangeError for options that are no numbers of their kind. */
export function snapToEdge(picture: GreyPicture, point: Point, { radiusPx = SNAP_RADIUS_PX, along }: SnapOptions = {}): SnappedPoint | SnapRefusal {
  requireAbove0('radiusPx', radiusPx);
  if (!isInside(picture, point)) return { kind: 'refused', reason: 'outside' };
  const first = along === undefined ? changeDirection(picture, point, radiusPx) : unit(along);
  if (first === null) return { kind: 'refused', reason: 'no-edge' };
  let direction = first;
  let edge = edgeOnLine(picture, point, direction, radiusPx, 0, HAND_PART * radiusPx);
  if (along === undefined && edge !== null) {
    // The whole disc's direction is a mean over every edge in it; the second look asks the found edge alone.
    const own = changeDirection(picture, edge.point, OWN_DIRECTION_PX);
    const again = own === null ? null : edgeOnLine(picture, point, own, radiusPx, 0, HAND_PART * radiusPx);
    if (own !== null && again !== null) [direction, edge] = [own, again];
  }
  if (edge === null) return { kind: 'refused', reason: 'no-edge' };
  const sign = Math.sign(edge.slope);
  return { kind: 'snapped', point: edge.point, toLight: { x: sign * direction.x, y: sign * direction.y }, strength: Math.abs(edge.slope) };
}

/** Radius about a found edge in which its own direction is read, px. */
const OWN_DIRECTION_PX = 3;

export interface EdgePoint {
  readonly point: Point;
  /** Change of brightness over a pixel, going outward: negative where the outside is darker. */
  readonly slope: number;
  /** From the ellipse outward, px. */
  readonly offsetPx: number;
  /** Which ray, 0 on the major axis, evenly in the ellipse's own angle. */
  readonly ray: number;
}

export interface EdgeOptions {
  readonly polarity: EdgePolarity;
  /** How far from the ellipse to look, either way, px. */
  readonly searchPx: number;
  readonly rays?: number;
}

export const RAYS = 72;

/** The strongest edge on each normal of an ellipse; rays that leave the picture or meet no edge are left out. */
export function edgePoints(picture: GreyPicture, ellipse: RimEllipse, { polarity, searchPx, rays = RAYS }: EdgeOptions): EdgePoint[] {
  requireAbove0('searchPx', searchPx);
  if (!(Number.isInteger(rays) && rays > 0 && rays <= MOST_RAYS)) throw new RangeError(`rays ${rays}: allowed is a whole number from 1 to ${MOST_RAYS}`);
  requireAbove0('ellipse.semiMinorPx', ellipse.semiMinorPx);
  const wanted = polarity === 'either' ? 0 : polarity === 'dark-outside' ? -1 : 1;
  const [cosine, sine] = [Math.cos(ellipse.angleRad), Math.sin(ellipse.angleRad)];
  const found: EdgePoint[] = [];
  for (let ray = 0; ray < rays; ray++) {
    const t = (2 * Math.PI * ray) / rays;
    const [u, v] = [ellipse.semiMajorPx * Math.cos(t), ellipse.semiMinorPx * Math.sin(t)];
    const on = { x: ellipse.centre.x + cosine * u - sine * v, y: ellipse.centre.y + sine * u + cosine * v };
    const [alongU, alongV] = [ellipse.semiMinorPx * Math.cos(t), ellipse.semiMajorPx * Math.sin(t)];
    const size = Math.hypot(alongU, alongV);
    const outward = { x: (cosine * alongU - sine * alongV) / size, y: (sine * alongU + cosine * alongV) / size };
    const edge = edgeOnLine(picture, on, outward, searchPx, wanted);
    if (edge !== null) found.push({ point: edge.point, slope: edge.slope, offsetPx: edge.offsetPx, ray });
  }
  return found;
}

const MOST_RAYS = 3600;
/** Part of the summed strength that must speak for one side before a polarity is told. */
const CLEAR_SIDE = 0.75;

/** Which way brightness goes at the rim's edge, from the marked picture: the sum over the strongest edge of every ray. */
export function polarityOf(picture: GreyPicture, ellipse: RimEllipse, searchPx: number): EdgePolarity {
  const edges = edgePoints(picture, ellipse, { polarity: 'either', searchPx });
  const light = edges.reduce((sum, { slope }) => sum + Math.max(0, slope), 0);
  const all = edges.reduce((sum, { slope }) => sum + Math.abs(slope), 0);
  if (all === 0) return 'either';
  if (light > CLEAR_SIDE * all) return 'light-outside';
  return light < (1 - CLEAR_SIDE) * all ? 'dark-outside' : 'either';
}

export interface RefinedRim extends EllipseFit {
  readonly polarity: EdgePolarity;
  /** The edge points that were found last, `kept` telling which of them the ellipse goes by. */
  readonly edges: readonly EdgePoint[];
}

export type RefineRefusal = EllipseRefusal | { readonly kind: 'refused'; readonly reason: 'no-edge' };

export interface RefineOptions {
  /** Known from an earlier picture of the same take; absent, read from this one. */
  readonly polarity?: EdgePolarity;
  /** How far off the first ellipse may be, px. */
  readonly searchPx?: number;
  readonly rays?: number;
}

/** How far a rim drawn by hand may be off, px. */
export const REFINE_SEARCH_PX = 4;
/** Least part of the rays that must meet an edge. */
const LEAST_EDGES = 0.6;
/** Looking anew from the ellipse just found, the second time half as far. */
const LOOKS = 2;
const NEARER = 0.5;
/** One edge point on a clean picture errs by about this, px, *measured* on drawn discs. */
const EDGE_POINT_SD_PX = 0.1;
/** What all edge points share (light round the rim, the picture's own sharpening), px: not in their scatter, so added to every deviation. */
const SHARED_EDGE_SD_PX = 0.03;

/** The rim drawn to its edge in the picture, from five marked points or more, or from a near ellipse. */
export function refineRim(
  picture: GreyPicture,
  start: readonly Point[] | RimEllipse,
  { polarity, searchPx = REFINE_SEARCH_PX, rays = RAYS }: RefineOptions = {},
): RefinedRim | RefineRefusal {
  const begun = 'centre' in start ? { kind: 'fitted' as const, ellipse: start } : fitEllipse(start);
  if (begun.kind === 'refused') return begun;
  let ellipse = begun.ellipse;
  const side = polarity ?? polarityOf(picture, ellipse, searchPx);
  let edges: EdgePoint[] = [];
  let fit: EllipseFit | EllipseRefusal | null = null;
  for (let look = 0; look < LOOKS; look++) {
    edges = edgePoints(picture, ellipse, { polarity: side, searchPx: Math.max(LEAST_SEARCH_PX, searchPx * NEARER ** look), rays });
    if (edges.length < LEAST_EDGES * rays) return { kind: 'refused', reason: 'no-edge' };
    fit = fitEllipseRobust(edges.map(({ point }) => point), { pointSdPx: EDGE_POINT_SD_PX });
    if (fit.kind === 'refused') return fit;
    ellipse = fit.ellipse;
  }
  return { ...withSharedError(fit as EllipseFit), polarity: side, edges };
}

const LEAST_SEARCH_PX = 1.5;

function withSharedError(fit: EllipseFit): EllipseFit {
  const shared = SHARED_EDGE_SD_PX ** 2;
  // Of (x, y, mean, p, q): an axis is mean ± the length of (p, q).
  const added = [shared, shared, shared / 2, shared / 2, shared / 2];
  const formCovariance = fit.formCovariance.map((row, i) => row.map((value, j) => (i === j ? value + added[i]! : value)));
  return { ...fit, formCovariance, covariance: axesCovariance(fit.form, formCovariance) };
}

function unit({ x, y }: Point): Point {
  const size = Math.hypot(x, y);
  if (!(size > 0 && size < Infinity)) throw new RangeError(`along (${x}, ${y}): allowed is a direction`);
  return { x: x / size, y: y / size };
}

function requireAbove0(field: string, value: number): void {
  if (!(value > 0 && value < Infinity)) throw new RangeError(`${field} ${value}: allowed is above 0`);
}
