/** The words of the class view that are not data of a class. */
import type { HornAngles } from '../../core/analysis';
import { type Posture, swingDirection } from '../../print/instrumentWords';
import type { AskedAbout } from '../../records/classSchema';

export const CLASS_NAME = 'Class view';
export const FORWARD = 'Next';
export const BACK = 'Back';
export const PLAY = 'Play';
export const PAUSE = 'Pause';
export const SHOW_START = 'Show the start';
export const SHOW_END = 'Show the end';
export const TO_SAY = 'Speaker’s words';
export const STEPS = 'Steps';
export const FULL_SCREEN = 'Full screen';
export const LEAVE = 'Leave';
export const SOUND = 'Sound';
export const PICTURE = 'Picture';
export const CONTROLS = 'Steps and playing';
export const KEYS = 'Arrow keys, Space, Page Up and Page Down go through the steps, Home and End to the first and the last, Escape leaves.';
export const NO_PICTURE = 'There is no picture of this player: the record cannot be computed.';
export const FETCHING = 'The picture is being fetched…';

export const counted = (at: number, of: number): string => `${at} of ${of}`;
export const countedOff = 'Switched off';
export const announced = (at: string, title: string, words: string): string => `${at}: ${title}. ${words}`;

/** The three answers to a question, in order: the first way, the other, neither. */
export function answersFor(about: AskedAbout, posture: Posture): readonly [string, string, string] {
  const lap = posture === 'lap';
  switch (about) {
    case 'bell up or down':
      return lap ? ['head forward', 'head back', 'stays'] : ['up', 'down', 'stays'];
    case 'bell to the side':
      return lap ? ['head to player’s left', 'head to player’s right', 'stays'] : ['player’s right', 'player’s left', 'stays'];
    case 'upper or lower half':
      return ['the upper half', 'the lower half', 'both alike'];
    case 'right or left half':
      return ['the right half', 'the left half', 'both alike'];
  }
}

export const handsFor = (answer: string): string => `Hands for “${answer}”`;
export const HANDS = 'hands';
export const YES = 'so it is';
export const AS_AT_HOME = 'as at home';

/** "With the rim 4.0 mm up, the bell comes 4.3° up." `swing` is a clause of instrumentWords.ts. */
export const followedWords = (place: string, swing: string): string => `With the rim ${place}, ${swing}.`;

export function placeWords(upMm: number, rightMm: number): string {
  const parts = [
    Math.abs(upMm) >= 0.05 && `${Math.abs(upMm).toFixed(1)}\u00a0mm ${upMm > 0 ? 'up' : 'down'}`,
    Math.abs(rightMm) >= 0.05 && `${Math.abs(rightMm).toFixed(1)}\u00a0mm to the ${rightMm > 0 ? 'right' : 'left'}`,
  ].filter((part) => part !== false);
  return parts.length === 0 ? 'at home' : parts.join(' and ');
}

/** Which pair of halves is spoken of is the one that differs more. */
export function heldWords(place: string, share: { readonly upper: number; readonly lower: number; readonly right: number; readonly left: number }): string {
  const upright = Math.abs(share.upper - 0.5) >= Math.abs(share.right - 0.5);
  const [one, other, first, second] = upright ? (['upper', 'lower', share.upper, share.lower] as const) : (['right', 'left', share.right, share.left] as const);
  return `Held still with the rim ${place}: ${percent(first)} of the force on the ${one} half, ${percent(second)} on the ${other}.`;
}

const percent = (part: number): string => `${Math.round(part * 100)}\u00a0%`;

export const YOUR_TURN = {
  legend: 'A number from the room',
  up: 'Up (a minus: down)',
  right: 'To the player’s right (a minus: left)',
  go: 'Go',
  home: 'Home',
  note: 'or a note',
  noNote: 'choose',
} as const;

export const PLAN = {
  heading: 'Steps of this class',
  kept: 'Kept in this browser; players and lessons are not changed.',
  notKept: 'This browser keeps nothing, so this lasts only until the page is closed.',
  close: 'Close',
  allAsItCame: 'Everything as it came',
  asItCame: 'Words as they came',
  shown: (title: string) => `Show “${title}”`,
  earlier: (title: string) => `Move “${title}” earlier`,
  later: (title: string) => `Move “${title}” later`,
  earlierShort: 'Earlier',
  laterShort: 'Later',
  shownShort: 'shown',
  goTo: (title: string) => `Go there: “${title}”`,
  goToShort: 'Go there',
  words: (title: string) => `Words of “${title}”`,
  wordsShort: 'Words',
  title: 'Heading',
  room: 'For the room',
  toSay: 'For the speaker',
} as const;

export const CANNOT_REST = 'The rim cannot rest there.';

/** "3.4° up · 1.2° right", beside the horn. */
export function swingLabel(posture: Posture, { elevationDeg, lateralDeg }: HornAngles): string {
  const parts = ([['elevation', elevationDeg], ['lateral', lateralDeg]] as const).flatMap(([axis, value]) =>
    Math.abs(value) < 0.05 ? [] : [`${Math.abs(value).toFixed(1)}°\u00a0${swingDirection(posture, axis, value).replace(/^bell (to the )?/, '')}`]);
  return parts.length === 0 ? AS_AT_HOME : parts.join(' · ');
}
