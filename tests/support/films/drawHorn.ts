/** Draws the rim's plane with an exact, softened edge, then cup, tube and beads by rays. */
import { dot } from '../../../src/core/vector';
import { createRandom } from '../../../src/core/random';
import { type Canvas, sampled } from './drawHead';
import { type FilmCamera, pixelOf } from './filmCamera';
import type { Texture } from './headTexture';
import { type HornHit, type HornPlace, type Piece, hornHit, hornPieces } from './hornShape';
import { solidNoise } from './noise';
import type { Scene } from './sceneTypes';

export interface HornModel {
  readonly pieces: readonly Piece[];
  /** The rim's plane, from −outer to +outer radius across and down. */
  readonly plane: Texture;
  /** Along the axis (TUBE_PER_MM texels a mm) and once round it. */
  readonly tube: Texture;
  readonly hits: Int8Array;
}

export function hornModel(scene: Scene): HornModel {
  return { pieces: hornPieces(scene), plane: planeTexture(scene), tube: tubeTexture(scene), hits: new Int8Array(scene.camera.width * scene.camera.height) };
}

/**
 * The metal's plane and a soft shadow on the skin outside it. A pixel on the edge is as bright as the part of it the metal covers (the
 * distance to the edge in px, found from the slope of the distance in mm).
 */
export function drawRimPlane(canvas: Canvas, model: HornModel, scene: Scene, place: HornPlace): void {
  const { camera, rim } = scene;
  const { centre, across, up, axis } = place;
  const outer = rim.outerDiameterMm / 2;
  const reach = outer + SHADOW_MM;
  const pxPerMm = camera.focalPx / centre[2];
  const middle = pixelOf(camera, centre);
  const distance = dot(centre, axis);
  const [middleX, middleY] = [(camera.width - 1) / 2, (camera.height - 1) / 2];
  const [centreAcross, centreUp] = [dot(centre, across), dot(centre, up)];
  // Distance from the rim's middle in its plane, mm, at a pixel; `offAcross` and `offUp` are its two parts.
  let offAcross = 0;
  let offUp = 0;
  function outAt(x: number, y: number): number {
    const rayX = (x - middleX) / camera.focalPx;
    const rayY = (y - middleY) / camera.focalPx;
    const depth = distance / (rayX * axis[0] + rayY * axis[1] + axis[2]);
    offAcross = depth * (rayX * across[0] + rayY * across[1] + across[2]) - centreAcross;
    offUp = depth * (rayX * up[0] + rayY * up[1] + up[2]) - centreUp;
    return Math.sqrt(offAcross * offAcross + offUp * offUp);
  }
  const halfPx = reach * pxPerMm * 1.08;
  const [left, right] = [Math.max(0, Math.floor(middle.x - halfPx)), Math.min(camera.width - 1, Math.ceil(middle.x + halfPx))];
  const [top, bottom] = [Math.max(0, Math.floor(middle.y - halfPx)), Math.min(camera.height - 1, Math.ceil(middle.y + halfPx))];
  const texels = (model.plane.width - 1) / 2;
  for (let y = top; y <= bottom; y++) {
    for (let x = left; x <= right; x++) {
      const out = outAt(x, y);
      if (out >= reach) continue;
      const at = y * canvas.width + x;
      let metal = out < outer ? 1 : 0;
      if (Math.abs(out - outer) < 1.5 / pxPerMm) {
        const slopeX = outAt(x + 0.5, y) - outAt(x - 0.5, y);
        const slopeY = outAt(x, y + 0.5) - outAt(x, y - 0.5);
        metal = Math.max(0, Math.min(1, 0.5 + (outer - out) / Math.hypot(slopeX, slopeY)));
      }
      const shadow = 1 - SHADOW_PART * Math.min(1, (reach - out) / SHADOW_MM);
      outAt(x, y);
      let bright = 0;
      if (metal > 0) bright = sampled(model.plane, texels * (1 + offAcross / outer), texels * (1 - offUp / outer)) + GLINT * Math.cos((2 * (x - middle.x)) / halfPx + (3 * (y - middle.y)) / halfPx);
      canvas.luma[at] = metal * bright + (1 - metal) * shadow * canvas.luma[at]!;
    }
  }
}
const SHADOW_MM = 2.2;
const SHADOW_PART = 0.25;
/** A reflection of the room, which stays where it is when the metal moves, grey levels. */
const GLINT = 8;

