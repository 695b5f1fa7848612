/** A scan as the seat asks it, without the lattice between: each gap the plain distance, each gradient the way from the closest point. */
import { ANSWER_AT_END, ANSWER_GAP, ANSWER_TIGHTNESS, type GapFace } from '../../src/core/gapFace';
import type { SignedDistance } from '../../src/scans/signedDistance';

/** Has no second derivatives, so it can say whether a seat is balanced and cannot find one. */
export function plainFace(distance: SignedDistance): GapFace {
  return {
    ask(_warm, _index, room) {
      room.answer[ANSWER_GAP] = distance.at(room.point[0]!, room.point[1]!, room.point[2]!);
      room.answer[ANSWER_TIGHTNESS] = 1;
      room.answer[ANSWER_AT_END] = 0;
    },
    writeNormal(room, out, from) {
      const gap = distance.at(room.point[0]!, room.point[1]!, room.point[2]!);
      for (let axis = 0; axis < 3; axis++) out[from + axis] = (room.point[axis]! - distance.foot[axis]!) / gap;
    },
    writeBends: (_room, out, from) => void out.fill(0, from, from + 6),
    beyondEdge: () => -Infinity,
    shiftedFrom: () => NaN,
    facingAt: () => 0,
  };
}
