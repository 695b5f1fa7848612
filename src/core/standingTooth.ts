/**
 * One or more teeth that stand out of (+) or behind (−) the form: a smooth bump (1 − ξ²)³, as wide as the
 * tooth at half its height, carried along the form's normal. Our judgement of a shape; no published source. Narrower ones fold the
 * surface over itself where the gum lies far behind the edge.
 */
import { createArcLength } from './arcLength';
import { CURVE_OUT, type PlaneCurve, curvatureOf, tabulateCurve } from './planarForm';
import type { ToothSpec } from './specs';

/** Step for the curvature's own slope, which only enters the second derivative at the table's knots, as part of the range. */
const SLOPE_STEP_PART = 1e-5;

export function withStandingTeeth(curve: PlaneCurve, teeth: readonly ToothSpec[]): PlaneCurve {
  const standing = teeth.filter((tooth) => tooth.outMm !== 0);
  if (standing.length === 0) return curve;
  const arc = createArcLength(curve);
  const room = new Float64Array(CURVE_OUT);
  const bump = { height: 0, slope: 0, bend: 0 };
  const curvatureAt = (u: number): number => {
    curve.exact(u, room);
    return curvatureOf(room);
  };
  // The bump lives near the front: walk the form by arc length over the part any rim can reach.
  const low = Math.max(arc.range[0], -WALKED_MM);
  const high = Math.min(arc.range[1], WALKED_MM);
  return tabulateCurve(low, high, false, (s, out) => {
    const u = arc.parameterAt(s);
    const step = SLOPE_STEP_PART * (curve.high - curve.low);
    curve.exact(u, room);
    const speed = Math.hypot(room[2]!, room[3]!);
    const x = room[0]!;
    const z = room[1]!;
    const tx = room[2]! / speed;
    const tz = room[3]! / speed;
    const curvature = curvatureOf(room);
    const curvatureSlope = (curvatureAt(u + step) - curvatureAt(u - step)) / (2 * step * speed);
    sumBumps(standing, s, bump);
    // c + b·n with n′ = κt, t′ = −κn (by arc length).
    const along = 1 + bump.height * curvature;
    const alongSlope = bump.slope * curvature + bump.height * curvatureSlope;
    const outward = bump.bend - curvature * along;
    const forward = alongSlope + bump.slope * curvature;
    out[0] = x - bump.height * tz;
    out[1] = z + bump.height * tx;
    out[2] = along * tx - bump.slope * tz;
    out[3] = along * tz + bump.slope * tx;
    out[4] = forward * tx - outward * tz;
    out[5] = forward * tz + outward * tx;
  });
}

/** (1 − ξ²)³ is one half here. */
const HALF_HEIGHT_AT = Math.sqrt(1 - Math.cbrt(0.5));

/** Further round the arch than any rim reaches, mm of arc. */
const WALKED_MM = 60;

function sumBumps(teeth: readonly ToothSpec[], s: number, bump: { height: number; slope: number; bend: number }): void {
  bump.height = 0;
  bump.slope = 0;
  bump.bend = 0;
  for (const tooth of teeth) {
    const half = tooth.widthMm / (2 * HALF_HEIGHT_AT);
    const xi = (s - tooth.centreMm) / half;
    if (Math.abs(xi) >= 1) continue;
    const rest = 1 - xi * xi;
    bump.height += tooth.outMm * rest ** 3;
    bump.slope += (tooth.outMm * -6 * xi * rest * rest) / half;
    bump.bend += (tooth.outMm * (-6 * rest * rest + 24 * xi * xi * rest)) / (half * half);
  }
}
