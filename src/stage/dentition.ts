/** Which tooth stands where along the arch: widths of the table laid out from the midline, with small gaps that differ. */
import type { JawFace } from './jawFaces';
import type { CrownMeasures } from './props';

export interface PlacedTooth {
  readonly fdi: number;
  readonly face: JawFace;
  /** Arc length of the crown's centre line, mm, + to the player's left. */
  readonly arcMm: number;
  /** Arc direction that leads away from the midline. */
  readonly distal: 1 | -1;
  /** The number's second digit: 1 central incisor … 5 second premolar. */
  readonly kind: number;
  /** Measures as drawn, after the scale that makes the row fit the arch. */
  readonly measures: CrownMeasures;
  /** Height at which the crown begins, above the edge line. */
  readonly edgeMm: number;
  /** Height of the gum margin at the centre line. */
  readonly marginMm: number;
}

/** Teeth drawn on each side, central incisor to second premolar. */
const TEETH_A_SIDE = 5;
/** Gaps behind each tooth, mm: design choice, so that the row does not look stamped. */
const GAPS_MM = [0.12, 0.06, 0.1, 0.08, 0.05];
const MIDLINE_GAP_MM = 0.1;
/** The lateral incisor ends a little higher than its neighbours (design choice within the drawing's 0.5 mm). */
const EDGE_MM = [0.05, 0.5, 0, 0.35, 0.6];
/** The gum covers this much of the table's anatomical crown. */
const COVERED_BY_GUM_MM = 0.4;

export function placeTeeth(face: JawFace, table: readonly CrownMeasures[]): PlacedTooth[] {
  const placed: PlacedTooth[] = [];
  for (const distal of [-1, 1] as const) {
    const quadrant = face.upper ? (distal < 0 ? 1 : 2) : distal < 0 ? 4 : 3;
    const rows = Array.from({ length: TEETH_A_SIDE }, (_, index) => rowOf(table, quadrant * 10 + index + 1));
    const wanted = rows.reduce((sum, row, index) => sum + row.widthMm + gap(index, distal), MIDLINE_GAP_MM);
    const scale = Math.min(1, face.arcLimitMm / wanted);
    let arc = MIDLINE_GAP_MM * scale;
    rows.forEach((row, index) => {
      const width = row.widthMm * scale;
      const edgeMm = face.upper ? EDGE_MM[index]! : EDGE_MM[index]! * 0.4;
      placed.push({
        fdi: quadrant * 10 + index + 1,
        face,
        arcMm: distal * (arc + width / 2),
        distal,
        kind: index + 1,
        measures: { ...row, widthMm: width, neckWidthMm: row.neckWidthMm * scale },
        edgeMm,
        marginMm: Math.min(edgeMm + row.crownLengthMm - COVERED_BY_GUM_MM, face.heightLimitMm * 0.8),
      });
      arc += width + gap(index, distal) * scale;
    });
  }
  return placed.sort((a, b) => a.arcMm - b.arcMm);
}

/** The two sides differ, as in a mouth. */
const gap = (index: number, distal: number): number => GAPS_MM[(index + (distal > 0 ? 2 : 0)) % GAPS_MM.length]!;

function rowOf(table: readonly CrownMeasures[], fdi: number): CrownMeasures {
  const row = table.find((candidate) => candidate.fdi.includes(fdi));
  if (!row) throw new RangeError(`teeth: no row for tooth ${fdi}; allowed: a table with 11–15, 21–25, 31–35 and 41–45`);
  return row;
}