/** `overHead`: what of the head is nearer than the horn hides it. */
export function drawHorn(canvas: Canvas, model: HornModel, scene: Scene, place: HornPlace, overHead: boolean): void {
  const { camera } = scene;
  const box = boxOf(scene, place);
  const middle = [(camera.width - 1) / 2, (camera.height - 1) / 2] as const;
  const hitAt = (x: number, y: number): HornHit | null => {
    const hit = hornHit(model.pieces, place, (x - middle[0]) / camera.focalPx, (y - middle[1]) / camera.focalPx);
    if (hit === null || !overHead) return hit;
    return 1 / hit.depth < canvas.nearness[Math.round(y) * canvas.width + Math.round(x)]! ? null : hit;
  };
  for (let y = box.top; y <= box.bottom; y++) {
    for (let x = box.left; x <= box.right; x++) {
      const at = y * canvas.width + x;
      const hit = hitAt(x, y);
      model.hits[at] = hit ? hit.piece : -1;
      if (hit) canvas.luma[at] = hornLuma(model, camera, place, hit, x, y);
    }
  }
  softenEdges(canvas, model, camera, place, box, hitAt);
}

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Pixels where two pieces, or a piece and the air, meet: sixteen rays each. What lay behind is not kept, so a neighbour stands for it. */
function softenEdges(canvas: Canvas, { hits, ...model }: HornModel, camera: FilmCamera, place: HornPlace, box: Box, hitAt: (x: number, y: number) => HornHit | null): void {
  const { width, luma } = canvas;
  for (let y = box.top + 1; y < box.bottom; y++) {
    for (let x = box.left + 1; x < box.right; x++) {
      const at = y * width + x;
      const own = hits[at]!;
      const sides = [at - 1, at + 1, at - width, at + width];
      if (sides.every((side) => hits[side] === own)) continue;
      const free = sides.find((side) => hits[side] === -1);
      const behind = own === -1 ? luma[at]! : free === undefined ? luma[at]! : luma[free]!;
      let sum = 0;
      for (let sub = 0; sub < 16; sub++) {
        const [px, py] = [x + ((sub & 3) - 1.5) / 4, y + ((sub >> 2) - 1.5) / 4];
        const hit = hitAt(px, py);
        sum += hit ? hornLuma({ hits, ...model }, camera, place, hit, px, py) : behind;
      }
      luma[at] = sum / 16;
    }
  }
}

function hornLuma(model: HornModel, camera: FilmCamera, place: HornPlace, hit: HornHit, x: number, y: number): number {
  const piece = model.pieces[hit.piece]!;
  const { centre, axis, across, up } = place;
  const p = [
    (hit.depth * (x - (camera.width - 1) / 2)) / camera.focalPx - centre[0],
    (hit.depth * (y - (camera.height - 1) / 2)) / camera.focalPx - centre[1],
    hit.depth - centre[2],
  ] as const;
  if (piece.kind === 'lid') return piece.radiusMm > LARGE_LID_MM ? 150 : 40;
  const from = piece.kind === 'bead' ? piece.atMm : hit.alongMm;
  const out = [p[0] - from * axis[0], p[1] - from * axis[1], p[2] - from * axis[2]] as const;
  const size = Math.hypot(...out);
  const lit = Math.max(0, -(0.3 * out[0] + 0.6 * out[1] + 0.74 * out[2]) / size);
  if (piece.kind === 'bead') return 34 + 40 * lit + 130 * lit ** 24;
  const round = Math.atan2(dot(out, up), dot(out, across)) / (2 * Math.PI) + 0.5;
  return (0.55 + 0.35 * lit + 0.3 * lit ** 8) * sampled(model.tube, TUBE_PER_MM * hit.alongMm, round * (model.tube.height - 1));
}
const LARGE_LID_MM = 6;
const TUBE_PER_MM = 4;

