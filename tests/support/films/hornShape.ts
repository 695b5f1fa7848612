/** Mouthpiece and tube as pieces that turn round the horn's axis, and where a ray from the camera meets them. */
import { rimDirections, toRadians } from '../../../src/core/frame';
import { type Vec3, add, dot } from '../../../src/core/vector';
import { rotate } from './geometry';
import type { Scene } from './sceneTypes';
import type { Truth } from './truth';

/** In the camera's frame, mm: the rim's centre, its directions across (the player's left), up, and along the axis. */
export interface HornPlace {
  readonly centre: Vec3;
  readonly across: Vec3;
  readonly up: Vec3;
  readonly axis: Vec3;
}

export type Piece =
  /** A cone's or cylinder's wall between two distances along the axis. */
  | { readonly kind: 'wall'; readonly fromMm: number; readonly toMm: number; readonly radiusFromMm: number; readonly radiusToMm: number }
  | { readonly kind: 'bead'; readonly atMm: number; readonly radiusMm: number }
  | { readonly kind: 'lid'; readonly atMm: number; readonly radiusMm: number };

export interface HornHit {
  readonly piece: number;
  /** Depth along the ray (its z is 1), mm. */
  readonly depth: number;
  /** Along the axis and out from it, mm. */
  readonly alongMm: number;
}

export function hornPlaceOf({ headInCamera, rim }: Truth): HornPlace {
  const directions = rimDirections(toRadians(rim.elevationDeg), toRadians(rim.lateralDeg));
  const turned = (vector: Vec3): Vec3 => rotate(headInCamera.rotation, vector);
  return { centre: add(turned(rim.centre), headInCamera.shiftMm), across: turned(directions.across), up: turned(directions.up), axis: turned(directions.axis) };
}

/** From the front only the rim's plane is wide, so that its outer edge is free all round; from elsewhere the cup is seen from outside. */
export function hornPieces({ view, rim, horn }: Scene): Piece[] {
  const outer = rim.outerDiameterMm / 2;
  const { tubeRadiusMm, lengthMm, beadRadiusMm } = horn;
  const cup: Piece[] =
    view === 'front'
      ? [{ kind: 'wall', fromMm: 0, toMm: 14, radiusFromMm: 0.9 * (rim.innerDiameterMm / 2), radiusToMm: tubeRadiusMm }]
      : [
          { kind: 'wall', fromMm: 0, toMm: 4, radiusFromMm: outer, radiusToMm: outer },
          { kind: 'lid', atMm: 4, radiusMm: outer },
          { kind: 'wall', fromMm: 4, toMm: 24, radiusFromMm: 0.85 * outer, radiusToMm: tubeRadiusMm },
        ];
  const tubeFrom = view === 'front' ? 14 : 24;
  return [
    ...cup,
    { kind: 'wall', fromMm: tubeFrom, toMm: lengthMm, radiusFromMm: tubeRadiusMm, radiusToMm: tubeRadiusMm },
    { kind: 'lid', atMm: lengthMm, radiusMm: tubeRadiusMm },
    { kind: 'bead', atMm: horn.nearMm, radiusMm: 0.85 * beadRadiusMm },
    { kind: 'bead', atMm: horn.farMm, radiusMm: beadRadiusMm },
  ];
}

/** The first piece met by the ray through ((x − cx) / f, (y − cy) / f, 1), or null. */
export function hornHit(pieces: readonly Piece[], { centre, axis }: HornPlace, rayX: number, rayY: number): HornHit | null {
  const dd = rayX * rayX + rayY * rayY + 1;
  const da = rayX * axis[0] + rayY * axis[1] + axis[2];
  const dc = rayX * centre[0] + rayY * centre[1] + centre[2];
  const ca = dot(centre, axis);
  const cc = dot(centre, centre);
  let nearest = -1;
  let best = Infinity;
  for (let at = 0; at < pieces.length; at++) {
    const piece = pieces[at]!;
    if (piece.kind === 'wall') {
      const grow = (piece.radiusToMm - piece.radiusFromMm) / (piece.toMm - piece.fromMm);
      const start = piece.radiusFromMm - grow * piece.fromMm - grow * ca;
      const g = grow * da;
      const a = dd - da * da - g * g;
      const b = -dc + da * ca - start * g;
      const c = cc - ca * ca - start * start;
      const inside = b * b - a * c;
      if (inside < 0) continue;
      const root = Math.sqrt(inside) / a;
      for (let depth = -b / a - Math.abs(root), tries = 0; tries < 2; tries++, depth += 2 * Math.abs(root)) {
        const along = depth * da - ca;
        if (along < piece.fromMm || along > piece.toMm || depth <= 0 || depth >= best) continue;
        best = depth;
        nearest = at;
      }
    } else if (piece.kind === 'bead') {
      const b = -(dc + piece.atMm * da);
      const c = cc + 2 * piece.atMm * ca + piece.atMm ** 2 - piece.radiusMm ** 2;
      const inside = b * b - dd * c;
      const depth = (-b - Math.sqrt(inside)) / dd;
      if (inside < 0 || depth <= 0 || depth >= best) continue;
      best = depth;
      nearest = at;
    } else {
      const depth = (ca + piece.atMm) / da;
      const outSquared = depth * depth * dd - 2 * depth * dc + cc - piece.atMm ** 2;
      if (outSquared > piece.radiusMm ** 2 || depth <= 0 || depth >= best) continue;
      best = depth;
      nearest = at;
    }
  }
  return nearest < 0 ? null : { piece: nearest, depth: best, alongMm: best * da - ca };
}
