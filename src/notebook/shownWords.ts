/** What the picture can show, in the words of the chapter and of the row under the stage alike. */
import type { ViewName } from '../core/analysis';

/** From the plainest to the fullest. */
export const VIEWS: readonly { readonly view: ViewName; readonly name: string; readonly says: string }[] = [
  { view: 'plate', name: 'Flat plate', says: 'no curve, so no change' },
  { view: 'sphere', name: 'One sphere', says: 'the teeth as part of a ball' },
  { view: 'normal', name: 'Surface normal', says: 'square to one smooth surface' },
  { view: 'seated', name: 'Seated rim', says: 'resting on both jaws’ teeth' },
];

export const HORNS = [
  { value: 'follow', label: 'the horn follows' },
  { value: 'held', label: 'held still as at home' },
] as const;
