/** A stand-in of the scans' fields; in the chunk that is fetched where there is a scan. */
import type { MouthOf } from '../../core/arch';
import { type ScannedFields, scannedMouth } from '../../scans/scannedMouth';
import type { Jaws, StandIn } from './standIns';

export function madeStandIn(fields: ScannedFields): StandIn {
  const mouths = new Map<string, MouthOf>();
  const mouthOf = ({ upper, lower }: Jaws): MouthOf => {
    const key = `${upper} ${lower}`;
    const known = mouths.get(key) ?? scannedMouth({ ...(upper ? { upper: fields.upper } : {}), ...(lower ? { lower: fields.lower } : {}) });
    mouths.set(key, known);
    return known;
  };
  return { fields, jaws: { upper: fields.upper !== undefined, lower: fields.lower !== undefined }, mouthOf };
}
