/**
 * The rim's outer edge, searched along the normals of an ellipse that is nearly right. Which side is brighter was seen in the marked frame,
 * place by place: an edge of the other kind (the inner edge, a highlight, a shadow) is none.
 */
import { type EllipseMatrix, matrixOf } from './ellipseMatrix';
import { addRow, createNormalEquations, medianOf, solveNormal, startNormal, tukey } from './leastSquares';
import { insideLevel, type PyramidLevel, sampleCubic } from './pyramid';
import type { RimEllipse } from './traces';

/** What the edge looks like in the marked frame at `EDGE_PLACES` places round the rim, in the order of the ellipse matrix's circle. */
export interface EdgeLook {
  /** Grey levels a px outward over the edge, at the marked ellipse's places; 0 where no edge was seen. */
  readonly slopes: Float64Array;
}

export interface EdgeFit {
  readonly ellipse: EllipseMatrix;
  /** How much of the rim's circle had its edge where the ellipse says, degrees. */
  readonly arcDeg: number;
  readonly centreSdPx: number;
  readonly axesSdPx: number;
}

/** Every 5° of the circle. */
export const EDGE_PLACES = 72;

/** Least slope that is an edge, grey levels a px: twice what noise of 4 grey levels leaves after smoothing. */
const LEAST_SLOPE = 3;
/** An edge in a later frame has at least this part of the marked one's slope: exposure and motion blur take some. */
const LEAST_PART = 0.35;
/** … and at most this many times it. */
const MOST_TIMES = 3;
/** Samples along a normal, to a px. */
const STEPS_PER_PX = 2;
const FURTHEST_PX = 12;
/** Rows beside a normal that are added to it, px apart. */
const BESIDE_PX = 1.25;
/** The edge's scatter is never taken for smaller, px, and its residuals beyond this many robust deviations count nothing. */
const LEAST_SCATTER_PX = 0.05;
const OUTLIER = 4.5;
/** Whatever the scatter, a place this far off the ellipse is no part of it, px: else a picture full of edges would show a rim everywhere. */
const MOST_OFF_PX = 1.5;
/** Fewer places make no ellipse. */
const LEAST_PLACES = 12;
/** Neighbouring places share their noise and the picture's blocks. Variance factor, measured on films with known truth (docs/numerics.md §19). */
const SHARED_FACTOR = 3;
/** No rim is known better, px: the ellipse of a rounded edge under changing light. */
const FLOOR_PX = 0.04;

/** Looks at the marked frame: the strongest edge of either kind within `reachPx` of the marked ellipse, and the ellipse through those. */
export function lookAtEdge(picture: PyramidLevel, marked: RimEllipse, reachPx: number): { look: EdgeLook; ellipse: EllipseMatrix } {
  let ellipse = matrixOf(marked);
  const slopes = new Float64Array(EDGE_PLACES);
  for (const reach of [reachPx, reachPx / 2]) {
    for (let place = 0; place < EDGE_PLACES; place++) {
      profileAt(picture, ellipse, place, reach);
      const found = strongest(reach, 0);
      slopes[place] = found ? found.slope : 0;
    }
    oneKindAmongNeighbours(slopes);
    ellipse = fitEdge(picture, { slopes }, ellipse, reach)?.ellipse ?? ellipse;
  }
  return { look: { slopes }, ellipse };
}

/** The ellipse through the edge near `predicted`, whose circle has the marked one's order of places; null where too little edge is seen for any. */
export function fitEdge(picture: PyramidLevel, { slopes }: EdgeLook, predicted: EllipseMatrix, reachPx: number): EdgeFit | null {
  let ellipse = predicted;
  let fit: EdgeFit | null = null;
  for (const reach of [reachPx, Math.min(reachPx, NARROW_PX)]) {
    let count = 0;
    for (let place = 0; place < EDGE_PLACES; place++) {
      if (slopes[place] === 0) continue;
      profileAt(picture, ellipse, place, reach);
      const found = strongest(reach, slopes[place]!);
      if (!found) continue;
      places[count] = place;
      offsets[count++] = found.atPx;
    }
    fit = bend(ellipse, count);
    if (!fit) return null;
    ellipse = fit.ellipse;
  }
  return fit;
}

/** The second, narrow search keeps neighbouring edges out, px. */
const NARROW_PX = 2;

