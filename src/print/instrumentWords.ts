/**
 * Words that follow the instrument. A held horn swings at the bell. A tuba or a euphonium rests on the lap and stays where it
 * is, so there the head moves the other way: for the horn to point higher relative to the head, the head tips forward; for it
 * to point further to the player's right, the head turns to the left.
 */
export type Posture = 'held' | 'lap';

/** Angles, and how much either way they are sure to (half a 95 % band). */
export interface SwingAmounts {
  readonly elevationDeg: number;
  readonly lateralDeg: number;
  readonly elevationMarginDeg?: number | undefined;
  readonly lateralMarginDeg?: number | undefined;
}

/** What the horn, or the head, does: "the bell would come 3.0° up and 2.2° to the right". */
export function swingClause(posture: Posture, swing: SwingAmounts): string {
  const up = Math.abs(swing.elevationDeg) >= NAMED_FROM_DEG
    ? { amount: amountWords(swing.elevationDeg, swing.elevationMarginDeg), rising: swing.elevationDeg > 0 }
    : null;
  const side = Math.abs(swing.lateralDeg) >= NAMED_FROM_DEG
    ? { amount: amountWords(swing.lateralDeg, swing.lateralMarginDeg), right: swing.lateralDeg > 0 }
    : null;
  if (posture === 'lap') {
    const parts = [
      up && `tip ${up.amount} ${up.rising ? 'forward' : 'back'}`,
      side && `turn ${side.amount} to the ${side.right ? 'left' : 'right'}`,
    ].filter((part) => part !== null);
    return parts.length === 0 ? 'the head would stay as it is' : `the head would ${parts.join(' and ')}`;
  }
  const parts = [
    up && `${up.amount} ${up.rising ? 'up' : 'down'}`,
    side && `${side.amount} to the ${side.right ? 'right' : 'left'}`,
  ].filter((part) => part !== null);
  return parts.length === 0 ? 'the bell would stay where it is' : `the bell would come ${parts.join(' and ')}`;
}

/** The words beside one angle: "bell up", "head tips forward"; by its sign. A swing too small to name is "no change". */
export function swingDirection(posture: Posture, axis: 'elevation' | 'lateral', valueDeg: number): string {
  if (Math.abs(valueDeg) < NAMED_FROM_DEG) return axis === 'elevation' ? 'no change up or down' : 'no change sideways';
  const positive = valueDeg > 0;
  if (posture === 'lap') {
    return axis === 'elevation'
      ? `head tips ${positive ? 'forward' : 'back'}`
      : `head turns to the ${positive ? 'left' : 'right'}`;
  }
  return axis === 'elevation' ? `bell ${positive ? 'up' : 'down'}` : `bell to the ${positive ? 'right' : 'left'}`;
}

/** What the hands must do to hold the horn still, from the moment they supply, N·mm; null when there is nothing to do. */
export function momentWords(posture: Posture, moment: { readonly elevation: number; readonly lateral: number }): string | null {
  const parts = [
    Math.abs(moment.elevation) >= NAMED_FROM_NMM
      && `${moment.elevation > 0 ? 'up' : 'down'} with ${Math.round(Math.abs(moment.elevation))}\u00a0N·mm`,
    Math.abs(moment.lateral) >= NAMED_FROM_NMM
      && `to the ${moment.lateral > 0 ? 'right' : 'left'} with ${Math.round(Math.abs(moment.lateral))}\u00a0N·mm`,
  ].filter((part) => part !== false);
  return parts.length === 0 ? null : `push the ${posture === 'lap' ? 'horn' : 'bell'} ${parts.join(' and ')}`;
}

/** Moments below this round to nothing. */
const NAMED_FROM_NMM = 0.5;
/** Angles below this round to 0.0° and are not named. */
const NAMED_FROM_DEG = 0.05;

function amountWords(valueDeg: number, marginDeg: number | undefined): string {
  const size = `${Math.abs(valueDeg).toFixed(1)}°`;
  return marginDeg === undefined ? size : `${size} ± ${marginDeg.toFixed(1)}°`;
}