function boxOf({ camera, horn, rim }: Scene, { centre, axis }: HornPlace): Box {
  const ends = [0, horn.lengthMm].map((mm) => {
    const point = [centre[0] + mm * axis[0], centre[1] + mm * axis[1], Math.max(50, centre[2] + mm * axis[2])] as const;
    const reach = (camera.focalPx * Math.max(mm === 0 ? rim.outerDiameterMm / 2 : 0, 1.2 * horn.beadRadiusMm)) / point[2] + 6;
    return { ...pixelOf(camera, point), reach };
  });
  const clamp = (value: number, to: number): number => Math.max(0, Math.min(to - 1, Math.round(value)));
  return {
    left: clamp(Math.min(...ends.map((end) => end.x - end.reach)), camera.width),
    right: clamp(Math.max(...ends.map((end) => end.x + end.reach)), camera.width),
    top: clamp(Math.min(...ends.map((end) => end.y - end.reach)), camera.height),
    bottom: clamp(Math.max(...ends.map((end) => end.y + end.reach)), camera.height),
  };
}

/** Bright ring with fine grain and some engraved spots; inside it the darker hollow of the cup with rings. */
function planeTexture({ seed, rim, look: { rimLuma, rimGrain } }: Scene): Texture {
  const size = 320;
  const [grain, patches] = [solidNoise(seed, 35), solidNoise(seed, 36)];
  const random = createRandom(seed, 37);
  const [outer, inner] = [rim.outerDiameterMm / 2, rim.innerDiameterMm / 2];
  const spots = Array.from({ length: 26 }, () => ({
    angle: 2 * Math.PI * random.uniform(),
    at: inner + (outer - inner) * (0.2 + 0.6 * random.uniform()),
    radius: 0.25 + 0.5 * random.uniform(),
  }));
  const luma = new Uint8Array(size * size);
  for (let row = 0; row < size; row++) {
    for (let column = 0; column < size; column++) {
      const x = ((2 * column) / (size - 1) - 1) * outer;
      const y = (1 - (2 * row) / (size - 1)) * outer;
      const out = Math.hypot(x, y);
      let value = rimLuma + rimGrain * (9 * grain(x / 0.45, y / 0.45, 0) + 12 * patches(x / 2.5, y / 2.5, 0));
      for (const { angle, at, radius } of spots) if (Math.hypot(x - at * Math.cos(angle), y - at * Math.sin(angle)) < radius) value -= 60 * rimGrain;
      if (out < inner) value = 92 + 10 * patches(x / 2, y / 2, 5) + 10 * Math.sin(4 * out);
      luma[row * size + column] = Math.max(10, Math.min(246, value));
    }
  }
  return { width: size, height: size, luma };
}

/** Bands every 12 mm, dots and scratches between. */
function tubeTexture({ seed, horn, look: { tubeLuma, tubeGrain } }: Scene): Texture {
  const [width, height] = [Math.ceil(horn.lengthMm * TUBE_PER_MM) + 2, 96];
  const noise = solidNoise(seed, 38);
  const luma = new Uint8Array(width * height);
  for (let row = 0; row < height; row++) {
    const angle = (2 * Math.PI * row) / (height - 1);
    for (let column = 0; column < width; column++) {
      const mm = column / TUBE_PER_MM;
      let value = tubeLuma + tubeGrain * (16 * noise(mm / 1.2, 3 * Math.cos(angle), 3 * Math.sin(angle)) + 14 * noise(mm / 6, 7 + Math.cos(angle), Math.sin(angle)));
      if (mm % 12 < 1.6) value -= 70 * tubeGrain;
      if (Math.hypot((mm % 12) - 7, 2.2 * Math.sin(2 * angle)) < 1) value -= 60 * tubeGrain;
      luma[row * width + column] = Math.max(10, Math.min(246, value));
    }
  }
  return { width, height, luma };
}
