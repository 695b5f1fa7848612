/**
 * One tooth crown as a closed shell on the jaw's labial face. Along the centre line the shell lies on the face; to the
 * sides it falls back into the spaces between teeth, gently at first (half a millimetre at four fifths of the half width).
 */
import { dot } from '../core/vector';
import type { Vec3 } from '../core/vector';
import type { PlacedTooth } from './dentition';

export interface Shell {
  readonly positions: Float32Array;
  readonly index: Uint32Array;
  /** 0 at the incisal edge to 1 at the neck, one a vertex: for shading. */
  readonly heights: Float32Array;
  /** 0 on the open face to 1 deep between two teeth: for shading. */
  readonly depths: Float32Array;
}

/** Rings from the edge to below the gum, points round each ring (first half labial, second half lingual). */
export const CROWN_RINGS = 20;
export const CROWN_POINTS = 40;
const HALF = CROWN_POINTS / 2;

export function crownShell(tooth: PlacedTooth): Shell {
  const positions = new Float32Array((CROWN_RINGS * CROWN_POINTS + 1) * 3);
  const heights = new Float32Array(CROWN_RINGS * CROWN_POINTS + 1);
  const depths = new Float32Array(CROWN_RINGS * CROWN_POINTS + 1);
  const inward = inwardDirection(tooth);
  let vertex = 0;
  for (let ring = 0; ring < CROWN_RINGS; ring++) {
    for (let point = 0; point < CROWN_POINTS; point++, vertex++) {
      const spot = crownSpot(tooth, ringHeight(ring), (point / HALF) * Math.PI);
      const base = tooth.face.pointAt(tooth.arcMm + spot.acrossMm * tooth.distal, spot.heightMm);
      for (let axis = 0; axis < 3; axis++) positions[vertex * 3 + axis] = base[axis]! + inward[axis]! * spot.inMm;
      heights[vertex] = Math.max(0, ringHeight(ring));
      depths[vertex] = Math.min(1, spot.inMm / 1.7);
    }
  }
  const centre = ringCentre(positions, CROWN_RINGS - 1);
  positions.set(centre, vertex * 3);
  heights[vertex] = 1;
  return { positions, index: shellIndex(tooth.distal > 0 !== tooth.face.upper), heights, depths };
}

/** Where a vertex stands: across from the centre line (+ distal), height from the edge line, depth behind the face. */
interface CrownSpot {
  readonly acrossMm: number;
  readonly heightMm: number;
  readonly inMm: number;
}

/** `part` runs 0 (edge) to 1 (neck line) and a little beyond; `around` 0 mesial → π distal (labial), on to 2π (lingual). */
export function crownSpot(tooth: PlacedTooth, part: number, around: number): CrownSpot {
  const { measures, kind } = tooth;
  const labial = around <= Math.PI;
  const cosine = -Math.cos(around);
  const side = Math.sign(cosine) * Math.abs(cosine) ** 0.86;
  const contact = contactPart(kind, side);
  const half = 0.5 * widthAt(measures.widthMm, measures.neckWidthMm, part, contact, side, kind);
  const edge = tooth.edgeMm + edgeOutline(kind, side, half);
  const neck = tooth.marginMm + 0.4 - neckRise(tooth, side);
  const height = edge + (neck - edge) * part;
  const thick = thicknessAt(kind, measures.depthMm, Math.min(1, Math.max(0, part)));
  const front = Math.min(1.7, thick * 0.42);
  // A superellipse on each side of the line that joins the two contacts: flat in the middle, round at the corners.
  const bow = 1 - Math.abs(side) ** (labial ? faceSquareness(kind) : 2.4);
  const roll = labial ? bow ** 0.5 : bow ** 0.62;
  const inMm = labial ? front * (1 - roll) : front + (thick - front) * roll;
  // Under the gum the crown sinks, so that the gum's margin lies on it instead of fighting with it.
  const sunk = part > 1 ? (part - 1) * 2.5 : 0;
  return { acrossMm: side * half * (labial ? 1 : 1 - 0.22 * roll), heightMm: height, inMm: inMm + sunk };
}

/** Heights of the rings as parts of the crown: dense at the edge, where the shape turns, and one below the margin. */
function ringHeight(ring: number): number {
  const t = ring / (CROWN_RINGS - 2);
  if (ring === CROWN_RINGS - 1) return 1.3;
  return t ** 1.35 * 1.08;
}

/** Mesial contacts lie nearer the edge than distal ones. */
function contactPart(kind: number, side: number): number {
  const mesial = [0.16, 0.24, 0.36, 0.38, 0.4][kind - 1] ?? 0.4;
  const distal = [0.28, 0.38, 0.46, 0.44, 0.44][kind - 1] ?? 0.44;
  return side < 0 ? mesial : distal;
}

