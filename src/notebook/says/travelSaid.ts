/** What is said of the travel: its line, which way it goes, and whether it turns back. Pure. */
import type { LineOfTravel, PlannedMethod, TurnBack, WhichWay } from '../../core/findings/findings';
import type { PlayingDirection } from '../../core/specs';
import { saySays } from '../../words/says';
import { formatFixed } from '../numberText';
import { type NoteNamer, capital, chanceWords, estimateWords, listWords, octaveWords, pText } from './saysWords';

/** "The rim goes up and 20° to the player’s right as the pitch rises: 1.9 mm an octave (1.6 to 2.2)." */
export function lineWords(line: LineOfTravel, direction: PlayingDirection | null): string {
  return saySays('line', { direction: direction ?? 'both', toward: towardWords(line.fromUpDeg.value), amount: octaveWords(line.mmPerOctave) });
}

/** A direction on the face, from straight up (0°), + toward the player's right: "up and 20° to the player’s right". */
export function towardWords(fromUpDeg: number): string {
  const size = Math.abs(Math.round(fromUpDeg));
  const hand = fromUpDeg < 0 ? 'minus' : 'plus';
  if (size === 0) return saySays('straightUp');
  if (size === 180) return saySays('straightDown');
  if (size <= STEEP_DEG) return saySays('upLeaning', { degrees: size, hand });
  if (size >= 180 - STEEP_DEG) return saySays('downLeaning', { degrees: 180 - size, hand });
  const up = 90 - size;
  return up === 0 ? saySays('straightSide', { hand }) : saySays('sideLeaning', { hand, degrees: Math.abs(up), way: up > 0 ? 'plus' : 'minus' });
}

/** How sure the direction is, the whole travel, and whether it is straight. */
export function lineDetailWords(line: LineOfTravel): string {
  const degrees = Math.max(1, Math.round((line.fromUpDeg.high - line.fromUpDeg.low) / 2));
  return `${saySays('lineDetail', { degrees, extent: estimateWords(line.extentMm, '\u00a0mm') })} ${straightWords(line)}`;
}

/** Whether a straight line is enough. */
export function straightWords({ offLineMm, expectedOffLineMm, straightP }: LineOfTravel): string {
  const stray = { off: formatFixed(offLineMm, 1), expected: formatFixed(expectedOffLineMm, 1) };
  return straightP < BENDS_BELOW ? saySays('bent', { ...stray, chance: chanceWords(straightP), p: pText(straightP) }) : saySays('straight', stray);
}

/** "To ascend, the rim is pushed up: 1.8 mm an octave (1.5 to 2.1)." */
export function wayWords({ way }: WhichWay, line: LineOfTravel | null): string {
  const amount = line === null ? '' : octaveWords(upward(line, way === 'pulls-down' ? -1 : 1));
  return saySays(WAYS[way], { told: line === null ? 'no' : 'yes', amount });
}

const WAYS = { 'pushes-up': 'pushedUp', 'pulls-down': 'pulledDown', 'to-the-side': 'mostlySide' } as const satisfies Record<WhichWay['way'], string>;

/** "The travel turns back above D5: from there it comes back 1.6 mm." */
export function turnWords({ found, at }: TurnBack, name: NoteNamer, direction: PlayingDirection | null): string {
  if (!found || at === null) return saySays('noTurn', { direction: direction ?? 'both' });
  const values = { direction: direction ?? 'both', note: name(at.note), mm: formatFixed(Math.abs(at.sizeMm), 1) };
  return saySays(at.side === 'above' ? 'turnAbove' : 'turnBelow', values);
}

/** What the chance means, in plain words, with its number. */
export function turnChanceWords({ p, found, at }: TurnBack, name: NoteNamer): string {
  const chance = saySays('turnChance', { chance: chanceWords(p), p: pText(p) });
  if (found || at === null) return chance;
  return `${saySays('turnNearest', { note: name(at.note), mm: formatFixed(Math.abs(at.sizeMm), 1) })} ${chance}`;
}

/** What it would take to see one: "by eye about 4 takes of every note, with a ruler 2, from video 1." */
export function takesWords({ takesFor }: Pick<TurnBack, 'takesFor'>): string {
  const mm = formatFixed(takesFor.ruler.sizeMm, 1);
  const possible = METHODS.flatMap((method) => {
    const { takes } = takesFor[method];
    return takes === null ? [] : [{ method: saySays(`plan-${method}`), takes }];
  });
  const tooMany = METHODS.filter((method) => takesFor[method].takes === null).map((method) => saySays(`plan-${method}`));
  const [first, ...others] = possible;
  if (first === undefined) return saySays('turnTooSmall', { mm, methods: listWords(tooMany) });
  const plans = [saySays('firstPlan', first), ...others.map((other) => saySays('nextPlan', other))].join(', ');
  const needed = saySays('takesNeeded', { mm, plans });
  return tooMany.length === 0 ? needed : `${needed} ${capital(saySays('takesNever', { methods: listWords(tooMany) }))}`;
}

/** Steeper than this from the level counts as up or down with something to the side, degrees from straight up. */
const STEEP_DEG = 60;
/** Below this chance the line is called bent. */
const BENDS_BELOW = 0.05;

const METHODS: readonly PlannedMethod[] = ['eye', 'ruler', 'video'];

function upward({ upMmPerOctave }: LineOfTravel, sign: 1 | -1): LineOfTravel['upMmPerOctave'] {
  const { value, sd, low, high } = upMmPerOctave;
  return sign > 0 ? upMmPerOctave : { value: -value, sd, low: -high, high: -low };
}
