/**
 * The gum of one jaw as a sheet on the labial face with a scalloped margin, papillae between the teeth, faint root
 * eminences, and a body behind it. Off the labial face by less than half a millimetre but for the margin's own roll.
 */
import type { PlacedTooth } from './dentition';
import type { JawFace } from './jawFaces';
import type { Shell } from './crownShape';

/** How far the drawn gum reaches from the edge line, mm; a little beyond the lips' sheet. */
export const GUM_END_MM = { upper: 20, lower: 16 } as const;

export const gumEnd = (face: JawFace): number =>
  Math.min(face.upper ? GUM_END_MM.upper : GUM_END_MM.lower, face.heightLimitMm);
const COLUMNS_A_TOOTH = 16;
/** Papillae rise this much above the neck line's own curve. */
const PAPILLA_EXTRA_MM = 1.1;
const BODY_DEPTH_MM = 9;

export function gumShell(face: JawFace, teeth: readonly PlacedTooth[]): Shell {
  const first = teeth[0]!;
  const last = teeth[teeth.length - 1]!;
  const from = first.arcMm - first.measures.widthMm / 2;
  const to = last.arcMm + last.measures.widthMm / 2;
  const columns = teeth.length * COLUMNS_A_TOOTH + 1;
  const end = gumEnd(face);
  const rows = ROWS.length;
  const levelMm = Math.max(...teeth.map((tooth) => tooth.marginMm));
  const positions = new Float32Array(columns * rows * 3);
  const heights = new Float32Array(columns * rows);
  const depths = new Float32Array(columns * rows);
  for (let column = 0; column < columns; column++) {
    const arc = from + ((to - from) * column) / (columns - 1);
    const spot = scallop(teeth, arc);
    const level = face.normalAt(arc, spot.marginMm);
    const size = Math.hypot(level[0], level[2]) || 1;
    for (let row = 0; row < rows; row++) {
      const shape = ROWS[row]!;
      const foot = shape.level ? levelMm : spot.marginMm;
      const height = Math.min(foot + shape.upMm + (end - foot - 2) * shape.part, face.heightLimitMm);
      const point = face.pointAt(arc, height);
      const normal = face.normalAt(arc, height);
      const out = shape.outMm - spot.recessMm * shape.margin + spot.rootMm * rootPart(shape.part);
      const vertex = column * rows + row;
      positions[vertex * 3] = point[0] + normal[0] * out - (level[0] / size) * shape.bodyMm;
      positions[vertex * 3 + 1] = point[1] + normal[1] * out;
      positions[vertex * 3 + 2] = point[2] + normal[2] * out - (level[2] / size) * shape.bodyMm;
      heights[vertex] = shape.part;
      depths[vertex] = Math.min(1, spot.betweenPart ** 3 * shape.margin + shape.bodyMm / BODY_DEPTH_MM);
    }
  }
  return { positions, index: gumIndex(columns, rows, face.upper), heights, depths };
}

/** Height of the gum's margin at an arc length, mm from the edge line. */
export const marginAt = (teeth: readonly PlacedTooth[], arcMm: number): number => scallop(teeth, arcMm).marginMm;

interface GumRow {
  /** From the margin toward the gum, mm, plus this part of the way to the end. */
  readonly upMm: number;
  readonly part: number;
  readonly outMm: number;
  /** How much of the recess between teeth applies. */
  readonly margin: number;
  /** Level distance behind the face. */
  readonly bodyMm: number;
  /** Keeps one height along the arch instead of following the scalloped margin. */
  readonly level?: boolean;
}

