/** Scans that a test makes itself: both jaws of a known arch as files, each lying in its file as it may, and where their teeth are. */
import { buildArch } from '../../src/core/arch';
import type { JawArchSpec } from '../../src/core/specs';
import type { Vec3 } from '../../src/core/vector';
import { mendScan } from '../../src/scans/mendScan';
import type { ScanMesh } from '../../src/scans/mesh';
import type { ThreeTeeth } from '../../src/scans/scanFrame';
import { type PictureSize, type Px, type ScanView, toPx } from '../../src/scans/scanView';
import { type JawName, startView } from '../../src/scans/startView';
import { scanFile } from './scanFiles';
import { cutFace } from './scannedShapes';

export const MADE_JAW: JawArchSpec = {
  form: { kind: 'power', widthMm: 61, depthMm: 47, exponent: 0.8 },
  profile: { kind: 'arcs', inclinationDeg: 5, crownHeightMm: 10, crownRadiusMm: 15, gumRadiusMm: 13, gumInclinationDeg: 2 },
};

export interface MadeScan {
  /** Binary STL. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** The canines and the front, in the file's own axes and unit. */
  readonly teeth: ThreeTeeth;
  readonly view: ScanView;
  readonly triangles: number;
}

/** Arc from the midline to a canine's tip, mm. */
const CANINE_ARC_MM = 19;

export function madeScan(jaw: JawName, unitsPerMm = 1, columns = 160): MadeScan {
  const arch = buildArch({ upper: MADE_JAW, lower: MADE_JAW, jaw: { openingMm: 0, forwardMm: 0, hingeDeg: 0 } });
  const surface = jaw === 'upper' ? arch.upper : arch.lower!;
  const cut = cutFace(surface, { arcMm: 44, heights: [0, 20], columns, rows: Math.round(columns / 3), thickMm: 6, behind: true });
  const [c, s] = [Math.cos(0.7), Math.sin(0.7)];
  const lying = ([x, y, z]: Vec3): Vec3 => [unitsPerMm * (c * x - s * y + 30), unitsPerMm * (s * x + c * y - 12), unitsPerMm * (z + 55)];
  const mesh = everyPlace(cut, lying);
  const bytes = Uint8Array.from(scanFile(mesh, 'stl'));
  const rounded = { points: mesh.points.map(Math.fround), triangles: mesh.triangles };
  return {
    bytes,
    teeth: { right: lying(surface.pointAt(-CANINE_ARC_MM, 0)), left: lying(surface.pointAt(CANINE_ARC_MM, 0)), front: lying(surface.pointAt(0, 0)) },
    view: startView(mendScan(rounded)!.mesh, jaw, { width: 480, height: 360 }),
    triangles: mesh.triangles.length / 3,
  };
}

/** Where a tooth is in the first picture, of this size. */
export const toothPx = ({ teeth, view }: MadeScan, tooth: keyof ThreeTeeth, size: PictureSize): Px => toPx(view, size, teeth[tooth]);

function everyPlace({ points, triangles }: ScanMesh, change: (place: Vec3) => Vec3): ScanMesh {
  const changed = new Float64Array(points.length);
  for (let at = 0; at < points.length; at += 3) changed.set(change([points[at]!, points[at + 1]!, points[at + 2]!]), at);
  return { points: changed, triangles };
}
