/** The sentences of the class view that are made from numbers and choices. */
import type { HornAngles } from '../../core/analysis';
import { type ClauseOrder, type Posture, swingBeside } from '../../print/instrumentWords';
import type { AskedAbout } from '../../records/classSchema';
import { sayClass } from '../../words/class';
import { travelParts } from '../beside/words';

/** The three answers to a question, in order: the first way, the other, neither. */
export function answersFor(about: AskedAbout, posture: Posture): readonly [string, string, string] {
  const lap = posture === 'lap';
  switch (about) {
    case 'bell up or down':
      return lap ? [sayClass('headForward'), sayClass('headBack'), sayClass('stays')] : [sayClass('bellUp'), sayClass('bellDown'), sayClass('stays')];
    case 'bell to the side':
      return lap ? [sayClass('headLeft'), sayClass('headRight'), sayClass('stays')] : [sayClass('bellRight'), sayClass('bellLeft'), sayClass('stays')];
    case 'upper or lower half':
      return [sayClass('upperHalf'), sayClass('lowerHalf'), sayClass('alike')];
    case 'right or left half':
      return [sayClass('rightHalf'), sayClass('leftHalf'), sayClass('alike')];
  }
}

/** Where a clause of instrumentWords.ts stands in `followedWords`. */
export const FOLLOWED_ORDER: ClauseOrder = 'after';

/** "With the rim 4.0 mm up, the bell comes 4.3° up." */
export const followedWords = (place: string, swing: string): string => sayClass('followed', { place, swing });

export function placeWords(upMm: number, rightMm: number): string {
  const parts = travelParts({ upMm, rightMm });
  return parts === '' ? sayClass('atHome') : parts;
}

/** Which pair of halves is spoken of is the one that differs more. */
export function heldWords(place: string, share: { readonly upper: number; readonly lower: number; readonly right: number; readonly left: number }): string {
  const upright = Math.abs(share.upper - 0.5) >= Math.abs(share.right - 0.5);
  const [first, second] = upright ? [share.upper, share.lower] : [share.right, share.left];
  return sayClass('held', { place, pair: upright ? 'upright' : 'sideways', first: percent(first), second: percent(second) });
}

const percent = (part: number): number => Math.round(part * 100);

/** "3.4° up · 1.2° right", beside the horn. */
export function swingLabel(posture: Posture, { elevationDeg, lateralDeg }: HornAngles): string {
  const parts = ([['elevation', elevationDeg], ['lateral', lateralDeg]] as const).flatMap(([axis, value]) => (Math.abs(value) < 0.05 ? [] : [swingBeside(posture, axis, value)]));
  return parts.length === 0 ? sayClass('asAtHome') : parts.join(' · ');
}
