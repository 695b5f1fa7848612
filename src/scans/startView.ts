/** From where a scan is looked at first: at the biting edges, the front teeth up in an upper jaw and down in a lower one, as its shape lets guess. */
import { type Vec3, cross, scale } from '../core/vector';
import { type ScanMesh, boxOf, crossOf } from './mesh';
import type { PictureSize, ScanView } from './scanView';

export type JawName = 'upper' | 'lower';

/** A part of the picture left free round the scan. */
const MARGIN = 0.06;
/** An open scan's triangles all together face away from its opening, at least by this part of their area; a closed one's face nowhere. */
const OPEN_PART = 0.05;
const TURNS = 30;
/** Of a scan that is a single place. */
const LEAST_ACROSS = 1e-9;

export function startView(mesh: ScanMesh, jaw: JawName, size: PictureSize): ScanView {
  const { low, high } = boxOf(mesh.points);
  const middle: Vec3 = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
  const axes = principalAxes(mesh.points);
  const toward = bitingSide(mesh, axes[2]);
  // Of the two longer axes that one runs from front to back along which the places lie less evenly.
  const skews = [skewAlong(mesh.points, axes[0]), skewAlong(mesh.points, axes[1])] as const;
  const along = Math.abs(skews[0]) > Math.abs(skews[1]) ? 0 : 1;
  // The open end of a horseshoe is its thin one.
  const front = scale(axes[along], skews[along] > 0 ? -1 : 1);
  const up = jaw === 'upper' ? front : scale(front, -1);
  return wholeView(mesh.points, { right: cross(up, toward), up, toward, middle, across: 1 }, size);
}

/** The same from the same side, with all of the scan in the picture. */
export function wholeView(points: Float64Array, view: ScanView, { width, height }: PictureSize): ScanView {
  let [aside, upright] = [0, 0];
  for (let at = 0; at < points.length; at += 3) {
    const [x, y, z] = [points[at]! - view.middle[0], points[at + 1]! - view.middle[1], points[at + 2]! - view.middle[2]];
    aside = Math.max(aside, Math.abs(x * view.right[0] + y * view.right[1] + z * view.right[2]));
    upright = Math.max(upright, Math.abs(x * view.up[0] + y * view.up[1] + z * view.up[2]));
  }
  return { ...view, across: Math.max(2 * aside, (2 * upright * width) / height, LEAST_ACROSS) / (1 - 2 * MARGIN) };
}

/** Longest first, square to each other: Jacobi's turns of the places' covariance. */
function principalAxes(points: Float64Array): readonly [Vec3, Vec3, Vec3] {
  const mean = meanOf(points);
  const matrix = [0, 1, 2].map((row) => [0, 1, 2].map((column) => {
    let sum = 0;
    for (let at = 0; at < points.length; at += 3) sum += (points[at + row]! - mean[row]!) * (points[at + column]! - mean[column]!);
    return sum;
  }));
  const axes = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];
  for (let turn = 0; turn < TURNS; turn++) {
    const [p, q] = ([[0, 1], [0, 2], [1, 2]] as const)[turn % 3]!;
    const angle = 0.5 * Math.atan2(2 * matrix[p]![q]!, matrix[p]![p]! - matrix[q]![q]!);
    const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
    for (const rows of [matrix, axes]) {
      [rows[p], rows[q]] = [rows[p]!.map((value, k) => cos * value + sin * rows[q]![k]!), rows[q]!.map((value, k) => cos * value - sin * rows[p]![k]!)];
    }
    for (const row of matrix) [row[p], row[q]] = [cos * row[p]! + sin * row[q]!, cos * row[q]! - sin * row[p]!];
  }
  const order = [0, 1, 2].sort((one, two) => matrix[two]![two]! - matrix[one]![one]!);
  return order.map((k) => axes[k] as unknown as Vec3) as unknown as readonly [Vec3, Vec3, Vec3];
}

/** The axis, to the side on which the crowns are: away from the scan's opening, or from a cast's flat base. */
function bitingSide(mesh: ScanMesh, axis: Vec3): Vec3 {
  const normal = new Float64Array(3);
  let [all, facing, flat] = [0, 0, 0];
  for (let triangle = 0; triangle < mesh.triangles.length / 3; triangle++) {
    crossOf(mesh, triangle, normal);
    const area = Math.hypot(normal[0]!, normal[1]!, normal[2]!);
    if (area === 0) continue;
    const along = (normal[0]! * axis[0] + normal[1]! * axis[1] + normal[2]! * axis[2]) / area;
    all += area;
    facing += area * along;
    // Of a flat side all of its area counts, of a bumpy one only little.
    flat += area * along ** 3;
  }
  const isUp = Math.abs(facing) > OPEN_PART * all ? facing > 0 : flat < 0;
  return isUp ? axis : scale(axis, -1);
}

function skewAlong(points: Float64Array, axis: Vec3): number {
  const mean = meanOf(points);
  let [squares, cubes] = [0, 0];
  for (let at = 0; at < points.length; at += 3) {
    const along = (points[at]! - mean[0]) * axis[0] + (points[at + 1]! - mean[1]) * axis[1] + (points[at + 2]! - mean[2]) * axis[2];
    squares += along * along;
    cubes += along ** 3;
  }
  const count = points.length / 3;
  return squares === 0 ? 0 : cubes / count / (squares / count) ** 1.5;
}

function meanOf(points: Float64Array): Vec3 {
  const sum: [number, number, number] = [0, 0, 0];
  for (let at = 0; at < points.length; at++) sum[at % 3]! += points[at]!;
  return [sum[0] / (points.length / 3), sum[1] / (points.length / 3), sum[2] / (points.length / 3)];
}
