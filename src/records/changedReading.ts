/** Whether a reading still says what was measured, or a hand has put another number in its place since. No schema: the page's measuring part is fetched without it. */
import { hornSds, isAngleSeen } from '../core/readings';
import type { ReadingSpec } from '../core/specs';
import type { AcceptedReading, Measuring } from './measuringSchema';

/** Of one number of a reading: as it was measured; another one since; or its measuring told none. */
export type SinceMeasured = 'as-measured' | 'changed' | 'not-measured';

export interface ChangedSince {
  readonly travel: SinceMeasured;
  readonly elevation: SinceMeasured;
  readonly lateral: SinceMeasured;
  readonly upperLipShare: SinceMeasured;
}

/** `reading` has a `from` that names this measuring. A number that was taken out counts as changed. */
export function changedSince({ accepted }: Pick<Measuring, 'accepted'>, { note, travel, horn, upperLipShare, from }: Partial<ReadingSpec>): ChangedSince {
  const sameFrame = accepted.filter(({ startS, endS, source }) => startS === from?.startS && endS === from?.endS && (source ?? 0) === (from?.source ?? 0));
  const own: Partial<AcceptedReading> = sameFrame.find((one) => one.note === note) ?? sameFrame[0] ?? {};
  const sds = horn && hornSds(horn);
  const seen = (deg: number | undefined, sdDeg: number | undefined): number | undefined => (sdDeg !== undefined && isAngleSeen(sdDeg) ? deg : undefined);
  const up = since(own.travel?.upMm, travel?.upMm);
  const right = since(own.travel?.rightMm, travel?.rightMm);
  return {
    travel: up === 'as-measured' ? right : up,
    elevation: since(own.elevation?.deg, seen(horn?.elevationDeg, sds?.sdDeg)),
    lateral: since(own.lateral?.deg, seen(horn?.lateralDeg, sds?.lateralSdDeg)),
    upperLipShare: since(own.upperLipShare, upperLipShare),
  };
}

/** Readings are kept to hundredths; what was measured may have more places. */
const ROUNDED = 0.0051;

function since(measured: number | undefined, now: number | undefined): SinceMeasured {
  if (measured === undefined) return 'not-measured';
  return now !== undefined && Math.abs(now - measured) <= ROUNDED ? 'as-measured' : 'changed';
}

/** Any number that was measured has been changed. */
export const isChangedByHand = (since: ChangedSince): boolean => Object.values(since).includes('changed');
