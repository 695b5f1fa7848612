/**
 * The rim's outer edge through a film. Patches of the metal, strictly between its inner and outer edge (a strip of skin in a template costs
 * a factor of two: lips move), give where the rim must be; its edge, searched near that, gives where it is.
 */
import { type EllipseMatrix, ellipseOfMatrix, insidePx, mapped } from './ellipseMatrix';
import { addRow, createNormalEquations, solveNormal, startNormal, tukey } from './leastSquares';
import { cutPatch, type Patch } from './patch';
import { type PatchPose, searchPatch, trackPatch } from './patchTracker';
import type { Pyramid } from './pyramid';
import { type EdgeFit, type EdgeLook, fitEdge, lookAtEdge } from './rimEdge';
import type { RimEllipse, TracedRim } from './traces';

export interface RimSize {
  readonly innerDiameterMm: number;
  readonly outerDiameterMm: number;
}

/** What the marked frame says of the rim. */
export interface RimTemplate {
  /** The marked ellipse, brought to the edge seen there. */
  readonly ellipse: EllipseMatrix;
  /** All the metal, coarse: to search a lost rim by. */
  readonly whole: Patch;
  /** Round the ring, fine. */
  readonly patches: readonly Patch[];
  readonly look: EdgeLook;
}

export type RimAnswer =
  | {
      readonly found: true;
      readonly rim: TracedRim;
      /** Of the marked frame's metal: shift, growth and turn. */
      readonly pose: PatchPose;
      /** The edge itself, or only the metal's patches where too little edge is seen. */
      readonly by: 'edge' | 'metal';
    }
  | { readonly found: false; readonly reason: 'outside' | 'unlike' | 'few-patches' };

/** An ellipse with less of its edge seen is not taken, degrees: the size becomes unsure steeply below it. */
const LEAST_ARC_DEG = 200;
/** How far from the metal's ellipse the edge is searched, px, and how far off in centre and axes it may turn out. */
const EDGE_REACH_PX = 5;
const AGREES_PX = 2.5;
/** The same for the edge alone, about where motion says. */
const FAR_EDGE_REACH_PX = 8;
/** The same about the marked ellipse, as a part of its semi-major axis: hand marks are a px or two off. */
const MARKED_REACH = 0.04;
const PATCHES = 16;
/** A rim is open, and its ring and edge can be followed, if its semi-minor axis is this part of its semi-major axis, and this many px. */
const OPEN_PART = 0.3;
const OPEN_PX = 12;
/** Between patches and either edge of the metal, as a part of its width, and at least, px. */
const MARGIN_PART = 0.14;
const LEAST_MARGIN_PX = 1.5;
/** A patch's place in the metal is not more sure than this, px: reflections move over a curved surface. */
const REFLECTION_SD_PX = 0.3;
/** Growth apart from both directions alike (a rim that turns out of the picture's plane), one deviation as a part. */
const SHEAR_SD = 0.02;
/** A patch this many deviations off shows something else. */
const OUTLIER = 4;
const LEAST_CORRELATION = 0.45;
/** A place is searched more closely only if the whole ring is this much like itself there. */
const LEAST_WHOLE_CORRELATION = 0.4;
/** Least part of the patches that must be found and agree. */
const LEAST_PART_FOUND = 0.35;

/** Whether a rim's ring and edge can be told apart; seen nearly from its edge, its outline is two lines a few px apart (ridingRim.ts). */
export function isOpen({ semiMajorPx, semiMinorPx }: RimEllipse): boolean {
  return semiMinorPx >= OPEN_PART * semiMajorPx && semiMinorPx >= OPEN_PX;
}

/** Throws RangeError unless 0 < inner < outer; null where too little metal lies in the picture. */
export function cutRim(marked: Pyramid, markedEllipse: RimEllipse, { innerDiameterMm, outerDiameterMm }: RimSize): RimTemplate | null {
  if (!(innerDiameterMm > 0 && innerDiameterMm < outerDiameterMm)) {
    throw new RangeError(`cutRim: innerDiameterMm ${innerDiameterMm}; allowed: over 0 and below outerDiameterMm ${outerDiameterMm}`);
  }
  const { semiMajorPx } = markedEllipse;
  const reach = Math.max(3, Math.min(8, MARKED_REACH * semiMajorPx));
  const { look, ellipse } = lookAtEdge(marked.levels[0]!, markedEllipse, reach);
  const inner = innerDiameterMm / outerDiameterMm;
  const widthPx = (1 - inner) * semiMajorPx;
  const marginPx = Math.max(LEAST_MARGIN_PX, MARGIN_PART * widthPx);
  const inMetal = (x: number, y: number): boolean =>
    insidePx(ellipse, x, y) >= marginPx && insidePx(ellipse, x, y, inner) <= -marginPx;
  const middle = (1 + inner) / 2;
  const places = Array.from({ length: PATCHES }, (_, index) => {
    const angle = (2 * Math.PI * index) / PATCHES;
    const u = middle * Math.cos(angle);
    const v = middle * Math.sin(angle);
    return { x: ellipse.x + ellipse.xu * u + ellipse.xv * v, y: ellipse.y + ellipse.yu * u + ellipse.yv * v };
  });
  const level = semiMajorPx > COARSER_FROM_PX ? 3 : semiMajorPx < FINER_BELOW_PX ? 1 : 2;
  const whole = cutPatch(marked, { x: ellipse.x, y: ellipse.y }, { halfPx: Math.min(500, semiMajorPx), levels: [level], accepts: inMetal });
  if (!whole) return null;
  const halfPx = Math.max(LEAST_HALF_PX, Math.min(MOST_HALF_PX, Math.round(widthPx / 2)));
  const patches = places.map((place) => cutPatch(marked, place, { halfPx, levels: [1, 0], coarseHalf: halfPx, accepts: inMetal }));
  return { ellipse, whole, patches: patches.filter((patch) => patch !== null), look };
}

