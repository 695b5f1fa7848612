/** What colour (brightness) the skin has at a point of the head: skin, eyes, brows, lips, nostrils, hair, moles, the dabs at the marks. */
import { createRandom } from '../../../src/core/random';
import { type Vec3, add, scale } from '../../../src/core/vector';
import { solidNoise } from './noise';
import type { Scene } from './sceneTypes';

export interface FacePaint {
  /** 0 to 255 before the light falls on it. */
  luma(point: Vec3, eyesOpen: boolean): number;
  /** How high over the eye's middle line a point near an eye lies (1: the open lid); null away from the eyes. */
  lidHeight(point: Vec3): number | null;
  /** An ear's flap: `outward` and `down` from −1 to 1 over it; 0 stands for nothing there. */
  ear(point: Vec3, outward: number, down: number): number;
}

export function facePaint(scene: Scene): FacePaint {
  const [coarse, middle, fine, finest] = [30, 31, 32, 33].map((stream) => solidNoise(scene.seed, stream)) as [Noise, Noise, Noise, Noise];
  const near = spotFinder(spotsOf(scene));
  const eyes = (['right', 'left'] as const).map((side) => eyeOf(scene.landmarks[`inner-eye-${side}`], scene.landmarks[`outer-eye-${side}`]));
  const contrast = scene.picture.skinContrast;
  const grain = ([x, y, z]: Vec3): number =>
    contrast * (5 * coarse(x / 14, y / 14, z / 14) + 5 * middle(x / 5, y / 5, z / 5) + 6 * fine(x / 2.1, y / 2.1, z / 2.1) + 5 * finest(x / 1.05, y / 1.05, z / 1.05));
  const strands = ([x, y, z]: Vec3): number => 10 * middle(x / 2.5, y / 9, z / 9) + 12 * fine(x / 1.4, y / 4, z / 6) + 6 * coarse(x / 12, y / 12, z / 12);

  const skin = (point: Vec3): number => {
    let luma = scene.look.skinLuma + grain(point);
    for (const { at, radius, change } of near(point)) {
      const distance = Math.hypot(point[0] - at[0], point[1] - at[1], point[2] - at[2]);
      if (distance < radius + 0.5) luma += change * Math.min(1, radius + 0.5 - distance);
    }
    return luma;
  };
  const hairy = ([x, y, z]: Vec3): number => Math.min(y - 122 - 5 * coarse(x / 20, y / 20, z / 20) + 0.004 * x * x, 1) + Math.max(0, -(z + 62 + 0.35 * (90 - y)) / 6);

  return {
    lidHeight(point) {
      if (point[2] < -60) return null;
      for (const eye of eyes) {
        const [part, up] = along(eye, point);
        if (Math.abs(part) < 1.15 && Math.abs(up) < 1.6) return up;
      }
      return null;
    },
    luma(point, eyesOpen) {
      const [x, y, z] = point;
      let luma = skin(point);
      if (hairy(point) > 0 && (z < -62 || y > 100)) luma = HAIR + strands(point) + Math.max(0, luma - scene.look.skinLuma - 30);
      if (z > -60) {
        for (const eye of eyes) luma = paintEye(luma, eye, point, eyesOpen);
        luma = paintLips(luma, x, y, grain(point));
        const nostril = Math.hypot((Math.abs(x) - 7) / 4, (y - 27) / 2.6);
        if (z > 0 && nostril < 1.2) luma -= 70 * Math.min(1, (1.2 - nostril) * 3);
      }
      return Math.max(12, Math.min(245, luma));
    },
    ear(point, outward, down) {
      const rim = Math.hypot(outward, down);
      if (rim > 1) return 0;
      const fold = Math.abs(Math.hypot(outward - 0.1, down) - 0.62) < 0.1 || Math.hypot(outward + 0.15, down - 0.05) < 0.22;
      return Math.max(12, Math.min(245, skin(point) - (fold ? 45 : 0) - (rim > 0.9 ? 25 : 0)));
    },
  };
}

type Noise = ReturnType<typeof solidNoise>;
const HAIR = 62;

interface Spot {
  readonly at: Vec3;
  readonly radius: number;
  readonly change: number;
}

