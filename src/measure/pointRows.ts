/** One point of a turned and shifted body seen by the camera, with the derivatives all fits of this folder are made of. */
import type { Vec3 } from '../core/vector';
import type { Rotation } from './rotation';

/** Filled by `seePoint` and used up at once; one for each fit, so that the loops allocate nothing. */
export interface SeenPoint {
  /** Relative to the picture's middle, px. */
  u: number;
  v: number;
  /** Before the camera, mm; where not above 0, nothing else is filled. */
  depth: number;
  /** By a small turn after the rotation (3), by the shift (3), by the point in the body's own frame (3). */
  readonly du: Float64Array;
  readonly dv: Float64Array;
  /** Of the depth, likewise. */
  readonly dDepth: Float64Array;
}

export const createSeenPoint = (): SeenPoint => ({
  u: 0, v: 0, depth: 0, du: new Float64Array(9), dv: new Float64Array(9), dDepth: new Float64Array(9),
});

/** point ↦ rotation·point + shift, seen with this focal length (px); by the focal length's logarithm u and v change by themselves. */
export function seePoint(out: SeenPoint, focalPx: number, rotation: Rotation, shift: Vec3, point: Vec3): void {
  const r = rotation;
  const px = r[0] * point[0] + r[1] * point[1] + r[2] * point[2];
  const py = r[3] * point[0] + r[4] * point[1] + r[5] * point[2];
  const pz = r[6] * point[0] + r[7] * point[1] + r[8] * point[2];
  const depth = pz + shift[2];
  out.depth = depth;
  if (!(depth > 0)) return;
  const s = focalPx / depth;
  out.u = s * (px + shift[0]);
  out.v = s * (py + shift[1]);
  const uz = -out.u / depth;
  const vz = -out.v / depth;
  const { du, dv, dDepth } = out;
  // A small turn δ moves the turned point p by δ × p.
  dDepth[0] = py;
  dDepth[1] = -px;
  dDepth[2] = 0;
  dDepth[3] = 0;
  dDepth[4] = 0;
  dDepth[5] = 1;
  du[0] = uz * py;
  du[1] = s * pz - uz * px;
  du[2] = -s * py;
  du[3] = s;
  du[4] = 0;
  du[5] = uz;
  dv[0] = -s * pz + vz * py;
  dv[1] = -vz * px;
  dv[2] = s * px;
  dv[3] = 0;
  dv[4] = s;
  dv[5] = vz;
  for (let k = 0; k < 3; k++) {
    dDepth[6 + k] = r[6 + k]!;
    du[6 + k] = s * r[k]! + uz * r[6 + k]!;
    dv[6 + k] = s * r[3 + k]! + vz * r[6 + k]!;
  }
}