/** The whole ring is searched at a quarter of the picture's size; a larger one, by its semi-major axis in px, at an eighth, a smaller one at half. */
const COARSER_FROM_PX = 130;
const FINER_BELOW_PX = 55;
const LEAST_HALF_PX = 5;
const MOST_HALF_PX = 14;

/** Tracks the metal from `start` (the pose of the last frame, moved on) and then finds the edge. */
export function trackRim(template: RimTemplate, frame: Pyramid, start: PatchPose): RimAnswer {
  const metal = trackMetal(template, frame, start);
  const expected = posedEllipse(template, start);
  const picture = frame.levels[0]!;
  const { look } = template;
  let edge = metal && fitEdge(picture, look, metal.ellipse, EDGE_REACH_PX);
  if (!edge || edge.arcDeg < LEAST_ARC_DEG || !agrees(edge, metal!.ellipse, AGREES_PX)) {
    // Something before the rim (the horn itself, a hand) can lead most of the metal astray; the edge may still be where motion says.
    edge = fitEdge(picture, look, expected, FAR_EDGE_REACH_PX);
    if (edge && (edge.arcDeg < LEAST_ARC_DEG || !agrees(edge, expected, FAR_EDGE_REACH_PX))) edge = null;
  }
  if (edge) {
    const { centreSdPx, axesSdPx } = edge;
    const rim = { ...ellipseOfMatrix(edge.ellipse), centreSdPx, axesSdPx };
    return { found: true, rim, pose: poseOf(template, edge.ellipse, metal?.pose ?? start), by: 'edge' };
  }
  if (!metal) return { found: false, reason: 'few-patches' };
  const { centreSdPx, axesSdPx } = metal;
  return { found: true, rim: { ...ellipseOfMatrix(metal.ellipse), centreSdPx, axesSdPx }, pose: metal.pose, by: 'metal' };
}

/** Looks for a lost rim: where it is expected, and where within `radiusPx` of that the whole ring is most like itself. */
export function searchRim(template: RimTemplate, frame: Pyramid, around: PatchPose, radiusPx: number): RimAnswer {
  const answer = trackRim(template, frame, around);
  if (answer.found && answer.by === 'edge') return answer;
  const near = searchPatch(template.whole, frame, around, radiusPx);
  if (!near || near.correlation < LEAST_WHOLE_CORRELATION) return { found: false, reason: near ? 'unlike' : 'outside' };
  return trackRim(template, frame, near.pose);
}

const posedEllipse = ({ ellipse }: RimTemplate, { x, y, a, b }: PatchPose): EllipseMatrix => mapped(ellipse, x, y, a, b, -b, a);

/** The edge says best where the rim is and how large; only the metal says how far it turned in its own plane. */
function poseOf({ ellipse: marked }: RimTemplate, found: EllipseMatrix, { a, b }: PatchPose): PatchPose {
  const growth = Math.sqrt((found.xu * found.yv - found.xv * found.yu) / (marked.xu * marked.yv - marked.xv * marked.yu)) / Math.hypot(a, b);
  return { x: found.x, y: found.y, a: growth * a, b: growth * b };
}

interface MetalFit {
  readonly ellipse: EllipseMatrix;
  readonly pose: PatchPose;
  readonly centreSdPx: number;
  readonly axesSdPx: number;
}

const equations = createNormalEquations(6);
const row = new Float64Array(6);
/** Of each patch found: place from the centre in the frame as the pose has it, how far off that it was found, and its information. */
const fromX = new Float64Array(PATCHES);
const fromY = new Float64Array(PATCHES);
const offX = new Float64Array(PATCHES);
const offY = new Float64Array(PATCHES);
const infoXX = new Float64Array(PATCHES);
const infoXY = new Float64Array(PATCHES);
const infoYY = new Float64Array(PATCHES);