/** Moles and freckles here and there, and a clear dab where a careful person would mark. */
function spotsOf(scene: Scene): Spot[] {
  const random = createRandom(scene.seed, 34);
  const { landmarks, level } = scene;
  const freckles = Array.from({ length: 160 }, (): Spot => {
    const azimuth = 3 * (random.uniform() - 0.5);
    const y = -40 + 160 * random.uniform();
    // Near enough to the skin: a spot is a ball, and what of it lies on the skin is seen.
    return { at: [64 * Math.sin(azimuth), y, -66 + 66 * Math.cos(azimuth)], radius: 0.8 + 1.6 * random.uniform(), change: (-10 - 22 * random.uniform()) * Math.min(1, scene.picture.skinContrast) };
  });
  const dab = (at: Vec3, radius: number, change: number): Spot => ({ at, radius, change });
  return [
    ...freckles,
    ...(['nose-bridge', 'cheekbone-right', 'cheekbone-left', 'ear-right', 'ear-left'] as const).map((name) => dab(landmarks[name], 1.4, -55 * scene.look.dabs)),
    dab(level.back, 2.2, 95),
    dab(level.front, 2.2, 95),
  ];
}

/** The spots that may reach a point, by cells of 8 mm. */
function spotFinder(spots: readonly Spot[]): (point: Vec3) => readonly Spot[] {
  const cells = new Map<number, Spot[]>();
  const cell = (x: number, y: number, z: number): number => (Math.floor(x / 8) + 64) * 65536 + (Math.floor(y / 8) + 64) * 256 + Math.floor(z / 8) + 64;
  for (const spot of spots) {
    const [x, y, z] = spot.at;
    const keys = new Set<number>();
    for (const dx of [-4, 4]) for (const dy of [-4, 4]) for (const dz of [-4, 4]) keys.add(cell(x + dx, y + dy, z + dz));
    for (const key of keys) cells.set(key, [...(cells.get(key) ?? []), spot]);
  }
  return ([x, y, z]) => cells.get(cell(x, y, z)) ?? NO_SPOTS;
}
const NO_SPOTS: readonly Spot[] = [];

interface Eye {
  readonly middle: Vec3;
  readonly axis: Vec3;
  readonly halfMm: number;
}

function eyeOf(inner: Vec3, outer: Vec3): Eye {
  const half: Vec3 = scale([outer[0] - inner[0], outer[1] - inner[1], outer[2] - inner[2]], 0.5);
  const halfMm = Math.hypot(...half);
  return { middle: add(inner, half), axis: scale(half, 1 / halfMm), halfMm };
}

/** Along the eye (−1 inner corner to 1 outer corner) and up (1 is the open lid's height). */
function along({ middle, axis, halfMm }: Eye, [x, y, z]: Vec3): readonly [number, number] {
  const from: Vec3 = [x - middle[0], y - middle[1], z - middle[2]];
  const part = from[0] * axis[0] + from[1] * axis[1] + from[2] * axis[2];
  return [part / halfMm, (from[1] - part * axis[1]) / LID_MM];
}
const LID_MM = 6;

function paintEye(skin: number, eye: Eye, point: Vec3, open: boolean): number {
  const [part, up] = along(eye, point);
  if (Math.abs(part) > 1.6 || up < -1.8 || up > 4) return skin;
  const brow = up - 2.6 + 0.5 * part * part;
  if (Math.abs(brow) < 0.45 && part > -1.1) return skin - 75 * (1 - (brow / 0.45) ** 2);
  const lid = 1 - part * part;
  const corner = Math.hypot((Math.abs(part) - 1) * eye.halfMm, up * LID_MM);
  if (corner < 1.3) return skin - 85 * Math.min(1, 1.3 - corner + 0.3);
  if (lid <= 0) return skin;
  const within = up / lid;
  if (!open) return Math.abs(up + 0.75 * lid) < 0.14 ? skin - 80 : skin - 8;
  if (Math.abs(within) > 1) return Math.abs(within) < 1 + 0.14 / lid ? skin - 80 : skin;
  const iris = Math.hypot(part * eye.halfMm, up * LID_MM);
  if (iris < 2.6) return 22;
  return iris < 6 ? 70 : 205 - 20 * Math.abs(part);
}

function paintLips(skin: number, x: number, y: number, grain: number): number {
  const half = 9 * Math.sqrt(Math.max(0, 1 - (x / 27) ** 2));
  if (Math.abs(x) > 27 || Math.abs(y + 2) > half) return skin;
  return Math.abs(y + 2) < 0.7 ? 60 : 122 + 0.8 * grain - 2 * Math.abs(y + 2);
}
