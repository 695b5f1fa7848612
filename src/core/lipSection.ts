/** The lips in a section from the side: the gap's level lines at rest, dented to the rim's underside. For drawing. */
import type { RimPose } from './analysis';
import type { Arch } from './arch';
import { contourHeight } from './rim';
import type { LipsSpec, RimSpec } from './specs';

/** Points of a closed outline in the plane x = the rim's centre, mm. */
type LipOutline = readonly (readonly [y: number, z: number])[];

/** How far up and down from the lip line the lips are drawn, unless asked otherwise. */
const REACH_MM = 17;
const STEP_MM = 0.7;
const INNER_CLEARANCE_MM = 0.4;
const INNER_DEEPEST_MM = -2.5;
/** A level line is right to this, mm: a twentieth of a pixel. */
const LEVEL_MM = 0.01;

export function lipSection(
  arch: Arch,
  lips: LipsSpec,
  rim: RimSpec,
  pose: RimPose,
  lipLineMm: number,
  reachMm: number = REACH_MM,
): { readonly upper: LipOutline; readonly lower: LipOutline } {
  const x = pose.rimCentreMm[0];
  const lineY = pose.rimCentreMm[1] + lipLineMm * Math.hypot(pose.axis[0], pose.axis[2]);
  const half = (sign: 1 | -1): LipOutline => {
    const thickness = (sign > 0 ? lips.upper : lips.lower).thicknessMm;
    const inside: [number, number][] = [];
    const outside: [number, number][] = [];
    let inner = INNER_CLEARANCE_MM;
    let outer = thickness;
    for (let up = 0.15; up <= reachMm; up += STEP_MM) {
      const y = lineY + sign * up;
      inner = levelZ(arch, x, y, INNER_CLEARANCE_MM, inner);
      outer = levelZ(arch, x, y, thickness, outer);
      inside.push([y, inner]);
      outside.push([y, Math.max(inner, Math.min(outer, rimUnderside(rim, pose, x, y)))]);
    }
    return [...inside, ...outside.reverse()];
  };
  return { upper: half(1), lower: half(-1) };
}

/** z of the place straight ahead at which the gap is `target`, looked for from `start`. */
function levelZ(arch: Arch, x: number, y: number, target: number, start: number): number {
  let z = start;
  for (let step = 0; step < 24; step++) {
    const miss = target - arch.gapAt([x, y, z]);
    z += miss;
    if (z < INNER_DEEPEST_MM) return INNER_DEEPEST_MM;
    if (Math.abs(miss) < LEVEL_MM) break;
  }
  return z;
}

/** z of the rim's underside at a height in the plane through its centre; out of reach beside the rim and inside the cup. */
function rimUnderside(rim: RimSpec, pose: RimPose, x: number, y: number): number {
  const [cx, cy, cz] = pose.rimCentreMm;
  const [ax, ay, az] = pose.axis;
  // A point of the rim's plane at this height; the contour's recess moves it a little, which one more step takes in.
  let z = cz - (ax * (x - cx) + ay * (y - cy)) / az;
  const radius = Math.hypot(x - cx, y - cy, z - cz);
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const clamped = Math.min(outer, Math.max(inner, radius));
  const away = Math.abs(radius - clamped);
  z += (contourHeight(rim, clamped) + away * (0.8 + 0.3 * away)) / az;
  return z;
}