/** All patches near `pose`, and the one shift, growth, turn and (held small) shear that most of them agree on. */
function trackMetal(template: RimTemplate, frame: Pyramid, pose: PatchPose): MetalFit | null {
  const { ellipse, patches } = template;
  let count = 0;
  for (const patch of patches) {
    const u = patch.place.x - ellipse.x;
    const v = patch.place.y - ellipse.y;
    const fromPoseX = pose.a * u - pose.b * v;
    const fromPoseY = pose.b * u + pose.a * v;
    const start = { x: pose.x + fromPoseX, y: pose.y + fromPoseY, a: pose.a, b: pose.b };
    const answer = trackPatch(patch, frame, start, { leastCorrelation: LEAST_CORRELATION, furthestPx: patch.radiusPx });
    if (!answer.found) continue;
    const { xx, xy, yy } = answer.covariance;
    const varianceX = xx + REFLECTION_SD_PX ** 2;
    const varianceY = yy + REFLECTION_SD_PX ** 2;
    const determinant = varianceX * varianceY - xy * xy;
    fromX[count] = fromPoseX;
    fromY[count] = fromPoseY;
    offX[count] = answer.pose.x - start.x;
    offY[count] = answer.pose.y - start.y;
    infoXX[count] = varianceY / determinant;
    infoXY[count] = -xy / determinant;
    infoYY[count++] = varianceX / determinant;
  }
  if (count < Math.max(4, LEAST_PART_FOUND * patches.length)) return null;
  const { answer, inverse } = equations;
  answer.fill(0);
  const radius = template.whole.radiusPx;
  const shear = 1 / (SHEAR_SD * radius) ** 2;
  let kept = 0;
  for (let round = 0; round < 5; round++) {
    startNormal(equations, [0, 0, 0, 0, shear, shear]);
    kept = 0;
    for (let index = 0; index < count; index++) {
      const x = fromX[index]! / radius;
      const y = fromY[index]! / radius;
      const leftX = offX[index]! - (answer[0]! + answer[2]! * x - answer[3]! * y + answer[4]! * x + answer[5]! * y);
      const leftY = offY[index]! - (answer[1]! + answer[3]! * x + answer[2]! * y + answer[5]! * x - answer[4]! * y);
      const [xx, xy, yy] = [infoXX[index]!, infoXY[index]!, infoYY[index]!];
      const weight = round === 0 ? 1 : tukey(Math.sqrt(leftX * leftX * xx + 2 * leftX * leftY * xy + leftY * leftY * yy), OUTLIER);
      if (weight > 0.1) kept += 1;
      // The information's square root, by its Cholesky factor, turns each patch into two rows.
      const l = Math.sqrt(xx);
      const m = xy / l;
      const n = Math.sqrt(Math.max(0, yy - m * m));
      fillRow(x, y, l, m);
      addRow(equations, row, l * offX[index]! + m * offY[index]!, weight);
      fillRow(x, y, 0, n);
      addRow(equations, row, n * offY[index]!, weight);
    }
    if (kept < Math.max(4, LEAST_PART_FOUND * patches.length) || !solveNormal(equations)) return null;
  }
  const [growth, turn, along, across] = [answer[2]! / radius, answer[3]! / radius, answer[4]! / radius, answer[5]! / radius];
  const x = pose.x + answer[0]!;
  const y = pose.y + answer[1]!;
  const posed = mapped(ellipse, x, y, pose.a, pose.b, -pose.b, pose.a);
  return {
    ellipse: mapped(posed, x, y, 1 + growth + along, turn + across, across - turn, 1 + growth - along),
    pose: { x, y, a: pose.a * (1 + growth) - pose.b * turn, b: pose.b * (1 + growth) + pose.a * turn },
    centreSdPx: Math.sqrt((inverse[0]! + inverse[7]!) / 2),
    axesSdPx: Math.sqrt(inverse[14]! + inverse[28]!),
  };
}

/** (along x, along y) times the move of a patch at (x, y) (radii from the centre) for a unit of each: shift right, shift down, growth, turn, shear, other shear. */
function fillRow(x: number, y: number, alongX: number, alongY: number): void {
  row[0] = alongX;
  row[1] = alongY;
  row[2] = alongX * x + alongY * y;
  row[3] = alongY * x - alongX * y;
  row[4] = alongX * x - alongY * y;
  row[5] = alongX * y + alongY * x;
}

function agrees(edge: EdgeFit, other: EllipseMatrix, allowedPx: number): boolean {
  const found = ellipseOfMatrix(edge.ellipse);
  const expected = ellipseOfMatrix(other);
  return (
    Math.hypot(found.centre.x - expected.centre.x, found.centre.y - expected.centre.y) <= allowedPx &&
    Math.abs(found.semiMajorPx - expected.semiMajorPx) <= allowedPx &&
    Math.abs(found.semiMinorPx - expected.semiMinorPx) <= allowedPx
  );
}
