/** How sure a predicted angle is, in people's terms: half the width of its 95 % band. */
import type { AngleBand } from '../core/analysis';
import { NINETY_FIVE_PERCENT } from '../core/bands';

/** Degrees either way of an angle that hold the truth 19 times in 20. */
export interface AngleMargin {
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

export function marginOf(band: AngleBand): AngleMargin {
  return { elevationDeg: band.elevationSdDeg * NINETY_FIVE_PERCENT, lateralDeg: band.lateralSdDeg * NINETY_FIVE_PERCENT };
}
