/** Where the lower jaw is drawn when it stands elsewhere than in the record: one rigid move, as docs/model.md places it. */
import { HINGE_ARM_MM } from '../core/arch';
import { toRadians } from '../core/frame';
import type { JawSpec } from '../core/specs';
import type { Vec3 } from '../core/vector';

/** y′ = y·cos − z·sin + up, z′ = y·sin + z·cos + forward; x stays. */
export interface JawMove {
  readonly cos: number;
  readonly sin: number;
  readonly upMm: number;
  readonly forwardMm: number;
}

export const NO_MOVE: JawMove = { cos: 1, sin: 0, upMm: 0, forwardMm: 0 };

/** From the jaw as drawn to the jaw as wanted; null on either side is the record's own, or a single surface. */
export function jawMove(drawn: JawSpec | null, wanted: JawSpec | null): JawMove {
  if (drawn === null || wanted === null || drawn === wanted) return NO_MOVE;
  const turn = toRadians(wanted.hingeDeg - drawn.hingeDeg);
  const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
  const [y, z] = placed(unplaced([0, 0], drawn), wanted);
  return { cos, sin, upMm: y, forwardMm: z };
}

export const movedPoint = ([x, y, z]: Vec3, move: JawMove): Vec3 => [
  x,
  y * move.cos - z * move.sin + move.upMm,
  y * move.sin + z * move.cos + move.forwardMm,
];

/** Column-major 4 × 4, for a scene object. */
export function writeJawMatrix(move: JawMove, elements: number[]): void {
  const matrix = [1, 0, 0, 0, 0, move.cos, move.sin, 0, 0, -move.sin, move.cos, 0, 0, move.upMm, move.forwardMm, 1];
  for (let index = 0; index < 16; index++) elements[index] = matrix[index]!;
}

/** How far the lower front teeth go, mm: they lie within the opening of the origin. */
export function moveSize(move: JawMove): number {
  return Math.hypot(move.upMm, move.forwardMm);
}

type Place = readonly [y: number, z: number];

/** A point of a jaw that stands at `jaw`, as it would lie with the edges together. */
function unplaced([y, z]: Place, jaw: JawSpec): Place {
  const arm = jaw.hingeArmMm ?? HINGE_ARM_MM;
  const hinge = toRadians(jaw.hingeDeg);
  const [cos, sin] = [Math.cos(hinge), Math.sin(hinge)];
  return [y * cos + (z + arm) * sin + jaw.openingMm, (z + arm) * cos - y * sin - arm - jaw.forwardMm];
}

function placed([y, z]: Place, jaw: JawSpec): Place {
  const arm = jaw.hingeArmMm ?? HINGE_ARM_MM;
  const hinge = toRadians(jaw.hingeDeg);
  const [cos, sin] = [Math.cos(hinge), Math.sin(hinge)];
  const [up, reach] = [y - jaw.openingMm, z + jaw.forwardMm + arm];
  return [up * cos - reach * sin, up * sin + reach * cos - arm];
}