const profile = new Float64Array(2 * STEPS_PER_PX * (FURTHEST_PX + 3) + 1);
const slope = new Float64Array(profile.length);
const places = new Int32Array(EDGE_PLACES);
const offsets = new Float64Array(EDGE_PLACES);
const residuals = new Float64Array(EDGE_PLACES);
const sorted = new Float64Array(EDGE_PLACES);
const row = new Float64Array(5);
const equations = createNormalEquations(5);
/** Of the last profile: its length, 0 where it leaves the picture. */
let length = 0;

/** Fills `profile` with the brightness along the outward normal from −reach − 2 to reach + 2 px. */
function profileAt(picture: PyramidLevel, ellipse: EllipseMatrix, place: number, reachPx: number): void {
  const angle = (2 * Math.PI * place) / EDGE_PLACES;
  const u = Math.cos(angle);
  const v = Math.sin(angle);
  const x = ellipse.x + ellipse.xu * u + ellipse.xv * v;
  const y = ellipse.y + ellipse.yu * u + ellipse.yv * v;
  let tangentX = ellipse.xv * u - ellipse.xu * v;
  let tangentY = ellipse.yv * u - ellipse.yu * v;
  const size = Math.hypot(tangentX, tangentY);
  tangentX /= size;
  tangentY /= size;
  const sense = ellipse.xu * ellipse.yv - ellipse.xv * ellipse.yu > 0 ? 1 : -1;
  const normalX = sense * tangentY;
  const normalY = -sense * tangentX;
  const half = Math.round((Math.min(reachPx, FURTHEST_PX) + 2) * STEPS_PER_PX);
  length = 2 * half + 1;
  const far = half / STEPS_PER_PX + 2;
  if (!insideLevel(picture, x - far, y - far) || !insideLevel(picture, x + far, y + far)) {
    length = 0;
    return;
  }
  for (let step = 0; step < length; step++) {
    const away = (step - half) / STEPS_PER_PX;
    const atX = x + away * normalX;
    const atY = y + away * normalY;
    profile[step] =
      0.5 * sampleCubic(picture, atX, atY) +
      0.25 * sampleCubic(picture, atX - BESIDE_PX * tangentX, atY - BESIDE_PX * tangentY) +
      0.25 * sampleCubic(picture, atX + BESIDE_PX * tangentX, atY + BESIDE_PX * tangentY);
  }
}

/**
 * The strongest slope of the last profile within the reach, between the steps by a parabola; of the marked slope's sign and at least a
 * part of its size, or of any where that is 0. Nearer ones are taken before a little stronger ones.
 */
function strongest(reachPx: number, marked: number): { atPx: number; slope: number } | null {
  if (length === 0) return null;
  const half = (length - 1) / 2;
  const reach = Math.min(reachPx, FURTHEST_PX);
  // Difference over 2 px of steps smoothed by 1-2-1.
  for (let step = 3; step < length - 3; step++) {
    slope[step] = (profile[step + 3]! + 2 * profile[step + 2]! + profile[step + 1]! - profile[step - 1]! - 2 * profile[step - 2]! - profile[step - 3]!) / 8;
  }
  const least = Math.max(LEAST_SLOPE, LEAST_PART * Math.abs(marked));
  const most = marked === 0 ? Infinity : MOST_TIMES * Math.abs(marked);
  let best = 0;
  let bestStep = -1;
  for (let step = 4; step < length - 4; step++) {
    const away = (step - half) / STEPS_PER_PX;
    const size = marked === 0 ? Math.abs(slope[step]!) : Math.sign(marked) * slope[step]!;
    if (Math.abs(away) > reach || size < least || size > most) continue;
    const sign = Math.sign(slope[step]!);
    if (sign * slope[step - 1]! > size || sign * slope[step + 1]! > size) continue;
    const score = size * (1 - 0.5 * (away / reach) ** 2);
    if (score > best) [best, bestStep] = [score, step];
  }
  if (bestStep < 0) return null;
  const before = slope[bestStep - 1]!;
  const middle = slope[bestStep]!;
  const after = slope[bestStep + 1]!;
  const bow = before - 2 * middle + after;
  const shift = bow === 0 ? 0 : Math.max(-0.5, Math.min(0.5, (0.5 * (before - after)) / bow));
  return { atPx: (bestStep - half + shift) / STEPS_PER_PX, slope: middle };
}

