/** The horn's own angles in words, as far as they were seen. */
import type { KnownHorn, SeenAngles } from '../core/analysis';
import { seenAngles } from '../core/readings';
import { sayNotebook } from '../words/notebook';
import { fixed } from '../words/numbers';

/** "10.3° down, 2.7° right", or the one that is known. */
export function angleWords({ elevationDeg, lateralDeg }: SeenAngles): string {
  const up = elevationDeg === null ? null : sayNotebook('angleUp', angleValues(elevationDeg));
  const right = lateralDeg === null ? null : sayNotebook('angleRight', angleValues(lateralDeg));
  return up === null || right === null ? (up ?? right ?? '') : sayNotebook('angles', { up, right });
}

/** "From the horn measured at home this makes 12.0° down; measured here: 9.0° down." */
export function fromHomeWords(angles: SeenAngles, measuredHere: KnownHorn | null): string {
  const measured = measuredHere === null ? '' : angleWords(seenAngles(measuredHere));
  return sayNotebook('fromHome', { angles: angleWords(angles), seen: measured === '' ? 'no' : 'yes', measured });
}

/** Why one angle is not told; empty where both were seen at home. */
export function unseenAtHomeWords(home: KnownHorn): string {
  const { elevationDeg, lateralDeg } = seenAngles(home);
  if (elevationDeg !== null && lateralDeg !== null) return '';
  return sayNotebook(elevationDeg === null ? 'unseenUp' : 'unseenSide');
}

const angleValues = (deg: number): { readonly degrees: string; readonly way: string } => ({ degrees: fixed(Math.abs(deg), 1), way: deg < 0 ? 'minus' : 'plus' });
