/** The staff on paper: how notes are shared out among systems, and where everything stands. Lengths in mm on paper. Pure. */
import type { ClefName } from './props';

export interface PrintedSystem {
  /** Indices of its notes, from the first to before the last. */
  readonly from: number;
  readonly to: number;
  readonly topMm: number;
  /** Middle of each notehead from the left edge. */
  readonly noteXsMm: readonly number[];
}

export interface PrintedStaffLayout {
  readonly widthMm: number;
  readonly heightMm: number;
  /** Distance of two staff lines. */
  readonly spaceMm: number;
  /** Within a system, from its top. */
  readonly staveTopMm: number;
  readonly namesMm: number;
  readonly rowsMm: readonly [number, number];
  readonly systems: readonly PrintedSystem[];
  /** Notes at the end for which there is no room. */
  readonly leftOut: number;
}

/** One system up to this many notes; beyond, two. */
const ONE_SYSTEM_NOTES = 13;
/** No more than this in one of two systems: closer, the numbers under the notes would touch. */
export const FULL_SYSTEM_NOTES = 18;
/** What one system, or both, may take up, so that the rest of the page has its room: far ledger lines make the staff smaller. */
export const STAFF_HEIGHT_LIMITS_MM = { 1: 46, 2: 62 } as const;
/** Baselines of the three rows under the lowest note are this far apart: 9 pt type. */
export const TEXT_ROW_MM = 4.3;

/** Before the first note: clef and row headings. */
export const LEAD_MM = 21;
const WIDEST_COLUMN_MM = 24;
const LARGEST_SPACE_MM = 1.75;
const SMALLER_SPACE_MM = 1.45;
const SYSTEM_GAP_MM = 3;
/** How far the clefs reach beyond the five lines, in spaces. */
const CLEF_OVERHANG_SPACES: Readonly<Record<ClefName, number>> = { treble: 1.8, alto: 1, tenor: 1, bass: 1 };
/** Half a notehead and a breath beyond the outermost note, in spaces. */
const NOTE_MARGIN_SPACES = 1.1;

export function printedSystems(notes: number): 1 | 2 {
  return notes <= ONE_SYSTEM_NOTES ? 1 : 2;
}

/** `positions` are steps from the bottom line (`staffPosition`). Two systems share the notes evenly. */
export function layoutPrintedStaff(widthMm: number, positions: readonly number[], clef: ClefName): PrintedStaffLayout {
  const shown = positions.slice(0, 2 * FULL_SYSTEM_NOTES);
  const count = printedSystems(shown.length);
  const perSystem = Math.max(1, Math.ceil(shown.length / count));
  const overhang = CLEF_OVERHANG_SPACES[clef];
  const above = Math.max(overhang, (Math.max(8, ...shown) - 8) / 2 + NOTE_MARGIN_SPACES);
  const below = Math.max(overhang, -Math.min(0, ...shown) / 2 + NOTE_MARGIN_SPACES);
  const textMm = 3 * TEXT_ROW_MM + 1;
  const roomMm = (STAFF_HEIGHT_LIMITS_MM[count] - (count - 1) * SYSTEM_GAP_MM) / count - textMm;
  const spaceMm = Math.min(count === 1 ? LARGEST_SPACE_MM : SMALLER_SPACE_MM, roomMm / (above + 4 + below));
  const systemMm = (above + 4 + below) * spaceMm + textMm;
  const columnMm = Math.min(WIDEST_COLUMN_MM, (widthMm - LEAD_MM) / perSystem);
  const namesMm = (above + 4 + below) * spaceMm + TEXT_ROW_MM * 0.8;
  return {
    widthMm,
    heightMm: count * systemMm + (count - 1) * SYSTEM_GAP_MM,
    spaceMm,
    staveTopMm: above * spaceMm,
    namesMm,
    rowsMm: [namesMm + TEXT_ROW_MM, namesMm + 2 * TEXT_ROW_MM],
    systems: Array.from({ length: count }, (_, index) => {
      const from = index * perSystem;
      const to = Math.min(shown.length, from + perSystem);
      return {
        from,
        to,
        topMm: index * (systemMm + SYSTEM_GAP_MM),
        noteXsMm: Array.from({ length: to - from }, (_note, column) => LEAD_MM + (column + 0.5) * columnMm),
      };
    }),
    leftOut: positions.length - shown.length,
  };
}