/** Rows from the tucked margin over the face to the closed back. */
const ROWS: readonly GumRow[] = [
  { upMm: 0.5, part: 0, outMm: -1.5, margin: 1, bodyMm: 0.8 },
  { upMm: 0.05, part: 0, outMm: -0.35, margin: 1, bodyMm: 0 },
  { upMm: 0, part: 0, outMm: 0.02, margin: 1, bodyMm: 0 },
  { upMm: 0.25, part: 0, outMm: 0.2, margin: 1, bodyMm: 0 },
  { upMm: 0.8, part: 0, outMm: 0.26, margin: 0.95, bodyMm: 0 },
  { upMm: 1.6, part: 0, outMm: 0.2, margin: 0.8, bodyMm: 0 },
  ...[0.08, 0.16, 0.26, 0.38, 0.5, 0.64, 0.8, 0.92, 1].map((part) => ({
    upMm: 1.6,
    part,
    outMm: 0.1,
    margin: Math.max(0, 0.6 - 2.2 * part),
    bodyMm: 0,
  })),
  { upMm: 2, part: 1, outMm: -0.4, margin: 0, bodyMm: 0 },
  { upMm: 2, part: 1, outMm: -1.2, margin: 0, bodyMm: 1 },
  { upMm: 2, part: 1, outMm: -1.2, margin: 0, bodyMm: BODY_DEPTH_MM },
  { upMm: 2, part: 0, outMm: -1.2, margin: 0, bodyMm: BODY_DEPTH_MM, level: true },
  { upMm: 0.6, part: 0, outMm: -1.2, margin: 0, bodyMm: BODY_DEPTH_MM - 1.2, level: true },
];

const rootPart = (part: number): number => (part <= 0 ? 0 : Math.sin(Math.min(1, part * 1.15) * Math.PI));

interface Scallop {
  readonly marginMm: number;
  /** How far the sheet falls back between two teeth. */
  readonly recessMm: number;
  readonly rootMm: number;
  /** 0 at a tooth's centre line, 1 between two teeth. */
  readonly betweenPart: number;
}

function scallop(teeth: readonly PlacedTooth[], arcMm: number): Scallop {
  let nearest = 0;
  let best = Infinity;
  teeth.forEach((tooth, index) => {
    const away = Math.abs(arcMm - tooth.arcMm) / tooth.measures.widthMm;
    if (away < best) [best, nearest] = [away, index];
  });
  const tooth = teeth[nearest]!;
  const side = Math.sign(arcMm - tooth.arcMm);
  const neighbour = teeth[nearest + side] ?? tooth;
  const between = Math.min(1, Math.abs(arcMm - tooth.arcMm) / (tooth.measures.widthMm / 2));
  const tip = (tipOf(tooth) + tipOf(neighbour)) / 2;
  return {
    marginMm: tooth.marginMm - (tooth.marginMm - tip) * between ** 2.5,
    recessMm: 0.62 * between ** 3,
    rootMm: (tooth.kind === 3 ? 0.3 : 0.2) * (Math.cos(between * Math.PI) * 0.5),
    betweenPart: between,
  };
}

const tipOf = (tooth: PlacedTooth): number =>
  tooth.marginMm - Math.max(tooth.measures.neckCurveMesialMm, 1.4) - PAPILLA_EXTRA_MM;

/** The rows run once round the gum's section, so the last joins the first; both ends are closed by a fan over their outline. */
function gumIndex(columns: number, rows: number, flip: boolean): Uint32Array {
  const index = new Uint32Array((columns - 1) * rows * 6 + 2 * (rows - 2) * 3);
  let at = 0;
  for (let column = 0; column + 1 < columns; column++) {
    for (let row = 0; row < rows; row++) {
      const a = column * rows + row;
      const up = column * rows + ((row + 1) % rows);
      index.set(flip ? [a, a + rows, up, a + rows, up + rows, up] : [a, up, a + rows, a + rows, up, up + rows], at);
      at += 6;
    }
  }
  for (const end of [0, (columns - 1) * rows]) {
    for (let row = 1; row + 1 < rows; row++) {
      index.set(flip === (end === 0) ? [end, end + row, end + row + 1] : [end, end + row + 1, end + row], at);
      at += 3;
    }
  }
  return index;
}
