/** The words of two players side by side. */
import type { Travel } from '../../core/live';

/** How far apart two ways are, without sign. */
export interface Differences {
  readonly upMm: number;
  readonly rightMm: number;
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

/** Below this a travel rounds to 0.0 mm and is not named. */
const NAMED_FROM_MM = 0.05;

/** "the rim goes 2.6 mm up and 0.4 mm to the right": the player’s own right, as of the bell. */
export function rimClause({ upMm, rightMm }: Travel): string {
  const parts = [
    Math.abs(upMm) >= NAMED_FROM_MM && `${millimetres(upMm)} ${upMm > 0 ? 'up' : 'down'}`,
    Math.abs(rightMm) >= NAMED_FROM_MM && `${millimetres(rightMm)} to the ${rightMm > 0 ? 'right' : 'left'}`,
  ].filter((part) => part !== false);
  return parts.length === 0 ? 'the rim stays where it is' : `the rim goes ${parts.join(' and ')}`;
}

export const fromToWords = (from: string | null, to: string, rim: string, swing: string): string =>
  `From ${from ?? 'home'} to ${to} ${rim}; ${swing}.`;

export const differWords = ({ upMm, rightMm, elevationDeg, lateralDeg }: Differences): string =>
  `Between the two: ${millimetres(upMm)} of travel up and down and ${millimetres(rightMm)} sideways, ${degrees(elevationDeg)} of swing up and down and ${degrees(lateralDeg)} sideways.`;

export const hasNoNote = (note: string): string => `Has no ${note}: stands still.`;
export const otherHasNoNote = (name: string, note: string): string => `${name} has no ${note} and stands still.`;
export const NOTHING_SHARED = 'The two have no note in common, so there is nothing to compare.';
export const BESIDE_LABEL = 'beside';
export const BESIDE_NOBODY = 'nobody';
export const KEPT_GROUP = 'Kept in this browser';
export const INVENTED_GROUP = 'Invented, to look at';
export const notComputed = (name: string): string => `${name} cannot be shown: the record cannot be computed.`;
export const notFound = 'That player is no longer kept here, or cannot be read.';

const millimetres = (value: number): string => `${Math.abs(value).toFixed(1)}\u00a0mm`;
const degrees = (value: number): string => `${value.toFixed(1)}°`;
