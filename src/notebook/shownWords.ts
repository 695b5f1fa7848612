/** What the picture can show, in the words of the chapter and of the row under the stage alike. */
import type { ViewName } from '../core/analysis';
import { sayNotebook } from '../words/notebook';

/** From the plainest to the fullest. */
export const VIEWS: readonly { readonly view: ViewName; readonly name: string; readonly says: string }[] = [
  inWords('plate', 'plateSays'),
  inWords('sphere', 'sphereSays'),
  inWords('normal', 'normalSays'),
  inWords('seated', 'seatedSays'),
];

export const HORNS = [
  {
    value: 'follow',
    get label() {
      return sayNotebook('hornFollows');
    },
  },
  {
    value: 'held',
    get label() {
      return sayNotebook('hornHeld');
    },
  },
] as const;

/** A view is its name's key. */
function inWords(view: ViewName, says: 'plateSays' | 'sphereSays' | 'normalSays' | 'seatedSays') {
  return {
    view,
    get name() {
      return sayNotebook(view);
    },
    get says() {
      return sayNotebook(says);
    },
  };
}
