/** What ± means beside a predicted angle, and what most of it is. */
import type { AngleBand } from '../core/analysis';
import { unknownWords } from '../core/words';
import { NINETY_FIVE_PERCENT, type ReadingBand } from '../core/bands';
import { sayNotebook } from '../words/notebook';

/** What ± means and what would narrow it; `band` is null until it is known. */
export function marginWords(band: ReadingBand | null, jawSeen: boolean): string {
  if (band === null) return sayNotebook('bandUnknown');
  const [largest] = band.parts;
  const whole = varianceOf(band.change);
  if (largest === undefined || Math.sqrt(whole) * NINETY_FIVE_PERCENT < SHOWN_FROM_DEG) return sayNotebook('bandNone');
  const jaw = band.parts.filter((part) => JAW_PARTS.includes(part.name)).reduce((sum, part) => sum + varianceOf(part), 0);
  if (!jawSeen && jaw > whole / 2) return sayNotebook('bandJaw');
  return sayNotebook('bandLargest', { part: unknownWords(largest.name).replaceAll("'", '’') });
}

/** A margin that rounds to 0.0° is not shown. */
export const SHOWN_FROM_DEG = 0.05;

/** The names under which the core lists a jaw that was not seen. */
const JAW_PARTS = ['jaw\'s opening', 'jaw forward or back'];

const varianceOf = (band: AngleBand): number => band.elevationSdDeg ** 2 + band.lateralSdDeg ** 2;
