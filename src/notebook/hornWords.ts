/** The horn's own angles in words, as far as they were seen. */
import type { KnownHorn, SeenAngles } from '../core/analysis';
import { seenAngles } from '../core/readings';

/** "10.3° down, 2.7° right", or the one that is known. */
export function angleWords({ elevationDeg, lateralDeg }: SeenAngles): string {
  const up = elevationDeg === null ? [] : [`${Math.abs(elevationDeg).toFixed(1)}° ${elevationDeg < 0 ? 'down' : 'up'}`];
  const right = lateralDeg === null ? [] : [`${Math.abs(lateralDeg).toFixed(1)}° ${lateralDeg < 0 ? 'left' : 'right'}`];
  return [...up, ...right].join(', ');
}

/** "; measured here: 9.0° down.", or the full stop alone. */
export function measuredHereWords(measured: KnownHorn | null): string {
  const words = measured === null ? '' : angleWords(seenAngles(measured));
  return words === '' ? '.' : `; measured here: ${words}.`;
}

/** Why one angle is not told; empty where both were seen at home. */
export function unseenAtHomeWords(home: KnownHorn): string {
  const { elevationDeg, lateralDeg } = seenAngles(home);
  if (elevationDeg !== null && lateralDeg !== null) return '';
  return ` ${elevationDeg === null ? 'Up and down' : 'Sideways'} the horn was not seen at home: only the change is known.`;
}
