/**
 * Arc length along a planar form from the midline (x = 0), by Gauss–Legendre on short pieces, and its inverse: begun from a quintic
 * through the pieces' ends that has the inverse's own slopes and bends there, and solved by Newton.
 */
import { gaussLegendre } from './gauss';
import { CURVE_CIRCLE, CURVE_LINE, CURVE_OUT, type PlaneCurve, evaluateCurve } from './planarForm';

export interface ArcLength {
  readonly range: readonly [number, number];
  /** Arc length at parameter u, mm, + to the player's left. */
  lengthAt(u: number): number;
  /** Parameter at an arc length; held to the form's ends. */
  parameterAt(arcMm: number): number;
}

const PIECES = 256;
const RULE = gaussLegendre(4);
const NEWTON_STEPS = 30;
/** Arc length is solved to this, mm. */
const ARC_STEP_MM = 1e-11;

export function createArcLength(curve: PlaneCurve): ArcLength {
  if (curve.kind === CURVE_LINE || curve.kind === CURVE_CIRCLE) {
    return {
      range: [curve.low, curve.high],
      lengthAt: (u) => u,
      parameterAt: (arcMm) => Math.min(Math.max(arcMm, curve.low), curve.high),
    };
  }
  const out = new Float64Array(CURVE_OUT);
  const speed = (u: number): number => {
    evaluateCurve(curve, u, out);
    return Math.hypot(out[2]!, out[3]!);
  };
  const between = (from: number, to: number): number => {
    const half = (to - from) / 2;
    let sum = 0;
    for (let index = 0; index < RULE.nodes.length; index++) sum += RULE.weights[index]! * speed(from + half * (1 + RULE.nodes[index]!));
    return sum * half;
  };
  const step = (curve.high - curve.low) / PIECES;
  const knots = Array.from({ length: PIECES + 1 }, (_, index) => curve.low + step * index);
  const lengths = [0];
  for (let piece = 0; piece < PIECES; piece++) lengths.push(lengths[piece]! + between(knots[piece]!, knots[piece + 1]!));
  const raw = (u: number): number => {
    const piece = Math.min(Math.max(Math.floor((u - curve.low) / step), 0), PIECES - 1);
    return lengths[piece]! + between(knots[piece]!, u);
  };
  const offset = raw(midlineParameter(curve, out));
  const range: readonly [number, number] = [-offset, lengths[PIECES]! - offset];
  const slopes = new Float64Array(PIECES + 1);
  const bends = new Float64Array(PIECES + 1);
  knots.forEach((knot, index) => {
    const slope = 1 / speed(knot);
    slopes[index] = slope;
    bends[index] = -(out[2]! * out[4]! + out[3]! * out[5]!) * slope ** 4;
  });
  /** The parameter at a length from the form's own end, nearly. */
  const nearParameter = (length: number): number => {
    let [piece, above] = [0, PIECES];
    while (above - piece > 1) {
      const middle = (piece + above) >> 1;
      if (lengths[middle]! <= length) piece = middle;
      else above = middle;
    }
    const whole = lengths[piece + 1]! - lengths[piece]!;
    const t = (length - lengths[piece]!) / whole;
    const near = hermite(t, whole, knots[piece]!, slopes[piece]!, bends[piece]!, knots[piece + 1]!, slopes[piece + 1]!, bends[piece + 1]!);
    // Also where a form hardly moves at its end, and the inverse has no slope there.
    return near >= knots[piece]! && near <= knots[piece + 1]! ? near : knots[piece]! + t * step;
  };
  /** Whoever draws asks for many heights at one place of the form. */
  const last = { arcMm: NaN, parameter: NaN };
  return {
    range,
    lengthAt: (u) => raw(u) - offset,
    parameterAt(arcMm) {
      if (arcMm <= range[0]) return curve.low;
      if (arcMm >= range[1]) return curve.high;
      if (arcMm !== last.arcMm) {
        last.parameter = solved(arcMm);
        last.arcMm = arcMm;
      }
      return last.parameter;
    },
  };

  function solved(arcMm: number): number {
    let u = nearParameter(arcMm + offset);
    for (let turn = 0; turn < NEWTON_STEPS; turn++) {
      const miss = raw(u) - offset - arcMm;
      if (Math.abs(miss) < ARC_STEP_MM) return u;
      const next = Math.min(Math.max(u - miss / speed(u), curve.low), curve.high);
      if (next === u) return u;
      u = next;
    }
    return u;
  }
}

/** At a part t of a stretch as long as `whole`: between two values with their first and second derivatives. */
function hermite(t: number, whole: number, a: number, slopeA: number, bendA: number, b: number, slopeB: number, bendB: number): number {
  const rise = b - a - whole * slopeA - (whole * whole * bendA) / 2;
  const riseSlope = whole * (slopeB - slopeA) - whole * whole * bendA;
  const riseBend = whole * whole * (bendB - bendA);
  const cube = t * t * t;
  return (
    a + t * whole * slopeA + (t * t * whole * whole * bendA) / 2 +
    cube * (10 * rise - 4 * riseSlope + riseBend / 2 + t * (-15 * rise + 7 * riseSlope - riseBend + t * (6 * rise - 3 * riseSlope + riseBend / 2)))
  );
}

/** The parameter at which the form crosses x = 0, by bisection. */
function midlineParameter(curve: PlaneCurve, out: Float64Array): number {
  let low = curve.low;
  let high = curve.high;
  if (low < 0 && high > 0) {
    evaluateCurve(curve, 0, out);
    if (out[0] === 0) return 0;
  }
  for (let turn = 0; turn < 100; turn++) {
    const middle = (low + high) / 2;
    evaluateCurve(curve, middle, out);
    if (out[0]! < 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
