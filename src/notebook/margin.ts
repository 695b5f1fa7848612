/** What ± means beside a predicted angle, and what most of it is. */
import type { AngleBand } from '../core/analysis';
import { unknownWords } from '../core/words';
import { NINETY_FIVE_PERCENT, type ReadingBand } from '../core/bands';

/** What ± means and what would narrow it; `band` is null until it is known. */
export function marginWords(band: ReadingBand | null, jawSeen: boolean): string {
  if (band === null) return 'How sure this is, is being worked out.';
  const [largest] = band.parts;
  const whole = varianceOf(band.change);
  if (largest === undefined || Math.sqrt(whole) * NINETY_FIVE_PERCENT < SHOWN_FROM_DEG) return 'At home there is no change, so nothing to be unsure of.';
  const means = '± is a 95 % band: the change lies within it 19 times in 20.';
  const jaw = band.parts.filter((part) => JAW_PARTS.includes(part.name)).reduce((sum, part) => sum + varianceOf(part), 0);
  if (!jawSeen && jaw > whole / 2) {
    return `${means} Most of it is the jaw, which was not seen here: say where the jaw stands at this note to narrow it.`;
  }
  return `${means} Its largest part is the ${unknownWords(largest.name).replaceAll("'", '’')}.`;
}

/** A margin that rounds to 0.0° is not shown. */
export const SHOWN_FROM_DEG = 0.05;

/** The names under which the core lists a jaw that was not seen. */
const JAW_PARTS = ['jaw\'s opening', 'jaw forward or back'];

const varianceOf = (band: AngleBand): number => band.elevationSdDeg ** 2 + band.lateralSdDeg ** 2;
