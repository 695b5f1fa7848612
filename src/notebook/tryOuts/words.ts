/** A try-out in words: what is changed, what the model expected of it, and what was seen. No advice. */
import type { NoteCompared, SeenAtNote, TryOutCompared } from '../../core/tryOutShapes';
import type { HornAngles } from '../../core/analysis';
import { NINETY_FIVE_PERCENT } from '../../core/bands';
import type { AirstreamSeen, TryOutChange } from '../../core/specs';
import { type Posture, swingClause } from '../../print/instrumentWords';
import { changeWords } from '../../print/sheetText';
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
      return 'The rim may travel as it will; the horn keeps the angle that it has at home.';
    case 'let-horn-follow':
      return 'The horn is free to swing as the rim travels, so that the rim rests evenly on teeth that are curved both ways.';
    case 'place-rim':
      return `The rim starts from another place, with ${change.upMm > 0 ? 'more upper' : 'more lower'} lip inside it. Travel is counted from the new place.`;
    case 'bring-horn-round':
      return 'The horn points to one side from the start and is held there, whatever the rim does.';
  }
}

/** What the model expected at the note that it expects most of; null where it could say nothing. */
export function expectedSentence(compared: TryOutCompared, posture: Posture, noteLabel: (note: string) => string): string | null {
  const most = widest(compared.notes);
  if (most?.expected == null) return null;
  const { hornChange, loadTried, loadAsUsual } = most.expected;
  const note = noteLabel(most.note);
  const from = compared.countedFrom === 'home' ? 'from home' : 'from the same note as usual';
  if (compared.change.kind === 'hold-horn' || compared.change.kind === 'bring-horn-round') {
    const { side, share } = heavier(loadTried.share);
    return `At ${note} the model expects ${percent(share)} of the force on the ${side} half of the rim; with the horn following it would be ${percent(loadAsUsual.share[side])}.`;
  }
  if (swingSize(hornChange) < SHOWN_FROM_DEG) return `At ${note} the model expects hardly any swing ${from}.`;
  return `At ${note} the model expects that ${swingClause(posture, hornChange)}, counted ${from}.`;
}

/** "On 5 notes it spoke 0.8 easier on the average (from 1, hard, to 5, easy), give or take 0.5." */
export function easeSentence({ ease }: TryOutCompared): string | null {
  if (ease === null) return null;
  const notes = ease.notes === 1 ? 'On one note' : `On ${ease.notes} notes`;
  const size = formatFixed(Math.abs(ease.meanDifference), 1);
  const spread = ease.spread === null ? '' : `; from note to note this differs by ${formatFixed(ease.spread, 1)}`;
  if (Number(size) === 0) return `${notes} it spoke as easily as usual${spread}.`;
  return `${notes} it spoke ${size} ${ease.meanDifference > 0 ? 'easier' : 'harder'} than usual on the average, on the scale from 1 (hard) to 5 (easy)${spread}.`;
}

/** " ± 1.2": half a 95 % band; empty where it is less than anybody sees. */
export function marginText(sdDeg: number): string {
  const margin = NINETY_FIVE_PERCENT * sdDeg;
  return margin < SHOWN_FROM_DEG ? '' : `\u00a0±\u00a0${formatFixed(margin, 1)}`;
}

export function easeWords(seen: SeenAtNote | null): string {
  return seen?.ease == null ? NOT_SEEN : formatNumber(seen.ease, 1);
}

const AIR_WORDS: Readonly<Record<AirstreamSeen, string>> = { down: 'down', up: 'up', unsure: 'not sure' };

export function airWords(seen: SeenAtNote | null): string {
  if (seen === null) return NOT_SEEN;
  const said = (['down', 'up', 'unsure'] as const).filter((side) => seen.airstream[side] > 0).map((side) => AIR_WORDS[side]);
  return said.length === 0 ? NOT_SEEN : said.join(', ');
}

const NOT_SEEN = '–';
/** A tenth of a degree is less than anybody sees. */
const SHOWN_FROM_DEG = 0.1;

const percent = (part: number): string => `${Math.round(100 * part)}\u00a0%`;

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
