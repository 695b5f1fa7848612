/** A try-out as a record of its own: the lesson's mouth and rim with the one change made, and the try-out's readings. */
import { homePlace } from './analyse';
import { shareByDiameter } from './lipLine';
import type { PlayerRecord, TryOutSpec } from './specs';
import { sayCore } from '../words/core';
import { fixed } from '../words/numbers';

/**
 * The lesson's record as it is for a try-out, with the try-out's readings. For `place-rim` the home place goes up by `upMm` and the upper
 * lip's share by diameter grows by upMm over the inner diameter, so that the line between the lips stays on the lips; every other change
 * is one of the horn and leaves the mouth as it was. Throws TryOutRefusedError, a RangeError in words, where the rim would leave one lip.
 */
export function recordOfTryOut(record: PlayerRecord, tryOut: TryOutSpec): PlayerRecord {
  const { change, readings } = tryOut;
  if (change.kind !== 'place-rim' || change.upMm === 0) return { ...record, readings };
  const { upMm } = change;
  const inner = record.rim.innerDiameterMm;
  const before = shareByDiameter(record.upperLipShare);
  const share = before + upMm / inner;
  if (!(share > 0 && share < 1)) {
    const most = upMm > 0 ? (1 - before) * inner : before * inner;
    throw new TryOutRefusedError(
      sayCore('oneLipOnly', { amount: Math.abs(upMm), way: upMm > 0 ? 'up' : 'down', most: fixed(most, 1) }),
    );
  }
  const home = homePlace(record);
  return {
    ...record,
    home: { ...record.home, upMm: home.upMm + upMm, rightMm: home.rightMm },
    upperLipShare: { value: share, by: 'diameter' },
    readings,
  };
}

/** The change cannot be made with this mouth and rim; the message is a sentence for people. */
export class TryOutRefusedError extends RangeError {
  override readonly name = 'TryOutRefusedError';
}
