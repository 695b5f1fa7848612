/**
 * Words that follow the instrument. A held horn swings at the bell. A tuba or a euphonium rests on the lap and stays where it
 * is, so there the head moves the other way: for the horn to point higher relative to the head, the head tips forward; for it
 * to point further to the player's right, the head turns to the left.
 */
import { fixed } from '../words/numbers';
import { sayPrint } from '../words/print';

export type Posture = 'held' | 'lap';

/** Angles, and how much either way they are sure to (half a 95 % band). */
export interface SwingAmounts {
  readonly elevationDeg: number;
  readonly lateralDeg: number;
  readonly elevationMarginDeg?: number | undefined;
  readonly lateralMarginDeg?: number | undefined;
}

/** Where the clause stands: by itself, after words that begin its sentence, or after "that". German puts its words in another order then. */
export type ClauseOrder = 'plain' | 'after' | 'that';

/** What the horn, or the head, does: "the bell would come 3.0° up and 2.2° to the right". */
export function swingClause(posture: Posture, swing: SwingAmounts, order: ClauseOrder = 'plain'): string {
  const lap = posture === 'lap';
  const parts = [
    Math.abs(swing.elevationDeg) >= NAMED_FROM_DEG
      && sayPrint(lap ? 'headUp' : 'bellUp', { amount: amountWords(swing.elevationDeg, swing.elevationMarginDeg), way: wayOf(swing.elevationDeg) }),
    Math.abs(swing.lateralDeg) >= NAMED_FROM_DEG
      && sayPrint(lap ? 'headSide' : 'bellSide', { amount: amountWords(swing.lateralDeg, swing.lateralMarginDeg), way: wayOf(swing.lateralDeg) }),
  ].filter((part) => part !== false);
  if (parts.length === 0) return sayPrint(lap ? 'headStays' : 'bellStays', { order });
  return sayPrint(lap ? 'headMoves' : 'bellComes', { parts: joined(parts), order });
}

export type SwingAxis = 'elevation' | 'lateral';

/** The words beside one angle: "bell up", "head tips forward"; by its sign. A swing too small to name is "no change". */
export function swingDirection(posture: Posture, axis: SwingAxis, valueDeg: number): string {
  if (Math.abs(valueDeg) < NAMED_FROM_DEG) return noChange(axis);
  return sayPrint(posture === 'lap' ? HEAD_TOWARD[axis] : BELL_TOWARD[axis], { way: wayOf(valueDeg) });
}

/** The same where the bell itself can be seen: "up", "right". */
export function swingSide(posture: Posture, axis: SwingAxis, valueDeg: number): string {
  if (posture === 'lap' || Math.abs(valueDeg) < NAMED_FROM_DEG) return swingDirection(posture, axis, valueDeg);
  return sayPrint(axis === 'elevation' ? 'shortUp' : 'shortSide', { way: wayOf(valueDeg) });
}

/** The same with how far, beside the bell that is seen: "3.1° up"; of the head in full, "head tips 3.1° forward". */
export const swingBeside = (posture: Posture, axis: SwingAxis, valueDeg: number): string =>
  posture === 'lap' && Math.abs(valueDeg) >= NAMED_FROM_DEG
    ? swingMoved(posture, axis, valueDeg)
    : `${fixed(Math.abs(valueDeg), 1)}°\u00a0${swingSide(posture, axis, valueDeg)}`;

/** The same with how far: "bell 3.1° up". */
export function swingMoved(posture: Posture, axis: SwingAxis, valueDeg: number): string {
  if (Math.abs(valueDeg) < NAMED_FROM_DEG) return noChange(axis);
  return sayPrint(posture === 'lap' ? HEAD_MOVED[axis] : BELL_MOVED[axis], { degrees: fixed(Math.abs(valueDeg), 1), way: wayOf(valueDeg) });
}

/** What the hands must do to hold the horn still, from the moment they supply, N·mm; null when there is nothing to do. */
export function momentWords(posture: Posture, moment: { readonly elevation: number; readonly lateral: number }): string | null {
  const parts = [
    Math.abs(moment.elevation) >= NAMED_FROM_NMM
      && sayPrint('pushUp', { way: wayOf(moment.elevation), amount: Math.round(Math.abs(moment.elevation)) }),
    Math.abs(moment.lateral) >= NAMED_FROM_NMM
      && sayPrint('pushSide', { way: wayOf(moment.lateral), amount: Math.round(Math.abs(moment.lateral)) }),
  ].filter((part) => part !== false);
  return parts.length === 0 ? null : sayPrint('push', { posture, parts: joined(parts) });
}

/** One or two parts of a sentence: "2.2 mm up and 0.6 mm to the player’s right". */
export const joined = ([first = '', second]: readonly string[]): string => (second === undefined ? first : sayPrint('and', { first, second }));

/** Up and to the player's right are plus. */
export const wayOf = (value: number): 'plus' | 'minus' => (value > 0 ? 'plus' : 'minus');

const BELL_TOWARD = { elevation: 'bellTowardUp', lateral: 'bellTowardSide' } as const;
const HEAD_TOWARD = { elevation: 'headTowardUp', lateral: 'headTowardSide' } as const;
const BELL_MOVED = { elevation: 'bellMovedUp', lateral: 'bellMovedSide' } as const;
const HEAD_MOVED = { elevation: 'headMovedUp', lateral: 'headMovedSide' } as const;

const noChange = (axis: SwingAxis): string => sayPrint(axis === 'elevation' ? 'noneUp' : 'noneSide');

/** Moments below this round to nothing. */
const NAMED_FROM_NMM = 0.5;
/** Angles below this round to 0.0° and are not named. */
const NAMED_FROM_DEG = 0.05;

function amountWords(valueDeg: number, marginDeg: number | undefined): string {
  const amount = fixed(Math.abs(valueDeg), 1);
  return marginDeg === undefined ? `${amount}°` : sayPrint('giveOrTake', { amount, margin: fixed(marginDeg, 1) });
}
