/** What a drag or a key does to a travel. Pure functions. */
import type { Travel } from './props';

const KEY_STEP_MM = 0.1;
const KEY_LEAP_MM = 1;
export const DEFAULT_LIMIT_MM = 15;

/** The travel moved by so much, in tenths of a millimetre and within ±limit. */
export function movedTravel(start: Travel, change: Partial<Travel>, limitMm: number): Travel {
  return {
    upMm: change.upMm === undefined ? start.upMm : settled(start.upMm + change.upMm, limitMm),
    rightMm: change.rightMm === undefined ? start.rightMm : settled(start.rightMm + change.rightMm, limitMm),
  };
}

/** Steps up and across that a key asks for, as drawn: +x to the right of the picture; null for other keys. */
export function keySteps(key: string, shift: boolean): { readonly acrossMm: number; readonly upMm: number } | null {
  const size = shift ? KEY_LEAP_MM : KEY_STEP_MM;
  if (key === 'ArrowUp') return { acrossMm: 0, upMm: size };
  if (key === 'ArrowDown') return { acrossMm: 0, upMm: -size };
  if (key === 'ArrowRight') return { acrossMm: size, upMm: 0 };
  if (key === 'ArrowLeft') return { acrossMm: -size, upMm: 0 };
  if (key === 'PageUp') return { acrossMm: 0, upMm: KEY_LEAP_MM };
  if (key === 'PageDown') return { acrossMm: 0, upMm: -KEY_LEAP_MM };
  return null;
}

function settled(valueMm: number, limitMm: number): number {
  const tenths = Math.round(Math.max(-limitMm, Math.min(limitMm, valueMm)) * 10);
  return tenths === 0 ? 0 : tenths / 10;
}
