/**
 * A scene of flat sheets: a textured face, and a ring of metal before it, each under its own shift, growth and turn. Brightness is known at
 * every place, so the places of points and of the ring's edge are exact. For tests of tracking; films of a head in space: tests/support/films.
 */
import type { Random } from '../../src/core/random';
import type { GreyPicture, Point } from '../../src/measure/picture';
import type { RimEllipse } from '../../src/measure/traces';
import { type Brightness, createTexture, pictureOf } from './texture';

export const FLAT_WIDTH = 320;
export const FLAT_HEIGHT = 240;
/** Of the ring, at rest. */
export const RING = { centre: { x: 165, y: 150 }, outerPx: 42, innerPx: 26 } as const;

/** About the picture's middle for the face, about the ring's centre for the ring. */
export interface Motion {
  readonly dx: number;
  readonly dy: number;
  readonly growth: number;
  readonly turnRad: number;
}

export const AT_REST: Motion = { dx: 0, dy: 0, growth: 1, turnRad: 0 };

export interface FlatFrame {
  readonly face: Motion;
  readonly ring: Motion;
  /** A grey square over everything, px. */
  readonly cover?: { readonly left: number; readonly top: number; readonly sizePx: number } | undefined;
  /** Brightness becomes offset + gain × brightness. */
  readonly exposure?: { readonly gain: number; readonly offset: number } | undefined;
  readonly noise?: { readonly random: Random; readonly sdGrey: number } | undefined;
}

export interface FlatScene {
  draw(frame: FlatFrame): GreyPicture;
}

export function flatScene(random: Random): FlatScene {
  const face = createTexture(random, 9, 22, WAVES);
  const metal = createTexture(random, 7, 14, WAVES);
  return {
    draw({ face: faceMotion, ring, cover, exposure = { gain: 1, offset: 0 }, noise }) {
      const scene: Brightness = (x, y) => {
        if (cover && x >= cover.left && x < cover.left + cover.sizePx && y >= cover.top && y < cover.top + cover.sizePx) return 90;
        const onFace = back({ x, y }, MIDDLE, faceMotion);
        const onRing = back({ x, y }, RING.centre, ring);
        const radius = Math.hypot(onRing.x - RING.centre.x, onRing.y - RING.centre.y);
        // Each edge is one pixel's width of blend, as a pixel's area sees it.
        const share = within((RING.outerPx - radius) * ring.growth + 0.5) * within((radius - RING.innerPx) * ring.growth + 0.5);
        const below = share < 1 ? face(onFace.x, onFace.y) - 20 : 0;
        const above = share > 0 ? metal(onRing.x, onRing.y) + 50 : 0;
        return exposure.offset + exposure.gain * (below + share * (above - below));
      };
      return pictureOf(FLAT_WIDTH, FLAT_HEIGHT, scene, noise);
    },
  };
}

/** Where a point of the face at rest is seen. */
export function seenOnFace(at: Point, motion: Motion): Point {
  return forward(at, MIDDLE, motion);
}

export function ringSeen({ dx, dy, growth }: Motion): RimEllipse {
  const radius = RING.outerPx * growth;
  return { centre: { x: RING.centre.x + dx, y: RING.centre.y + dy }, semiMajorPx: radius, semiMinorPx: radius, angleRad: 0 };
}

/** Points on its edge, as a person would mark them. */
export function ringMarks(motion: Motion): Point[] {
  const { centre, semiMajorPx } = ringSeen(motion);
  return Array.from({ length: 8 }, (_, index) => {
    const angle = (2 * Math.PI * index) / 8;
    return { x: centre.x + semiMajorPx * Math.cos(angle), y: centre.y + semiMajorPx * Math.sin(angle) };
  });
}

/** Enough for a random look, few enough to draw hundreds of frames. */
const WAVES = 10;
const MIDDLE: Point = { x: FLAT_WIDTH / 2, y: FLAT_HEIGHT / 2 };
const within = (value: number): number => Math.max(0, Math.min(1, value));

function forward(at: Point, about: Point, { dx, dy, growth, turnRad }: Motion): Point {
  const [a, b] = [growth * Math.cos(turnRad), growth * Math.sin(turnRad)];
  const u = at.x - about.x;
  const v = at.y - about.y;
  return { x: about.x + dx + a * u - b * v, y: about.y + dy + b * u + a * v };
}

function back(at: Point, about: Point, { dx, dy, growth, turnRad }: Motion): Point {
  const [a, b] = [Math.cos(turnRad) / growth, Math.sin(turnRad) / growth];
  const u = at.x - about.x - dx;
  const v = at.y - about.y - dy;
  return { x: about.x + a * u + b * v, y: about.y + a * v - b * u };
}
