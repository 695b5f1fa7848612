/**
 * All that is done with one jaw's scan, from its file to a jaw that a rim can rest on. In a worker, which keeps the triangles to itself: the page
 * gets pictures, numbers and, at the end, the jaw made ready.
 */
import { buildArch } from '../core/arch';
import type { JawArchSpec } from '../core/specs';
import type { JawSurface } from '../core/surface';
import { differenceColours } from './differenceColours';
import { type CornerColours, type ScanPicture, drawScan } from './drawScan';
import { createGapField } from './gapField';
import { type JawParts, jawParts } from './jawParts';
import type { ScanReport } from './mendScan';
import { type ScanMesh, boxOf } from './mesh';
import { findNeighbours } from './neighbours';
import { packMesh, unpackMesh } from './packMesh';
import type { Progress } from './progress';
import type { ScanFormat } from './readScan';
import { type ScanDifferences, scanDifferences } from './scanDifferences';
import type { ScanRefused } from './scanRefusals';
import { scanOfFile } from './scanSeen';
import type { UnitGuess } from './scanUnits';
import type { PictureSize, ScanView } from './scanView';
import { type JawMarked, type JawNotSettled, type SettledJaw, settleJaw } from './settleJaw';
import { angleWeightedNormals, createSignedDistance } from './signedDistance';
import { type JawName, startView, wholeView } from './startView';

export interface ScanOpened {
  readonly kind: 'opened';
  readonly format: ScanFormat;
  readonly triangles: number;
  readonly report: ScanReport;
  /** Null where the scan is as large as an arch in no unit. */
  readonly unit: UnitGuess | null;
  /** The longest side of an upright box round it, in the file's own unit. */
  readonly longest: number;
  readonly view: ScanView;
}

/** Where the rim gets to before this jaw, mm in its own frame, and the gaps it meets there. */
export interface RimReach {
  readonly x: number;
  readonly y: number;
  readonly aroundMm: number;
  readonly gapsMm: readonly [number, number];
}

export type JawSettled = Omit<SettledJaw, 'mesh'> & { readonly differences: Omit<ScanDifferences, 'outMm'> };

export interface JawReady {
  readonly parts: JawParts;
  /** As it is kept. */
  readonly packed: Uint8Array<ArrayBuffer>;
}

export interface ScanDesk {
  /** `size`: of the picture that is drawn first. */
  open(file: Blob, jaw: JawName, size: PictureSize, progress?: Progress): Promise<ScanOpened | ScanRefused>;
  /** Of what lies on the desk; of a settled jaw with its differences from the arch, if asked for. Null before anything does. */
  picture(view: ScanView, size: PictureSize, withDifferences: boolean): ScanPicture | null;
  /** From in front, all of it, in the jaw's own frame; null before it is settled. */
  frontView(size: PictureSize): ScanView | null;
  settle(marked: JawMarked, progress?: Progress): JawSettled | JawNotSettled;
  /** Null before it is settled. */
  ready(reach: RimReach, progress?: Progress): JawReady | null;
  /** A jaw as it was kept; null where the bytes hold none. */
  reopen(packed: Uint8Array, reach: RimReach): JawParts | null;
}

interface OnDesk {
  readonly mesh: ScanMesh;
  readonly across: Int32Array;
  readonly normals: Float64Array;
}

export function createScanDesk(): ScanDesk {
  let scan: OnDesk | null = null;
  let settled: (OnDesk & { readonly colours: CornerColours }) | null = null;

  return {
    open: async (file, jaw, size, progress) => {
      const seen = await scanOfFile(file, progress);
      if (seen.kind === 'refused') return seen;
      const { mesh, across, report, format, unit } = seen;
      scan = { mesh, across, normals: angleWeightedNormals(mesh) };
      settled = null;
      const { low, high } = boxOf(mesh.points);
      const longest = Math.max(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
      return { kind: 'opened', format, report, unit, longest, triangles: mesh.triangles.length / 3, view: startView(mesh, jaw, size) };
    },
    picture(view, size, withDifferences) {
      if (withDifferences && settled !== null) return drawScan(settled.mesh, settled.normals, view, size, settled.colours);
      return scan === null ? null : drawScan(scan.mesh, scan.normals, view, size);
    },
    frontView: (size) => (settled === null ? null : wholeView(settled.mesh.points, { ...FRONT, middle: middleOf(settled.mesh) }, size)),
    settle(marked, progress = () => {}) {
      if (scan === null) throw new TypeError('settle: nothing on the desk; allowed: after open');
      const answer = settleJaw(scan, marked, (part) => progress(SETTLING_PART * part));
      if (answer.kind === 'refused') return answer;
      const { mesh, ...told } = answer;
      const normals = angleWeightedNormals(mesh);
      const { outMm, ...differences } = scanDifferences(mesh.points, normals, surfaceOf(answer.spec, marked.jaw));
      settled = { mesh, across: scan.across, normals, colours: differenceColours(outMm) };
      progress(1);
      return { ...told, differences };
    },
    ready: (reach, progress) => (settled === null ? null : { parts: madeReady(settled, reach, progress), packed: packMesh(settled.mesh) }),
    reopen(packed, reach) {
      const mesh = unpackMesh(packed);
      return mesh === null ? null : madeReady({ mesh, across: findNeighbours(mesh) }, reach);
    },
  };
}

/** Of the time, the differences take the rest. */
const SETTLING_PART = 0.7;
/** Face to face: the player's left at the picture's right. */
const FRONT = { right: [1, 0, 0], up: [0, 1, 0], toward: [0, 0, 1], across: 1 } as const;

function madeReady({ mesh, across }: Pick<OnDesk, 'mesh' | 'across'>, { x, y, aroundMm, gapsMm }: RimReach, progress?: Progress): JawParts {
  const distance = createSignedDistance({ mesh, across });
  const field = createGapField(distance, boxOf(mesh.points));
  field.prepare(x, y, aroundMm, gapsMm, progress);
  return jawParts(mesh, across, distance, field);
}

/** The fitted jaw alone, in its own frame. */
function surfaceOf(spec: JawArchSpec, jaw: JawName): JawSurface {
  const arch = buildArch({ upper: spec, lower: spec, jaw: { openingMm: 0, forwardMm: 0, hingeDeg: 0 } });
  return jaw === 'upper' ? arch.upper : arch.lower!;
}

function middleOf({ points }: ScanMesh): readonly [number, number, number] {
  const { low, high } = boxOf(points);
  return [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2, (low[2] + high[2]) / 2];
}
