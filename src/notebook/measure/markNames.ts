/** What each mark is called on the page, and what to look for. Sides are the player's own. */
import type { LandmarkName, ViewFrom } from '../../measure/marks';
import { type MarkId, placeOf } from './marksEdits';

export const VIEWS: readonly { readonly value: ViewFrom; readonly label: string }[] = [
  { value: 'front', label: 'from the front' },
  { value: 'right', label: 'the player’s right side' },
  { value: 'left', label: 'the player’s left side' },
  { value: 'above', label: 'from above' },
];

const LANDMARKS: Readonly<Record<LandmarkName, { readonly name: string; readonly hint: string }>> = {
  'nose-bridge': { name: 'Bridge of the nose', hint: 'the deepest point between the eyes' },
  'inner-eye-right': { name: 'Inner corner of the right eye', hint: 'the corner by the nose' },
  'inner-eye-left': { name: 'Inner corner of the left eye', hint: 'the corner by the nose' },
  'outer-eye-right': { name: 'Outer corner of the right eye', hint: 'the corner by the temple' },
  'outer-eye-left': { name: 'Outer corner of the left eye', hint: 'the corner by the temple' },
  'cheekbone-right': { name: 'Right cheekbone', hint: 'where it stands out most, on bone and not on the soft cheek' },
  'cheekbone-left': { name: 'Left cheekbone', hint: 'where it stands out most, on bone and not on the soft cheek' },
  'ear-right': { name: 'Right ear', hint: 'the small flap before the opening; leave it out if hair covers it' },
  'ear-left': { name: 'Left ear', hint: 'the small flap before the opening; leave it out if hair covers it' },
};

/** "Outer corner of the right eye", "Rim, point 3", "Horn, toward the bell". */
export function markName(id: MarkId): string {
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
      return `Rim, point ${place.index + 1}`;
    case 'lip':
      return `Lip line, point ${place.index + 1}`;
    case 'horn':
      return place.end === 'from' ? 'Horn, near the rim' : 'Horn, toward the bell';
    case 'level':
      return place.end === 'from' ? 'Level line, at the back' : 'Level line, at the front';
    case 'landmark':
      return LANDMARKS[place.name].name;
  }
}

/** What to look for, for the mark that is next. */
export function markHint(id: MarkId, view: ViewFrom): string {
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
      return 'on the outer edge of the metal; spread the points round as much of it as can be seen';
    case 'lip':
      return 'where the lips meet inside the rim, from one side to the other';
    case 'horn':
      return place.end === 'from' ? 'on the middle of the tube, as near the rim as it can be seen' : 'on the middle of the tube, as far out as it is straight';
    case 'level':
      if (view === 'above') return place.end === 'from' ? 'the middle of the back of the head' : 'the bridge of the nose';
      return place.end === 'from' ? 'the upper edge of the ear’s opening' : 'the lower edge of the bone under the eye';
    case 'landmark':
      return LANDMARKS[place.name].hint;
  }
}

/** Groups of the list of marks. */
export const groupName = (id: MarkId): string =>
  ({ rim: 'Rim', lip: 'Lip line', horn: 'Horn', level: 'Level line', landmark: 'Head' })[placeOf(id).kind];