function widthAt(contactMm: number, neckMm: number, part: number, contact: number, side: number, kind: number): number {
  const atEdge = contactMm * (kind <= 2 ? (side < 0 ? 0.965 : 0.9) : 0.86);
  if (part <= contact) return atEdge + (contactMm - atEdge) * Math.sin((Math.max(0, part) / contact) * (Math.PI / 2));
  const down = Math.min(1, (part - contact) / (1 - contact));
  return contactMm + (neckMm - contactMm) * (0.55 * down + 0.45 * down * down * (3 - 2 * down));
}

/** Rise of the incisal edge above its lowest point: a straight edge with a sharp inner and a round outer corner, or a cusp. */
function edgeOutline(kind: number, side: number, half: number): number {
  const out = Math.abs(side);
  if (kind <= 2) {
    const corner = side < 0 ? (kind === 1 ? 0.8 : 1.1) : kind === 1 ? 2 : 2.6;
    const start = 1 - corner / half;
    const turned = Math.max(0, (out - start) / (1 - start));
    return corner * 0.75 * (1 - Math.sqrt(Math.max(0, 1 - turned * turned))) + (side > 0 ? 0.18 * side : 0);
  }
  const tip = kind === 3 ? -0.12 : 0;
  const slope = kind === 3 ? (side - tip > 0 ? 2.5 : 1.9) : 1.8;
  const away = Math.abs(side - tip);
  return slope * (Math.sqrt(away * away + 0.03) - Math.sqrt(0.03));
}

/** The neck line rises toward the edge at both contacts. */
function neckRise(tooth: PlacedTooth, side: number): number {
  const curve = side < 0 ? tooth.measures.neckCurveMesialMm : tooth.measures.neckCurveDistalMm;
  return curve * side * side;
}

/** Faciolingual thickness: a blade at an incisor's edge that grows to the cingulum; premolars are full from the start. */
function thicknessAt(kind: number, depthMm: number, part: number): number {
  const blade = [1.3, 1.3, 2, 4.6, 5][kind - 1] ?? 5;
  const full = depthMm * (kind <= 3 ? 0.86 : 0.92);
  const grown = kind <= 3 ? part ** 1.15 : Math.sin(Math.min(1, part * 1.6) * (Math.PI / 2));
  const edgeRound = Math.sqrt(Math.min(1, part / 0.03 + 0.06));
  return (blade + (full - blade) * grown) * (0.35 + 0.65 * edgeRound);
}

/** Exponent of the labial outline: incisors flat, the canine and premolars rounder. */
const faceSquareness = (kind: number): number => (kind <= 2 ? 3.8 : kind === 3 ? 3.4 : 3.2);

/** Level direction into the mouth at the crown's centre line; a canine turns a little, its outer side further in. */
function inwardDirection(tooth: PlacedTooth): Vec3 {
  const normal = tooth.face.normalAt(tooth.arcMm, tooth.edgeMm + 1);
  const size = Math.sqrt(dot([normal[0], 0, normal[2]], [normal[0], 0, normal[2]])) || 1;
  return [-normal[0] / size, 0, -normal[2] / size];
}

function ringCentre(positions: Float32Array, ring: number): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  for (let point = 0; point < CROWN_POINTS; point++) {
    for (let axis = 0; axis < 3; axis++) sum[axis]! += positions[(ring * CROWN_POINTS + point) * 3 + axis]!;
  }
  return [sum[0] / CROWN_POINTS, sum[1] / CROWN_POINTS, sum[2] / CROWN_POINTS];
}

/** Triangles: the wall, the edge (labial joined to lingual) and the floor under the gum; wound outward. */
function shellIndex(flip: boolean): Uint32Array {
  const triangles: number[] = [];
  const push = (a: number, b: number, c: number): void => void triangles.push(a, flip ? c : b, flip ? b : c);
  for (let ring = 0; ring + 1 < CROWN_RINGS; ring++) {
    for (let point = 0; point < CROWN_POINTS; point++) {
      const a = ring * CROWN_POINTS + point;
      const b = ring * CROWN_POINTS + ((point + 1) % CROWN_POINTS);
      push(a, b, a + CROWN_POINTS);
      push(b, b + CROWN_POINTS, a + CROWN_POINTS);
    }
  }
  for (let point = 0; point < HALF; point++) {
    const a = point;
    const b = point + 1;
    const backA = (CROWN_POINTS - point) % CROWN_POINTS;
    const backB = CROWN_POINTS - point - 1;
    if (a !== backA) push(a, backA, b);
    if (b !== backB) push(b, backA, backB);
  }
  const last = (CROWN_RINGS - 1) * CROWN_POINTS;
  for (let point = 0; point < CROWN_POINTS; point++) {
    push(last + point, last + ((point + 1) % CROWN_POINTS), CROWN_RINGS * CROWN_POINTS);
  }
  return Uint32Array.from(triangles);
}
