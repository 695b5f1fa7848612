/** What is said of the travel: its line, which way it goes, and whether it turns back. Pure. */
import { counted } from '../../core/words';
import type { LineOfTravel, PlannedMethod, TurnBack, WhichWay } from '../../core/findings/findings';
import type { PlayingDirection } from '../../core/specs';
import { formatFixed } from '../numberText';
import { COMMON_PRACTICE, type NoteNamer, capital, chanceWords, estimateWords, listWords, pText } from './saysWords';

const MM = '\u00a0mm';

/** "The rim goes up and 20° to the player’s right as the pitch rises: 1.9 mm an octave (1.6 to 2.2)." */
export function lineWords(line: LineOfTravel, direction: PlayingDirection | null): string {
  return `${the(direction)} rim goes ${towardWords(line.fromUpDeg.value)} as the pitch rises: `
    + `${estimateWords(line.mmPerOctave, `${MM} an octave`)}.`;
}

/** A direction on the face, from straight up (0°), + toward the player's right: "up and 20° to the player’s right". */
export function towardWords(fromUpDeg: number): string {
  const size = Math.abs(Math.round(fromUpDeg));
  const hand = `the player’s ${fromUpDeg < 0 ? 'left' : 'right'}`;
  if (size === 0) return 'straight up';
  if (size === 180) return 'straight down';
  if (size <= STEEP_DEG) return `up and ${size}° to ${hand}`;
  if (size >= 180 - STEEP_DEG) return `down and ${180 - size}° to ${hand}`;
  const upward = 90 - size;
  return upward === 0 ? `straight to ${hand}` : `to ${hand} and ${Math.abs(upward)}° ${upward > 0 ? 'up' : 'down'}`;
}

/** How sure the direction is, the whole travel, and whether it is straight. */
export function lineDetailWords(line: LineOfTravel): string {
  const direction = `Its direction is sure to about ${Math.max(1, Math.round((line.fromUpDeg.high - line.fromUpDeg.low) / 2))}° either way`;
  const whole = `from the lowest to the highest note it is ${estimateWords(line.extentMm, MM)}`;
  return `${direction}; ${whole}. ${straightWords(line)}`;
}

/** Whether a straight line is enough. */
export function straightWords({ offLineMm, expectedOffLineMm, straightP }: LineOfTravel): string {
  const stray = `The notes stray ${formatFixed(offLineMm, 1)}${MM} from the line; their own deviations alone would give about ${formatFixed(expectedOffLineMm, 1)}${MM}.`;
  return straightP < BENDS_BELOW
    ? `${stray} So the travel bends: a straight one would give readings that stray this far ${chanceWords(straightP)} (${pText(straightP)}).`
    : `${stray} A straight line fits them.`;
}

/** "To ascend, the rim is pushed up: 1.8 mm an octave (1.5 to 2.1)." */
export function wayWords({ way }: WhichWay, line: LineOfTravel | null): string {
  const amount = line === null ? '' : `: ${estimateWords(upward(line, way === 'pulls-down' ? -1 : 1), `${MM} an octave`)}`;
  if (way === 'pushes-up') return `To ascend, the rim is pushed up${amount}.`;
  if (way === 'pulls-down') return `To ascend, the rim is pulled down${amount}.`;
  return `To ascend, the rim goes mostly to the side${amount.replace(':', '; its part upward is')}.`;
}

/** "The travel turns back above D5: from there it comes back 1.6 mm." */
export function turnWords({ found, at }: TurnBack, name: NoteNamer, direction: PlayingDirection | null): string {
  if (!found || at === null) return `${the(direction)} travel is not seen to turn back.`;
  const size = `${formatFixed(Math.abs(at.sizeMm), 1)}${MM}`;
  return at.side === 'above'
    ? `${the(direction)} travel turns at ${name(at.note)}: above it, it comes back by ${size}.`
    : `${the(direction)} travel turns at ${name(at.note)}: below it, it goes the other way by ${size}.`;
}

/** What the chance means, in plain words, with its number. */
export function turnChanceWords({ p, found, at }: TurnBack, name: NoteNamer): string {
  const chance = `A player who never turns back would give readings like these, or more so, ${chanceWords(p)} (${pText(p)}).`;
  if (found) return chance;
  return at === null
    ? chance
    : `The place that looks most like it is ${name(at.note)}, by ${formatFixed(Math.abs(at.sizeMm), 1)}${MM}. ${chance}`;
}

/** What it would take to see one: "by eye about 4 takes of every note, with a ruler 2, from video 1." */
export function takesWords({ takesFor }: Pick<TurnBack, 'takesFor'>): string {
  const sizeMm = takesFor.ruler.sizeMm;
  const start = `To find a turn-back of ${formatFixed(sizeMm, 1)}${MM} over the last three notes you would need: `;
  const possible = METHODS.flatMap(({ method, words }) => {
    const { takes } = takesFor[method];
    return takes === null ? [] : [{ words, takes }];
  });
  const tooMany = METHODS.filter(({ method }) => takesFor[method].takes === null).map(({ words }) => words);
  const never = `${listWords(tooMany)} it takes more than can be asked of anyone`;
  const [first, ...others] = possible;
  if (first === undefined) return `A turn-back of ${formatFixed(sizeMm, 1)}${MM} over the last three notes is too small for this exercise: ${never}.`;
  const parts = [`${first.words} about ${counted(first.takes, 'take')} of every note`, ...others.map(({ words, takes }) => `${words} ${takes}`)];
  return `${start}${parts.join(', ')}.${tooMany.length === 0 ? '' : ` ${capital(never)}.`}`;
}

export const TURN_BACK_PRACTICE = `Many teachers find that a travel that turns back costs range and steadiness ${COMMON_PRACTICE}.`;

/** Steeper than this from the level counts as up or down with something to the side, degrees from straight up. */
const STEEP_DEG = 60;
/** Below this chance the line is called bent. */
const BENDS_BELOW = 0.05;

const METHODS: readonly { readonly method: PlannedMethod; readonly words: string }[] = [
  { method: 'eye', words: 'by eye' },
  { method: 'ruler', words: 'with a ruler' },
  { method: 'video', words: 'from video' },
];

/** How a sentence begins: with the way that was looked at by itself, where it was. */
function the(direction: PlayingDirection | null): string {
  return direction === null ? 'The' : direction === 'up' ? 'Ascending, the' : 'Descending, the';
}

function upward({ upMmPerOctave }: LineOfTravel, sign: 1 | -1): LineOfTravel['upMmPerOctave'] {
  const { value, sd, low, high } = upMmPerOctave;
  return sign > 0 ? upMmPerOctave : { value: -value, sd, low: -high, high: -low };
}
