/**
 * An invented face: nine landmarks of the skull about plausible adult means (values from memory) and a closed surface through them,
 * as distances from a point inside the head. Everything in the player's frame, mm (core/frame.ts), origin at the incisors.
 */
import { type Vec3, add, length, normalize, scale, subtract } from '../../../src/core/vector';
import type { Random } from '../../../src/core/random';
import { LANDMARK_NAMES, type LandmarkName } from '../../../src/measure/marks';
import { solved } from './geometry';

export type HeadLandmarks = Readonly<Record<LandmarkName, Vec3>>;

export interface HeadSurface {
  /** Distance from HEAD_MIDDLE to the skin along a direction (a unit vector), mm. */
  radiusMm(direction: Vec3): number;
  /** The skin's point at an azimuth (0 forward, toward the player's left, radians) and a height, mm. */
  atHeight(azimuth: number, heightMm: number): Vec3;
}

/** From here every point of the skin is seen along one straight line. */
export const HEAD_MIDDLE: Vec3 = [0, 62, -82];

/** One person's landmarks: both sides share the person's own variation and differ by `SIDE_SD_MM` of the spot more. */
export function personsLandmarks(random: Random): HeadLandmarks {
  const placed: Partial<Record<LandmarkName, Vec3>> = {};
  const own = new Map<string, Vec3>();
  for (const name of LANDMARK_NAMES) {
    const kind = name.replace(/-(right|left)$/, '');
    if (!own.has(kind)) own.set(kind, normals(random, PERSON_SD_MM));
    const side = name.endsWith('right') ? -1 : 1;
    const [x, y, z] = MEANS[kind]!;
    const shift = add(own.get(kind)!, normals(random, SIDE_SD_MM[kind]!));
    placed[name] = kind === 'nose-bridge' ? [0.3 * shift[0], y + shift[1], z + shift[2]] : [side * (x + shift[0]), y + shift[1], z + shift[2]];
  }
  return placed as HeadLandmarks;
}

/** Smooth (cubes of distances on the sphere of directions) through the landmarks and some points that make it a face. */
export function headSurface(landmarks: HeadLandmarks): HeadSurface {
  const points = [...onTheSkin(landmarks), ...shapePoints(landmarks)];
  const directions = points.map((point) => normalize(subtract(point, HEAD_MIDDLE)));
  const count = points.length;
  const kernel = (a: Vec3, b: Vec3): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]) ** 3;
  const matrix = directions.map((direction) => [...directions.map((other) => kernel(direction, other)), 1, ...direction]);
  for (let term = 0; term < 4; term++) {
    matrix.push([...directions.map((direction) => (term === 0 ? 1 : direction[term - 1]!)), 0, 0, 0, 0]);
  }
  const right = [...points.map((point, at) => length(subtract(point, HEAD_MIDDLE)) - ballMm(directions[at]!)), 0, 0, 0, 0];
  const weights = solved(matrix, right);
  const radiusMm = (direction: Vec3): number => {
    let sum = ballMm(direction) + weights[count]!;
    for (let axis = 0; axis < 3; axis++) sum += weights[count + 1 + axis]! * direction[axis]!;
    for (let at = 0; at < count; at++) sum += weights[at]! * kernel(direction, directions[at]!);
    return sum;
  };
  return {
    radiusMm,
    atHeight(azimuth, heightMm) {
      let [low, high] = [-1.2, Math.PI / 2];
      const at = (polar: number): Vec3 => {
        const direction = directionOf(azimuth, polar);
        return add(HEAD_MIDDLE, scale(direction, radiusMm(direction)));
      };
      for (let step = 0; step < 50; step++) {
        const middle = (low + high) / 2;
        if (at(middle)[1] < heightMm) low = middle;
        else high = middle;
      }
      return at((low + high) / 2);
    },
  };
}

export const directionOf = (azimuth: number, polar: number): Vec3 => [
  Math.sin(azimuth) * Math.cos(polar),
  Math.sin(polar),
  Math.cos(azimuth) * Math.cos(polar),
];

/** An ear stands off the head: its flap's middle is the landmark. Unit vectors across (outward) and up, and the half sizes, mm. */
export function earFlap(landmarks: HeadLandmarks, side: 'right' | 'left'): { readonly middle: Vec3; readonly across: Vec3; readonly up: Vec3 } {
  const sign = side === 'right' ? -1 : 1;
  return { middle: landmarks[`ear-${side}`], across: [0.8 * sign, 0, -0.6], up: [0, 1, 0] };
}
export const EAR_HALF_MM = { across: 13, up: 24 } as const;

/** Means, mm, for the left side: value from memory of adult faces, not taken from any one study. */
const MEANS: Readonly<Record<string, Vec3>> = {
  'nose-bridge': [0, 82, 3],
  'inner-eye': [17, 76, -13],
  'outer-eye': [46, 78, -25],
  cheekbone: [53, 49, -23],
  ear: [73, 56, -92],
};
const PERSON_SD_MM: Vec3 = [4, 4, 4.5];
/** Faces are even to a millimetre or two where a spot has an edge; on a cheekbone, and less so before an ear, a hand chooses another spot on each side: value from memory. */
const SIDE_SD_MM: Readonly<Record<string, Vec3>> = {
  'nose-bridge': [1, 1, 1],
  'inner-eye': [1, 1, 1.2],
  'outer-eye': [1.2, 1.2, 1.5],
  cheekbone: [3, 3, 2.5],
  ear: [2, 2.5, 3],
};

const normals = (random: Random, sd: Vec3): Vec3 => [sd[0] * random.normal(), sd[1] * random.normal(), sd[2] * random.normal()];

function onTheSkin(landmarks: HeadLandmarks): Vec3[] {
  return LANDMARK_NAMES.map((name) => {
    const [x, y, z] = landmarks[name];
    // The ear's own flap passes through its landmark; the skull lies further in.
    return name.startsWith('ear') ? [x - Math.sign(x) * EAR_INWARD_MM, y, z] : [x, y, z];
  });
}
const EAR_INWARD_MM = 8;

/** Nose, lips, chin, cheeks, forehead and the back of the head, so that the surface is a head all round. */
function shapePoints(landmarks: HeadLandmarks): Vec3[] {
  const bridge = landmarks['nose-bridge'];
  const middle: Vec3[] = [
    [0, bridge[1] - 38, bridge[2] + 24],
    [0, 24, 10],
    [0, 4, 8],
    [0, -12, 7],
    [0, -40, 4],
    [0, bridge[1] + 42, bridge[2]],
    [0, 160, -30],
    [0, 184, -85],
    [0, 150, -160],
    [0, 70, -182],
    [0, -20, -150],
    [0, -75, -70],
  ];
  const pairs: Vec3[] = [
    [13, bridge[1] - 40, 2],
    [34, 12, -6],
    [28, -22, -8],
    [36, bridge[1] + 34, -16],
    [60, 100, -60],
    [58, 10, -55],
    [62, 60, -125],
    [50, 140, -90],
    [45, -40, -70],
  ];
  return [...middle, ...pairs.flatMap(([x, y, z]): Vec3[] => [[x, y, z], [-x, y, z]])];
}

/** The plain ellipsoid that the landmarks bend. */
function ballMm([x, y, z]: Vec3): number {
  return 1 / Math.hypot(x / 68, y / 120, z / 98);
}
