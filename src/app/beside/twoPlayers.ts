/** Two players at the same sounding notes: what the rim and the horn of each do between two of them, in numbers. */
import type { Analysis, HornAngles, LiveFrame } from '../../core/analysis';
import type { Live, Travel } from '../../core/live';
import type { PlayingDirection } from '../../core/specs';
import { type Posture, swingClause } from '../../print/instrumentWords';
import { postureOf } from '../describe';
import { type Differences, differWords, fromToWords } from './words';

/** What one player's rim and horn do on the way from one note to another, or from home. */
export interface Way {
  readonly travel: Travel;
  readonly swing: HornAngles;
  readonly posture: Posture;
}

/** `fromMidi` null: from the player's own home. null where the rim finds no seat at one of the two. */
export function wayOf(analysis: Analysis, live: Live, fromMidi: number | null, toMidi: number, direction: PlayingDirection | null = null): Way | null {
  const at = (midi: number): LiveFrame | null => live.atPitch(midi, { horn: 'follow', view: 'seated', direction });
  const from = fromMidi === null ? null : at(fromMidi);
  const to = at(toMidi);
  if (to === null || (fromMidi !== null && from === null)) return null;
  const start = from ?? { travel: { upMm: 0, rightMm: 0 }, follow: analysis.home.follow };
  return {
    travel: { upMm: to.travel.upMm - start.travel.upMm, rightMm: to.travel.rightMm - start.travel.rightMm },
    swing: {
      elevationDeg: to.follow.pose.elevationDeg - start.follow.pose.elevationDeg,
      lateralDeg: to.follow.pose.lateralDeg - start.follow.pose.lateralDeg,
    },
    posture: postureOf(analysis.record.player.instrument),
  };
}

/** One player's sentence; `from` null: from home. */
export const wayWords = ({ travel, swing, posture }: Way, from: string | null, to: string): string =>
  fromToWords(from, to, travel, swingClause(posture, swing));

/** One sentence that compares; numbers only, no judging. */
export const comparedWords = (one: Way, other: Way): string => differWords(differences(one, other));

export function differences(one: Way, other: Way): Differences {
  return {
    upMm: Math.abs(one.travel.upMm - other.travel.upMm),
    rightMm: Math.abs(one.travel.rightMm - other.travel.rightMm),
    elevationDeg: Math.abs(one.swing.elevationDeg - other.swing.elevationDeg),
    lateralDeg: Math.abs(one.swing.lateralDeg - other.swing.lateralDeg),
  };
}
