/** A try-out in words: what is changed, what the model expected of it, and what was seen. No advice. */
import type { NoteCompared, SeenAtNote, TryOutCompared } from '../../core/tryOutShapes';
import type { HornAngles } from '../../core/analysis';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { TryOutChange } from '../../core/specs';
import { type Posture, swingClause } from '../../print/instrumentWords';
import { changeWords } from '../../print/sheetText';
import { sayTryOuts } from '../../words/tryOuts';
import { formatFixed, formatNumber } from '../numberText';

/** "The rim 2.0 mm higher". */
export function changeName(change: TryOutChange, posture: Posture): string {
  const words = changeWords(change, posture);
  return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}`;
}

/** What the change is, for the player: one sentence, without saying whether it is good. */
export function changeExplained(change: TryOutChange): string {
  switch (change.kind) {
    case 'hold-horn':
      return sayTryOuts('holdHornSays');
    case 'let-horn-follow':
      return sayTryOuts('letFollowSays');
    case 'place-rim':
      return sayTryOuts('placeRimSays', { lip: change.upMm > 0 ? 'upper' : 'lower' });
    case 'bring-horn-round':
      return sayTryOuts('bringRoundSays');
  }
}

/** What the model expected at the note that it expects most of; null where it could say nothing. */
export function expectedSentence(compared: TryOutCompared, posture: Posture, noteLabel: (note: string) => string): string | null {
  const most = widest(compared.notes);
  if (most?.expected == null) return null;
  const { hornChange, loadTried, loadAsUsual } = most.expected;
  const note = noteLabel(most.note);
  const from = compared.countedFrom;
  if (compared.change.kind === 'hold-horn' || compared.change.kind === 'bring-horn-round') {
    const { side, share } = heavier(loadTried.share);
    return sayTryOuts('expectForce', { note, tried: percent(share), half: side, usual: percent(loadAsUsual.share[side]) });
  }
  if (swingSize(hornChange) < SHOWN_FROM_DEG) return sayTryOuts('expectLittle', { note, from });
  return sayTryOuts('expectSwing', { note, clause: swingClause(posture, hornChange, 'that'), from });
}

/** "On 5 notes it spoke 0.8 easier on the average (from 1, hard, to 5, easy), give or take 0.5." */
export function easeSentence({ ease }: TryOutCompared): string | null {
  if (ease === null) return null;
  const { notes } = ease;
  const spread = { spreads: ease.spread === null ? 'no' : 'yes', spread: ease.spread === null ? '' : formatFixed(ease.spread, 1) };
  const size = Math.abs(ease.meanDifference);
  if (Number(size.toFixed(1)) === 0) return sayTryOuts('easeSame', { notes, ...spread });
  return sayTryOuts('easeOther', { notes, size: formatFixed(size, 1), way: ease.meanDifference > 0 ? 'easier' : 'harder', ...spread });
}

/** " ± 1.2": half a 95 % band; empty where it is less than anybody sees. */
export function marginText(sdDeg: number): string {
  const margin = NINETY_FIVE_PERCENT * sdDeg;
  return margin < SHOWN_FROM_DEG ? '' : `\u00a0±\u00a0${formatFixed(margin, 1)}`;
}

export function easeWords(seen: SeenAtNote | null): string {
  return seen?.ease == null ? NOT_SEEN : formatNumber(seen.ease, 1);
}

export function airWords(seen: SeenAtNote | null): string {
  if (seen === null) return NOT_SEEN;
  const said = (['down', 'up', 'unsure'] as const).filter((side) => seen.airstream[side] > 0).map((side) => sayTryOuts(`air-${side}`));
  return said.length === 0 ? NOT_SEEN : said.join(', ');
}

const NOT_SEEN = '–';
/** A tenth of a degree is less than anybody sees. */
const SHOWN_FROM_DEG = 0.1;

const percent = (part: number): number => Math.round(100 * part);

const swingSize = ({ elevationDeg, lateralDeg }: HornAngles): number => Math.hypot(elevationDeg, lateralDeg);

/** The note of which the model expects most, by the swing or, where that is asked for and not computed, by the uneven load. */
function widest(notes: readonly NoteCompared[]): NoteCompared | null {
  const size = ({ expected }: NoteCompared): number =>
    expected === null ? -1 : swingSize(expected.hornChange) + 10 * Math.abs(heavier(expected.loadTried.share).share - 0.5);
  return notes.reduce<NoteCompared | null>((most, one) => (most === null || size(one) > size(most) ? one : most), null);
}

type Half = 'upper' | 'lower' | 'right' | 'left';

function heavier(share: Readonly<Record<Half, number>>): { readonly side: Half; readonly share: number } {
  const sides: readonly Half[] = ['upper', 'lower', 'right', 'left'];
  const side = sides.reduce((most, one) => (share[one] > share[most] ? one : most), 'upper' as Half);
  return { side, share: share[side] };
}
