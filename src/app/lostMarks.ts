/** What was lost on the way through a film, and what that costs its numbers: for the time line, and in words before a take is accepted. */
import { type LostStretch, lostStretches } from '../measure/lostStretches';
import { LANDMARK_NAMES } from '../measure/marks';
import type { FilmTrace, HeadSample } from '../measure/traces';
import { lostName } from '../notebook/measure/film/lostNames';
import { type LostCost, type LostMark, lostSentence } from '../notebook/measure/film/lostWords';
import type { LostShown } from '../notebook/measure/film/props';
import type { LostStretchShown } from '../notebook/measure/timeLine/props';
import type { FilmSource } from './filmingTypes';
import type { TakeShown } from './takeResults';

/** From this part of a film's frames on a lost mark is told before accepting: where numbers are missing with it, and where others carry them. Our judgement. */
const MUCH_WITH_NUMBERS = 0.1;
const MUCH_WITHOUT = 0.3;

type LostFilm = Pick<FilmSource, 'id' | 'followed' | 'offsetS'>;

export interface LostMarks {
  /** Longest first, the take's time. */
  readonly onTheWay: readonly LostShown[];
  /** Stretches of one cost each, the take's time, with everything that was lost in them. */
  readonly stretches: readonly LostStretchShown[];
  /** Marks that were lost in much of the film, the worst first: a sentence each, and where to mark again (the take's time). */
  readonly much: readonly { readonly words: string; readonly goToS: number }[];
}

const NOTHING_LOST: LostMarks = { onTheWay: [], stretches: [], much: [] };

/** Worked out once for what was followed and told: films are drawn anew with every frame that is shown. */
export function lostMarks(film: LostFilm, take: TakeShown): LostMarks {
  const { followed, offsetS } = film;
  if (followed === null) return NOTHING_LOST;
  const before = known.get(followed);
  if (before?.take === take && before.offsetS === offsetS) return before.lost;
  const asked: Asked = { trace: followed.trace, lost: lostStretches(followed.trace, followed.notFollowed), costs: costsOf(film, take), at: offsetS ?? 0 };
  const lost = { onTheWay: onTheWay(asked), stretches: stretchesOf(asked), much: muchOf(asked) };
  known.set(followed, { take, offsetS, lost });
  return lost;
}

const known = new WeakMap<NonNullable<FilmSource['followed']>, { readonly take: TakeShown; readonly offsetS: number | null; readonly lost: LostMarks }>();

interface Asked {
  readonly trace: FilmTrace;
  readonly lost: readonly LostStretch[];
  readonly costs: readonly LostCost[];
  /** Makes the film's time the take's, s. */
  readonly at: number;
}

const onTheWay = ({ trace, lost, costs, at }: Asked): readonly LostShown[] =>
  lost
    .toSorted((a, b) => b.frames - a.frames)
    .map((one) => ({ what: lostName(one.name), startS: one.fromS + at, endS: one.toS + at, cost: mostly(framesIn(trace, one).map((index) => costs[index]!)) }));

function stretchesOf({ trace: { frames }, lost, costs, at }: Asked): readonly LostStretchShown[] {
  const stretches: LostStretchShown[] = [];
  let isGoingOn = false;
  for (const [index, { timeS }] of frames.entries()) {
    const cost = costs[index]!;
    const what = lost.filter(({ fromS, toS }) => fromS <= timeS && timeS <= toS).map(({ name }) => lostName(name));
    const last = isGoingOn ? stretches.at(-1) : undefined;
    isGoingOn = what.length > 0;
    if (!isGoingOn) continue;
    if (last?.cost === cost) stretches[stretches.length - 1] = { ...last, endS: timeS + at, what: [...new Set([...last.what, ...what])] };
    else stretches.push({ startS: timeS + at, endS: timeS + at, cost, what });
  }
  return stretches;
}

function muchOf({ trace, lost, costs, at }: Asked): LostMarks['much'] {
  return [...new Set(lost.map(({ name }) => name))]
    .map((name): LostMark => {
      const all = lost.filter((one) => one.name === name);
      const longest = all.reduce((most, one) => (one.frames > most.frames ? one : most));
      const without = all.flatMap((one) => framesIn(trace, one));
      const [startS, endS] = [longest.fromS + at, longest.toS + at];
      return { what: lostName(name), kind: kindOf(name), part: without.length / trace.frames.length, cost: mostly(without.map((index) => costs[index]!)), startS, endS };
    })
    .filter(({ part, cost }) => part >= (cost === 'none' ? MUCH_WITHOUT : MUCH_WITH_NUMBERS))
    .toSorted((a, b) => b.part - a.part)
    .map((mark) => ({ words: lostSentence(mark), goToS: mark.startS }));
}

function kindOf(name: LostStretch['name']): LostMark['kind'] {
  if (name === 'rim') return 'rim';
  return LANDMARK_NAMES.some((landmark) => landmark === name) ? 'head' : 'other';
}

/** For each frame what is missing of the numbers that this film tells elsewhere. */
function costsOf({ id, followed }: LostFilm, { samplesOf }: TakeShown): readonly LostCost[] {
  const samples = samplesOf.get(id) ?? [];
  const frames = followed?.trace.frames ?? [];
  const told = NUMBERS.filter((name) => samples.some((sample) => sample[name] !== null));
  return frames.map((_, index) => {
    const sample = samples[index];
    const here = sample === undefined ? [] : told.filter((name) => sample[name] !== null);
    return here.length === 0 ? 'all' : here.length < told.length ? 'some' : 'none';
  });
}

const NUMBERS = ['travel', 'elevation', 'lateral'] as const satisfies readonly (keyof HeadSample)[];

function framesIn({ frames }: FilmTrace, { fromS, toS }: LostStretch): readonly number[] {
  return frames.flatMap(({ timeS }, index) => (fromS <= timeS && timeS <= toS ? [index] : []));
}

/** What holds in half of the frames at least. */
function mostly(costs: readonly LostCost[]): LostCost {
  const part = (which: LostCost): number => costs.filter((cost) => cost === which).length / costs.length;
  if (part('all') >= 0.5) return 'all';
  return part('none') > 0.5 ? 'none' : 'some';
}
