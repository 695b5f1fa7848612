/**
 * How travel is typed and shown. The record always keeps millimetres and the player's own right; only what stands in the
 * field is turned or scaled here.
 */
import type { RimSpec } from '../core/specs';
import { sayNotebook } from '../words/notebook';

export type LengthUnit = 'mm' | 'rim widths';

/**
 * Whose right is meant when a sideways number is typed. In a mirror (or a picture flipped like one) the player's right is on
 * the right of the picture; facing the player it is on the left, so there the sign is turned.
 */
export type SidewaysEntry = 'player' | 'mirror' | 'facing';

/** One rim width: from the inner edge of the rim to its outer edge, mm. */
export function rimWidthMm(rim: RimSpec): number {
  return (rim.outerDiameterMm - rim.innerDiameterMm) / 2;
}

export function sidewaysSign(entry: SidewaysEntry): 1 | -1 {
  return entry === 'facing' ? -1 : 1;
}

/** Millimetres in one shown unit. */
export function unitMm(unit: LengthUnit, rim: RimSpec): number {
  return unit === 'mm' ? 1 : rimWidthMm(rim);
}

/** The column's name for the sideways number. */
export const sidewaysLabel = (entry: SidewaysEntry): string => sayNotebook(`sideways-${entry}`);

/** What the choice does, in words. */
export const sidewaysExplanation = (entry: SidewaysEntry): string => sayNotebook(`explained-${entry}`);
