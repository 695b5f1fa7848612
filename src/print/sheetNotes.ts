/** Which of a player's notes the sheet draws and speaks of. Pure. */
import type { Analysis, ReadingAnalysis } from '../core/analysis';
import { isHome } from '../core/mouthMoves';
import type { JawSpec } from '../core/specs';

export interface SheetNotes {
  readonly lowest: ReadingAnalysis | null;
  readonly highest: ReadingAnalysis | null;
  /** The note whose rim is furthest to a side of home; null where none has left the middle. */
  readonly sideways: ReadingAnalysis | null;
  /** The note that the sentences speak of: the highest, or the lowest where the highest is home itself. */
  readonly told: ReadingAnalysis | null;
}

/** Sideways travel below this rounds to 0.0 mm, and nothing sideways is drawn for it. */
const SIDEWAYS_FROM_MM = 0.05;

export function sheetNotes(analysis: Analysis): SheetNotes {
  const { home, readings } = analysis;
  const away = readings.filter((reading) => !isHome(analysis, reading));
  const highest = extreme(away, (one) => one.midi);
  const lowest = extreme(away, (one) => -one.midi);
  const sideways = extreme(away, (one) => Math.abs(one.travel.rightMm));
  const above = highest !== null && (home.midi === null || highest.midi > home.midi) ? highest : null;
  const below = lowest !== null && lowest !== above && (home.midi === null || lowest.midi < home.midi) ? lowest : null;
  return {
    lowest: below,
    highest: above,
    sideways: sideways !== null && Math.abs(sideways.travel.rightMm) >= SIDEWAYS_FROM_MM ? sideways : null,
    told: above ?? below ?? away[0] ?? readings[0] ?? null,
  };
}

/** Where the lower jaw stands at home; null for a single surface. */
export function homeJaw({ home, readings, record }: Analysis): JawSpec | null {
  if ('single' in record.arch) return null;
  return readings.find(({ midi }) => midi === home.midi)?.jaw ?? record.arch.jaw;
}

/** The first of those with the greatest value. */
function extreme(readings: readonly ReadingAnalysis[], value: (reading: ReadingAnalysis) => number): ReadingAnalysis | null {
  return readings.reduce<ReadingAnalysis | null>((most, one) => (most === null || value(one) > value(most) ? one : most), null);
}
