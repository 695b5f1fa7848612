/** What each mark is called on the page, and what to look for. Sides are the player's own. */
import type { LandmarkName, ViewFrom } from '../../measure/marks';
import { sayMarking } from '../../words/marking';
import { type MarkId, placeOf } from './marksEdits';

export const viewName = (view: ViewFrom): string => sayMarking(view);

/** To choose from. */
export const views = (): readonly { readonly value: ViewFrom; readonly label: string }[] =>
  (['front', 'right', 'left', 'above'] as const).map((value) => ({ value, label: viewName(value) }));

const LANDMARKS = {
  'nose-bridge': { name: 'noseBridge', hint: 'noseBridgeHint' },
  'inner-eye-right': { name: 'innerEyeRight', hint: 'innerEyeHint' },
  'inner-eye-left': { name: 'innerEyeLeft', hint: 'innerEyeHint' },
  'outer-eye-right': { name: 'outerEyeRight', hint: 'outerEyeHint' },
  'outer-eye-left': { name: 'outerEyeLeft', hint: 'outerEyeHint' },
  'cheekbone-right': { name: 'cheekboneRight', hint: 'cheekboneHint' },
  'cheekbone-left': { name: 'cheekboneLeft', hint: 'cheekboneHint' },
  'ear-right': { name: 'earRight', hint: 'earHint' },
  'ear-left': { name: 'earLeft', hint: 'earHint' },
} as const satisfies Readonly<Record<LandmarkName, object>>;

/** "Outer corner of the right eye", "Rim, point 3", "Horn, toward the bell". */
export function markName(id: MarkId): string {
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
      return sayMarking('rimPoint', { number: place.index + 1 });
    case 'lip':
      return sayMarking('lipPoint', { number: place.index + 1 });
    case 'horn':
      return sayMarking(place.end === 'from' ? 'hornNear' : 'hornFar');
    case 'level':
      return sayMarking(place.end === 'from' ? 'levelBack' : 'levelFront');
    case 'landmark':
      return sayMarking(LANDMARKS[place.name].name);
  }
}

/** Within a group that has a name already: "3", "near the rim". */
export function shortMarkName(id: MarkId): string {
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
    case 'lip':
      return String(place.index + 1);
    case 'horn':
      return sayMarking(place.end === 'from' ? 'hornNearShort' : 'hornFarShort');
    case 'level':
      return sayMarking(place.end === 'from' ? 'levelBackShort' : 'levelFrontShort');
    case 'landmark':
      return markName(id);
  }
}

/** What to look for, for the mark that is next. */
export function markHint(id: MarkId, view: ViewFrom): string {
  const place = placeOf(id);
  switch (place.kind) {
    case 'rim':
      return sayMarking('rimHint');
    case 'lip':
      return sayMarking('lipHint');
    case 'horn':
      return sayMarking(place.end === 'from' ? 'hornNearHint' : 'hornFarHint');
    case 'level':
      if (view === 'above') return sayMarking(place.end === 'from' ? 'levelBackAbove' : 'levelFrontAbove');
      return sayMarking(place.end === 'from' ? 'levelBackHint' : 'levelFrontHint');
    case 'landmark':
      return sayMarking(LANDMARKS[place.name].hint);
  }
}

/** Groups of the list of marks. */
export const groupName = (id: MarkId): string => sayMarking(GROUPS[placeOf(id).kind]);

const GROUPS = { rim: 'rim', lip: 'lip', horn: 'horn', level: 'level', landmark: 'head' } as const;
