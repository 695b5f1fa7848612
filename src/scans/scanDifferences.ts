/** How far a scan lies from the arch that stands for it, place by place: what the arch smooths over. */
import type { JawSurface } from '../core/surface';

export interface ScanDifferences {
  /** For each corner of the scan, mm, + where the scan stands out of the arch; NaN where the arch has no face to compare with. */
  readonly outMm: Float32Array;
  /** Corners compared, and over them the root mean square and what nineteen of twenty stay below, mm. */
  readonly compared: number;
  readonly rmsMm: number;
  readonly mostMm: number;
}

/** Further off than this a place belongs to something else than the labial face: a tooth's inner side, the palate, a cast's base. */
const FURTHEST_MM = 4;
const NINETEEN_OF_TWENTY = 0.95;

/** A corner that faces away from the arch's face by more than 60° belongs to an edge or an inner side. */
const ALONG = 0.5;

/** `points` three numbers each in the jaw's frame, mm; `normals` the same of the scan's outward directions there, of any length; `surface` the arch's jaw there. */
export function scanDifferences(points: Float64Array, normals: Float64Array, surface: JawSurface): ScanDifferences {
  const count = points.length / 3;
  const outMm = new Float32Array(count).fill(NaN);
  const sizes: number[] = [];
  let squares = 0;
  for (let at = 0; at < count; at++) {
    const foot = surface.closest([points[3 * at]!, points[3 * at + 1]!, points[3 * at + 2]!]);
    if (!foot.interior || Math.abs(foot.gapMm) > FURTHEST_MM) continue;
    const [x, y, z] = [normals[3 * at]!, normals[3 * at + 1]!, normals[3 * at + 2]!];
    if (!(x * foot.normal[0] + y * foot.normal[1] + z * foot.normal[2] > ALONG * Math.hypot(x, y, z))) continue;
    outMm[at] = foot.gapMm;
    squares += foot.gapMm * foot.gapMm;
    sizes.push(Math.abs(foot.gapMm));
  }
  const sorted = Float64Array.from(sizes).sort();
  return {
    outMm,
    compared: sizes.length,
    rmsMm: sizes.length === 0 ? NaN : Math.sqrt(squares / sizes.length),
    mostMm: sorted[Math.min(sizes.length - 1, Math.floor(NINETEEN_OF_TWENTY * sizes.length))] ?? NaN,
  };
}
