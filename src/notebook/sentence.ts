/** The one sentence that says what the picture means, with its numbers. Pure words from one reading's analysis. */
import type { HalfShares, HornAngles } from '../core/analysis';
import type { TravelSpec } from '../core/specs';
import { type Posture, swingClause, wayOf } from '../print/instrumentWords';
import type { AngleMargin } from '../print/margin';
import { sayNotebook } from '../words/notebook';
import { fixed } from '../words/numbers';

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
  const [up, right] = [millimetres(travel.upMm), millimetres(travel.rightMm)];
  const [way, hand] = [wayOf(travel.upMm), wayOf(travel.rightMm)];
  if (up === null && right === null) return sayNotebook('rimHome', { note });
  if (right === null) return sayNotebook('rimUp', { note, up: up!, way });
  if (up === null) return sayNotebook('rimSide', { note, right, hand });
  return sayNotebook('rimBoth', { note, up, way, right, hand });
}

/** A half that carries less than this over an equal share is called even. */
const EVEN_WITHIN = 0.015;
/** Travel below this rounds to 0.0 mm and is not named. */
const NAMED_FROM_MM = 0.05;

function millimetres(value: number): string | null {
  return Math.abs(value) >= NAMED_FROM_MM ? fixed(Math.abs(value), 1) : null;
}

function swingStatement({ changeFromHome, margin, posture, homeMeasured }: SentenceFacts): string {
  const clause = swingClause(posture, {
    ...changeFromHome,
    elevationMarginDeg: margin?.elevationDeg,
    lateralMarginDeg: margin?.lateralDeg,
  }, 'after');
  return sayNotebook('swings', { measured: homeMeasured ? 'yes' : 'no', clause });
}

function heldStatement(share: HalfShares): string {
  const halves: readonly (readonly [string, number])[] = [
    ['upper', share.upper],
    ['lower', share.lower],
    ['right', share.right],
    ['left', share.left],
  ];
  const [half, part] = halves.reduce((most, one) => (one[1] > most[1] ? one : most));
  return part - 0.5 < EVEN_WITHIN ? sayNotebook('heldEven') : sayNotebook('heldHalf', { percent: Math.round(part * 100), half });
}
