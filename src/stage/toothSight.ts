/** Whether a tooth can be seen from where the camera stands: a number over a tooth that is cut away or hidden would hang in empty space or on the brass. */
import type { RimStand } from './lipSheet';
import type { InstrumentProfiles, Profile } from './rimShape';

type Place = Readonly<Record<'x' | 'y' | 'z', number>>;

export interface ToothSight {
  /** The side view takes away what lies to the player's right of the rim's centre. */
  readonly cutting: boolean;
  /** What of the instrument hides what is behind it: nothing, the half on the player's left, or all of it. */
  readonly instrument: 'glass' | 'halved' | 'whole';
  readonly profiles: InstrumentProfiles;
}

/** Cosine of the most slanting look at a crown's face at which its number still reads as that tooth's. */
const LEAST_FACING = 0.2;
/** The cut is looked into from the tongue's side, where the cut face itself hides the first teeth behind it. */
const LEAST_FACING_FROM_WITHIN = 0.8;
const STEP_MM = 0.75;

/** `facing` is the crown's outward direction, length 1. */
export function seesTooth(sight: ToothSight, eye: Place, tooth: Place, facing: Place, stand: RimStand): boolean {
  const toEye = { x: eye.x - tooth.x, y: eye.y - tooth.y, z: eye.z - tooth.z };
  const distance = Math.hypot(toEye.x, toEye.y, toEye.z);
  const toward = (facing.x * toEye.x + facing.y * toEye.y + facing.z * toEye.z) / distance;
  if (sight.cutting) {
    if (tooth.x < stand.centre[0]!) return false;
    if (toward < -LEAST_FACING_FROM_WITHIN) return true;
  }
  return toward > LEAST_FACING && !isBehindBrass(sight, tooth, toEye, distance, stand);
}

/** Walks from the tooth toward the eye, in the instrument's own directions. */
function isBehindBrass({ instrument, profiles }: ToothSight, tooth: Place, toEye: Place, distance: number, { centre, directions: d }: RimStand): boolean {
  if (instrument === 'glass') return false;
  const from = [tooth.x - centre[0]!, tooth.y - centre[1]!, tooth.z - centre[2]!] as const;
  const along = (axis: number, x: number, y: number, z: number): number => d[axis * 3]! * x + d[axis * 3 + 1]! * y + d[axis * 3 + 2]! * z;
  const start = [0, 1, 2].map((axis) => along(axis, ...from)) as [number, number, number];
  const step = [0, 1, 2].map((axis) => (along(axis, toEye.x, toEye.y, toEye.z) / distance) * STEP_MM) as [number, number, number];
  const steps = Math.min(distance, Math.hypot(...start) + profiles.lengthMm) / STEP_MM;
  for (let taken = 1; taken < steps; taken++) {
    const across = start[0] + step[0] * taken;
    if (instrument === 'halved' && across < 0) continue;
    const radius = Math.hypot(across, start[1] + step[1] * taken);
    const reach = start[2] + step[2] * taken;
    if (isWithin(profiles.rim, radius, reach) || isWithin(profiles.body, radius, reach)) return true;
  }
  return false;
}

/** Even and odd crossings of the closed profile. */
function isWithin(profile: Profile, radius: number, reach: number): boolean {
  let within = false;
  for (let index = 1; index < profile.length; index++) {
    const [fromRadius, fromReach] = profile[index - 1]!;
    const [toRadius, toReach] = profile[index]!;
    if (fromReach > reach === toReach > reach) continue;
    if (radius < fromRadius + ((reach - fromReach) / (toReach - fromReach)) * (toRadius - fromRadius)) within = !within;
  }
  return within;
}
