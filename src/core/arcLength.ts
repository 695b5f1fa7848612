/** Arc length along a planar form from the midline (x = 0), by Gauss–Legendre on short pieces, and its inverse by Newton. */
import { gaussLegendre } from './gauss';
import { CURVE_CIRCLE, CURVE_LINE, CURVE_OUT, type PlaneCurve, evaluateCurve } from './planarForm';

export interface ArcLength {
  readonly range: readonly [number, number];
  /** Arc length at parameter u, mm, + to the player's left. */
  lengthAt(u: number): number;
  /** Parameter at an arc length; held to the form's ends. */
  parameterAt(arcMm: number): number;
}

const PIECES = 64;
const RULE = gaussLegendre(8);
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
    RULE.nodes.forEach((node, index) => {
      sum += RULE.weights[index]! * speed(from + half * (1 + node));
    });
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
  return {
    range,
    lengthAt: (u) => raw(u) - offset,
    parameterAt(arcMm) {
      if (arcMm <= range[0]) return curve.low;
      if (arcMm >= range[1]) return curve.high;
      let u = curve.low + ((arcMm - range[0]) / (range[1] - range[0])) * (curve.high - curve.low);
      for (let turn = 0; turn < NEWTON_STEPS; turn++) {
        const miss = raw(u) - offset - arcMm;
        const next = Math.min(Math.max(u - miss / speed(u), curve.low), curve.high);
        if (Math.abs(miss) < ARC_STEP_MM || next === u) return u;
        u = next;
      }
      return u;
    },
  };
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