/** A place whose edge is of the other kind than most of its neighbours' shows something else. */
function oneKindAmongNeighbours(slopes: Float64Array): void {
  const signs = Array.from(slopes, Math.sign);
  for (let place = 0; place < EDGE_PLACES; place++) {
    let votes = 0;
    for (let side = -3; side <= 3; side++) votes += signs[(place + side + EDGE_PLACES) % EDGE_PLACES]!;
    if (votes * signs[place]! <= 0) slopes[place] = 0;
  }
}

/**
 * Shift and symmetric stretch of the circle that bring the ellipse to the edge places found: linear in five unknowns which stay apart for a
 * circle too, robust by Tukey's biweight.
 */
function bend(ellipse: EllipseMatrix, count: number): EdgeFit | null {
  if (count < LEAST_PLACES) return null;
  const { answer } = equations;
  answer.fill(0);
  let scatter = 0;
  let kept = 0;
  for (let round = 0; round < 6; round++) {
    for (let index = 0; index < count; index++) {
      fillRow(ellipse, places[index]!);
      let expected = 0;
      for (let unknown = 0; unknown < 5; unknown++) expected += row[unknown]! * answer[unknown]!;
      residuals[index] = offsets[index]! - expected;
      sorted[index] = Math.abs(residuals[index]!);
    }
    // 1.4826 times the median of |residuals| is the deviation of normal ones; the first round has only the ellipse's own shift in them.
    scatter = Math.max(LEAST_SCATTER_PX, 1.4826 * medianOf(sorted, count));
    const reach = round === 0 ? OUTLIER * scatter : Math.min(OUTLIER * scatter, MOST_OFF_PX);
    startNormal(equations, NO_PRIOR);
    kept = 0;
    let weights = 0;
    for (let index = 0; index < count; index++) {
      const weight = tukey(residuals[index]!, reach);
      if (weight === 0) continue;
      fillRow(ellipse, places[index]!);
      addRow(equations, row, offsets[index]!, weight);
      weights += weight;
      kept += 1;
    }
    if (kept < LEAST_PLACES || !solveNormal(equations)) return null;
    if (round === 5) scatter *= Math.sqrt(kept / weights);
  }
  const [tx, ty, along, both, across] = [answer[0]!, answer[1]!, answer[2]!, answer[3]!, answer[4]!];
  const bent: EllipseMatrix = {
    x: ellipse.x + tx,
    y: ellipse.y + ty,
    xu: ellipse.xu * (1 + along) + ellipse.xv * both,
    xv: ellipse.xu * both + ellipse.xv * (1 + across),
    yu: ellipse.yu * (1 + along) + ellipse.yv * both,
    yv: ellipse.yu * both + ellipse.yv * (1 + across),
  };
  const { inverse } = equations;
  const variance = SHARED_FACTOR * scatter * scatter;
  const first = Math.hypot(ellipse.xu, ellipse.yu);
  const second = Math.hypot(ellipse.xv, ellipse.yv);
  return {
    ellipse: bent,
    arcDeg: (360 * kept) / EDGE_PLACES,
    centreSdPx: Math.sqrt((variance * (inverse[0]! + inverse[6]!)) / 2 + FLOOR_PX ** 2),
    axesSdPx: Math.sqrt((variance * (inverse[12]! * first ** 2 + inverse[24]! * second ** 2)) / 2 + FLOOR_PX ** 2),
  };
}

const NO_PRIOR = [0, 0, 0, 0, 0];

/** Outward move of the ellipse's point at a place, px, for a unit of each unknown: shift right and down, and the circle's stretch uu, uv, vv. */
function fillRow(ellipse: EllipseMatrix, place: number): void {
  const angle = (2 * Math.PI * place) / EDGE_PLACES;
  const u = Math.cos(angle);
  const v = Math.sin(angle);
  const tangentX = ellipse.xv * u - ellipse.xu * v;
  const tangentY = ellipse.yv * u - ellipse.yu * v;
  const size = (ellipse.xu * ellipse.yv - ellipse.xv * ellipse.yu > 0 ? 1 : -1) * Math.hypot(tangentX, tangentY);
  const normalX = tangentY / size;
  const normalY = -tangentX / size;
  const first = normalX * ellipse.xu + normalY * ellipse.yu;
  const second = normalX * ellipse.xv + normalY * ellipse.yv;
  row[0] = normalX;
  row[1] = normalY;
  row[2] = first * u;
  row[3] = first * v + second * u;
  row[4] = second * v;
}
