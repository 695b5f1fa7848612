/** Brightness along a short line in a picture: its steepest place, and the direction in which brightness changes round a point. */
import type { GreyPicture, Point } from './picture';

export interface LineEdge {
  readonly point: Point;
  /** From the middle of the line, along its direction, px. */
  readonly offsetPx: number;
  /** Change of brightness over a pixel along the direction. */
  readonly slope: number;
}

/** Places a line is read at, px. */
const STEP_PX = 0.5;
/** Width of the Gaussian under which the slope is taken, one deviation, px: less follows the noise, more rounds the rim's curve off. */
const BLUR_PX = 1;
const REACH = Math.ceil((3 * BLUR_PX) / STEP_PX);
/** Neighbouring lines that are read along, to either side, px: their mean lessens noise, and over 2 px a rim bends by less than 0.02 px. */
const BESIDE_PX = [-1, 0, 1];
/** Changes less than this over a pixel are noise or shading, of 255. */
const LEAST_SLOPE = 2;

/** Weights that turn places REACH to either side into the slope a pixel under the Gaussian. */
const SLOPE_WEIGHTS = slopeWeights();

/** Whether a place lies among the pixels. */
export function isInside({ width, height }: GreyPicture, { x, y }: Point): boolean {
  return x >= 0 && y >= 0 && x <= width - 1 && y <= height - 1;
}

/**
 * The steepest place within `searchPx` of `middle` along the unit vector `direction`, between places by a parabola. `sign` −1 or 1 takes
 * only falling or rising brightness, 0 either. `nearSdPx`: how far from the middle the wanted edge usually lies, one deviation; absent, it may
 * lie anywhere within reach. null: none steep enough, or the steepest lies outside the picture.
 */
export function edgeOnLine(picture: GreyPicture, middle: Point, direction: Point, searchPx: number, sign: number, nearSdPx = Infinity): LineEdge | null {
  const half = Math.max(1, Math.round(searchPx / STEP_PX));
  // One place more at each end, so that a steepest place within reach has both its neighbours.
  const places = 2 * (half + 1 + REACH) + 1;
  const profile = readProfile(picture, middle, direction, places);
  const slopes = new Float64Array(2 * half + 3);
  for (let index = 0; index < slopes.length; index++) {
    let sum = 0;
    for (let k = 0; k < SLOPE_WEIGHTS.length; k++) sum += SLOPE_WEIGHTS[k]! * profile[index + k]!;
    slopes[index] = sum;
  }
  let best = -1;
  let most = 0;
  for (let index = 1; index < slopes.length - 1; index++) {
    const value = slopes[index]!;
    const steep = sign === 0 ? Math.abs(value) : sign * value;
    // A place whose neighbour is steeper only leads to an edge beyond reach.
    const peak = Math.abs(value) >= Math.abs(slopes[index - 1]!) && Math.abs(value) >= Math.abs(slopes[index + 1]!);
    const awayPx = (index - half - 1) * STEP_PX;
    const likely = steep * Math.exp(-((awayPx / nearSdPx) ** 2) / 2);
    if (peak && steep > LEAST_SLOPE && likely > most) [best, most] = [index, likely];
  }
  if (best < 0) return null;
  const [before, at, after] = [slopes[best - 1]!, slopes[best]!, slopes[best + 1]!];
  const curve = before - 2 * at + after;
  const between = curve === 0 ? 0 : Math.max(-0.5, Math.min(0.5, (before - after) / (2 * curve)));
  const offsetPx = (best - half - 1 + between) * STEP_PX;
  const point = { x: middle.x + offsetPx * direction.x, y: middle.y + offsetPx * direction.y };
  return isInside(picture, point) ? { point, offsetPx, slope: at - ((before - after) * between) / 4 } : null;
}

/**
 * Unit vector along which brightness changes most within a disc: the main direction of the summed outer products of its gradients,
 * weighted by a Gaussian. null: nothing changes there.
 */
export function changeDirection(picture: GreyPicture, middle: Point, radiusPx: number): Point | null {
  let [xx, xy, yy, weights] = [0, 0, 0, 0];
  const [low, high] = [(value: number) => Math.max(1, Math.ceil(value - radiusPx)), (value: number) => Math.floor(value + radiusPx)];
  for (let y = low(middle.y); y <= Math.min(picture.height - 2, high(middle.y)); y++) {
    for (let x = low(middle.x); x <= Math.min(picture.width - 2, high(middle.x)); x++) {
      const away = ((x - middle.x) ** 2 + (y - middle.y) ** 2) / radiusPx ** 2;
      if (away > 1) continue;
      const at = y * picture.width + x;
      const dx = (picture.luma[at + 1]! - picture.luma[at - 1]!) / 2;
      const dy = (picture.luma[at + picture.width]! - picture.luma[at - picture.width]!) / 2;
      const weight = Math.exp(-2 * away);
      xx += weight * dx * dx;
      xy += weight * dx * dy;
      yy += weight * dy * dy;
      weights += weight;
    }
  }
  if (!(xx + yy > 0 && weights > 0)) return null;
  const angle = Math.atan2(2 * xy, xx - yy) / 2;
  return { x: Math.cos(angle), y: Math.sin(angle) };
}

/** Mean of the neighbouring lines; beyond the picture its border goes on, which is even and so holds no edge. */
function readProfile(picture: GreyPicture, middle: Point, direction: Point, places: number): Float64Array {
  const { width, height, luma } = picture;
  const profile = new Float64Array(places);
  const [most, least] = [width - 1, height - 1];
  for (const beside of BESIDE_PX) {
    const [startX, startY] = [middle.x - beside * direction.y, middle.y + beside * direction.x];
    for (let index = 0; index < places; index++) {
      const away = (index - (places - 1) / 2) * STEP_PX;
      const x = Math.max(0, Math.min(most, startX + away * direction.x));
      const y = Math.max(0, Math.min(least, startY + away * direction.y));
      const [column, row] = [Math.min(Math.floor(x), Math.max(0, width - 2)), Math.min(Math.floor(y), Math.max(0, height - 2))];
      const [right, down] = [x - column, y - row];
      const at = row * width + column;
      const nextColumn = width > 1 ? 1 : 0;
      const nextRow = height > 1 ? width : 0;
      const upper = luma[at]! + right * (luma[at + nextColumn]! - luma[at]!);
      const lower = luma[at + nextRow]! + right * (luma[at + nextRow + nextColumn]! - luma[at + nextRow]!);
      profile[index]! += (upper + down * (lower - upper)) / BESIDE_PX.length;
    }
  }
  return profile;
}

function slopeWeights(): Float64Array {
  const weights = Float64Array.from({ length: 2 * REACH + 1 }, (_, index) => {
    const away = (index - REACH) * STEP_PX;
    return away * Math.exp((-away * away) / (2 * BLUR_PX * BLUR_PX));
  });
  // A brightness that rises by 1 a pixel is to give 1.
  const rise = weights.reduce((sum, weight, index) => sum + weight * (index - REACH) * STEP_PX, 0);
  return weights.map((weight) => weight / rise);
}
