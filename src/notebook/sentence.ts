/** The one sentence that says what the picture means, with its numbers. Pure words from one reading's analysis. */
import type { HalfShares, HornAngles } from '../core/analysis';
import type { TravelSpec } from '../core/specs';
import { type Posture, swingClause } from '../print/instrumentWords';
import type { AngleMargin } from '../print/margin';

export interface SentenceFacts {
  /** As shown to the reader, sounding or written. */
  readonly note: string;
  readonly travel: Pick<TravelSpec, 'upMm' | 'rightMm'>;
  readonly changeFromHome: HornAngles;
  readonly homeMeasured: boolean;
  readonly heldShare: HalfShares;
  readonly posture: Posture;
  readonly margin?: AngleMargin | undefined;
}

/** Where the rim is, what the horn would do, and what holding it still would cost. Three short statements. */
export function sentence(facts: SentenceFacts): string {
  return `${travelStatement(facts)} ${swingStatement(facts)} ${heldStatement(facts.heldShare)}`;
}

/** "At G5 the rim is 3.1 mm up and 1.2 mm to the player's right of home." */
export function travelStatement({ note, travel }: Pick<SentenceFacts, 'note' | 'travel'>): string {
  const up = millimetres(travel.upMm);
  const side = millimetres(travel.rightMm);
  const hand = travel.rightMm > 0 ? 'right' : 'left';
  if (up === null && side === null) return `At ${note} the rim is at home.`;
  if (side === null) return `At ${note} the rim is ${up} ${travel.upMm > 0 ? 'above' : 'below'} home.`;
  if (up === null) return `At ${note} the rim is ${side} to the player’s ${hand} of home.`;
  return `At ${note} the rim is ${up} ${travel.upMm > 0 ? 'up' : 'down'} and ${side} to the player’s ${hand} of home.`;
}

/** A half that carries less than this over an equal share is called even. */
const EVEN_WITHIN = 0.015;
/** Travel below this rounds to 0.0 mm and is not named. */
const NAMED_FROM_MM = 0.05;

function millimetres(value: number): string | null {
  return Math.abs(value) >= NAMED_FROM_MM ? `${Math.abs(value).toFixed(1)}\u00a0mm` : null;
}

function swingStatement({ changeFromHome, margin, posture, homeMeasured }: SentenceFacts): string {
  const from = homeMeasured ? 'From the horn angle measured at home' : 'From the horn angle at home';
  return `${from}, ${swingClause(posture, {
    ...changeFromHome,
    elevationMarginDeg: margin?.elevationDeg,
    lateralMarginDeg: margin?.lateralDeg,
  })}.`;
}

function heldStatement(share: HalfShares): string {
  const halves: readonly (readonly [string, number])[] = [
    ['upper', share.upper],
    ['lower', share.lower],
    ['right', share.right],
    ['left', share.left],
  ];
  const [half, part] = halves.reduce((most, one) => (one[1] > most[1] ? one : most));
  return part - 0.5 < EVEN_WITHIN
    ? 'Held still, the force would stay even.'
    : `Held still, ${Math.round(part * 100)}\u00a0% of the force would lie on the ${half} half.`;
}
