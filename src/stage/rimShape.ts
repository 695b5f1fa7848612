/**
 * Rim, cup, shank and a short length of tube, turned about the horn's axis. Only the rim's contour is a measure; cup and
 * shank are generic proportions of the inner diameter, so that no maker's model is drawn.
 */
import type { RimSpec } from '../core/specs';

/** Points of a turned profile: radius and distance along the axis toward the bell, mm. */
export type Profile = readonly (readonly [number, number])[];

export interface InstrumentProfiles {
  /** The face that the lips meet, from the inner to the outer edge. */
  readonly face: Profile;
  /** The rim with a short piece of wall, closed. */
  readonly rim: Profile;
  /** Cup, shank and tube, closed. */
  readonly body: Profile;
  /** The band round the rim's shoulder that carries the pressure colours. */
  readonly collar: Profile;
  /** The same for views from the front. */
  readonly back: Profile;
  readonly lengthMm: number;
}

const RIM_WALL_MM = 7;

/** `contour` says how far the rim's face recedes toward the bell at a radius, mm. */
export function instrumentProfiles(rim: RimSpec, contour: (radiusMm: number) => number): InstrumentProfiles {
  const inner = rim.innerDiameterMm / 2;
  const outer = rim.outerDiameterMm / 2;
  const bore = rim.innerDiameterMm;
  const steps = 24;
  const face: [number, number][] = Array.from({ length: steps + 1 }, (_, step) => {
    const radius = inner + ((outer - inner) * step) / steps;
    return [radius, contour(radius)];
  });
  const innerDrop = contour(inner);
  const outerDrop = contour(outer);
  const wallEnd = RIM_WALL_MM + outerDrop;
  const shoulder: [number, number][] = [
    [outer + 0.25, outerDrop + 0.5],
    [outer + 0.4, outerDrop + 1.4],
    [outer + 0.35, outerDrop + 4.2],
    [outer, wallEnd - 1],
    [outer - 0.7, wallEnd],
  ];
  const rimProfile: Profile = [
    [inner - 0.7, wallEnd],
    [inner - 0.35, innerDrop + 3],
    [inner - 0.1, innerDrop + 1],
    ...face,
    ...shoulder,
    [inner - 0.7, wallEnd],
  ];

  const cupDepth = bore * 0.95;
  const throat = bore * 0.14;
  const shank = Math.max(throat + 1.6, bore * 0.2);
  const shankStart = cupDepth + 5;
  const shankEnd = shankStart + bore * 0.95;
  const lengthMm = shankEnd + bore * 0.5;
  const bowl: [number, number][] = curve(10, (part) => [
    throat + (inner - 0.7 - throat) * Math.sqrt(1 - part ** 2.2),
    wallEnd + (cupDepth - wallEnd) * part,
  ]);
  // Behind the rim the cup's outside steps in and then follows the bowl.
  const cupOutside = Math.min(outer - 1.4, inner + 2);
  const outside: [number, number][] = [
    [outer - 0.7, wallEnd],
    [cupOutside + 0.5, wallEnd + 0.5],
    ...curve(14, (part) => {
      const eased = part * part * (3 - 2 * part);
      return [cupOutside + (shank - cupOutside) * (0.35 * part + 0.65 * eased), wallEnd + 1 + (shankStart - wallEnd - 1) * part];
    }),
  ];
  const body: Profile = [
    ...bowl,
    [throat + 0.8, shankEnd],
    [shank - 0.7, lengthMm],
    [shank + 1.3, lengthMm],
    [shank + 1.3, shankEnd + 1.5],
    [shank + 1.9, shankEnd + 1.2],
    [shank + 1.9, shankEnd - 1.6],
    [shank + 0.5, shankEnd - 1.8],
    ...outside.reverse(),
    [inner - 0.7, wallEnd],
  ];
  const collar: Profile = [
    [outer + 0.08, outerDrop + 0.15],
    [outer + 0.4, outerDrop + 0.55],
    [outer + 0.58, outerDrop + 1.4],
    [outer + 0.55, outerDrop + 3],
  ];
  // From the front the shoulder is hidden: there the same colours lie on the rim's back.
  const back: Profile = [
    [outer + 0.6, outerDrop + 3],
    [outer + 0.3, wallEnd + 0.1],
    [(inner + outer) / 2 + 0.6, wallEnd + 0.1],
  ];
  return { face, rim: rimProfile, body: [...body].reverse(), collar, back, lengthMm };
}

export interface Turned {
  readonly positions: Float32Array;
  readonly index: Uint32Array;
}

/**
 * Turns a profile about the z axis from angle `from` to `to` (from the player's left over the top), wound outward for a
 * profile that runs from the inside over the lips' side to the outside. One column of vertices for each of `turns` + 1 angles.
 */
export function turn(profile: Profile, turns: number, from = 0, to = 2 * Math.PI): Turned {
  const count = profile.length;
  const positions = new Float32Array(count * (turns + 1) * 3);
  const index = new Uint32Array((count - 1) * turns * 6);
  for (let column = 0; column <= turns; column++) {
    const angle = from + ((to - from) * column) / turns;
    profile.forEach(([radius, along], row) => {
      positions.set([radius * Math.cos(angle), radius * Math.sin(angle), along], (column * count + row) * 3);
    });
  }
  let at = 0;
  for (let column = 0; column < turns; column++) {
    for (let row = 0; row + 1 < count; row++) {
      const a = column * count + row;
      const b = a + count;
      index.set([a, b, a + 1, b, b + 1, a + 1], at);
      at += 6;
    }
  }
  return { positions, index };
}

function curve(steps: number, at: (part: number) => [number, number]): [number, number][] {
  return Array.from({ length: steps + 1 }, (_, step) => at(step / steps));
}
