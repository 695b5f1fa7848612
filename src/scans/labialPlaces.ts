/** Places of a scanned jaw's labial face, thinned out: what its symmetry is sought in and what an arch is fitted to. */
import type { ScanMesh } from './mesh';
import { angleWeightedNormals } from './signedDistance';

export interface LabialChoices {
  /** Heights from the edge toward the gum between which places are taken, mm: crowns' edges are worn and uneven, and above the gum's fold comes the cheek. */
  readonly heightsMm: readonly [number, number];
  /** Furthest to either side of the midline, mm. */
  readonly sidewaysMm: number;
  /** About how many places are wanted. */
  readonly count: number;
}

/** From first molar to first molar, crowns and the gum next to them. */
export const LABIAL_CHOICES: LabialChoices = { heightsMm: [0.5, 16], sidewaysMm: 30, count: 1500 };

/** Behind the front teeth, in the middle of the arch, mm: outward is away from here. */
const MIDDLE_BEHIND_MM = 22;
/** So far behind, no arch is narrower than this to either side, mm: what lies between, a stand or a piece of the tongue, is none of its teeth (our judgement). */
const LEAST_BESIDE_MM = 14;
/** A labial normal points outward by this much at least: 60° off at most. */
const OUTWARD = 0.5;

/** Three numbers a place; `framed` is the mesh in its jaw's frame, mm, with outward normals. `gumward` 1 for an upper jaw, −1 for a lower one. */
export function labialPlaces(framed: ScanMesh, gumward: 1 | -1, choices: LabialChoices = LABIAL_CHOICES): Float64Array {
  const { points } = framed;
  const normals = angleWeightedNormals(framed);
  const { heightsMm, sidewaysMm, count } = choices;
  const labial: number[] = [];
  for (let at = 0; at < points.length; at += 3) {
    const x = points[at]!;
    const height = gumward * points[at + 1]!;
    if (height < heightsMm[0] || height > heightsMm[1] || Math.abs(x) > sidewaysMm) continue;
    const back = points[at + 2]! + MIDDLE_BEHIND_MM;
    if (back < 0 && Math.abs(x) < LEAST_BESIDE_MM) continue;
    const outward = normals[at]! * x + normals[at + 2]! * Math.max(back, 0);
    const size = Math.hypot(x, Math.max(back, 0)) * Math.hypot(normals[at]!, normals[at + 1]!, normals[at + 2]!);
    if (outward > OUTWARD * size) labial.push(at);
  }
  const every = Math.max(1, Math.floor(labial.length / count));
  const places = new Float64Array(3 * Math.ceil(labial.length / every));
  for (let index = 0, to = 0; index < labial.length; index += every, to += 3) places.set(points.subarray(labial[index], labial[index]! + 3), to);
  return places;
}
