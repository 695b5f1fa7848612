/** A take on film between its session and the page: what is shown of it, and its readings put into the lesson. */
import { lessonOf, withLesson, withMeasuring } from '../core/lessons';
import { midiOf } from '../core/pitch';
import { lostStretches } from '../measure/lostStretches';
import { type MeasuredNote, type Untold, isTold } from '../measure/takeReadings';
import { marksSoFar } from '../notebook/measure/anchorEdits';
import type { FollowedShown, OpenFilmShown, WorkingShown } from '../notebook/measure/film/props';
import { lostName } from '../notebook/measure/film/lostNames';
import type { LensShown } from '../notebook/measure/props';
import type { NoteSeen } from '../notebook/measure/timeLine/NotesList';
import { focalFromEquivalent, phoneCamera } from '../measure/camera';
import type { FilmSource, FilmingState, Working } from './filmingTypes';
import { takenIn } from './filmingKept';
import { localDay } from './localDay';
import type { MeasuringKeeping } from './measuringKeeping';
import type { TakeShown } from './takeResults';
import type { AppStore } from './store';

export function filmShown(source: FilmSource, isFirst: boolean): OpenFilmShown {
  const { id, file, view, work, anchors, hornMarkMm, offsetS, offsetWords } = source;
  return {
    id,
    name: file.name,
    view,
    told: work.facts.told,
    marks: marksSoFar(anchors.present),
    markedFrames: anchors.present.length,
    hornMarkMm,
    followed: followedShown(source),
    offset: isFirst ? null : { seconds: offsetS, words: offsetWords },
  };
}

function followedShown({ followed, anchors, view, offsetS }: FilmSource): FollowedShown | null {
  if (followed === null) return null;
  const { trace, notFollowed, words, head } = followed;
  const at = offsetS ?? 0;
  return {
    frames: trace.frames.length,
    isBehind: followed.anchors !== anchors.present || trace.view !== view,
    lost: lostStretches(trace, notFollowed)
      .toSorted((a, b) => b.frames - a.frames)
      .map(({ name, fromS, toS }) => ({ what: lostName(name), startS: fromS + at, endS: toS + at })),
    problems: [
      ...(words === null ? [] : [words]),
      ...notFollowed.map((name) => `${lostName(name)} could not be followed: mark it where it is clear and away from the picture’s edge.`),
      ...(head?.kind === 'not-found' ? [HEAD_WORDS[head.reason]] : []),
      ...(head?.kind === 'found' && head.setAside.length > 0 ? [`${head.setAside.map(lostName).join(', ')} did not move with the rest of the head and was left out: look whether the mark stays in its place.`] : []),
    ],
  };
}

const HEAD_WORDS = {
  'too-few-landmarks': 'No frame shows the rim together with six marks of the head, so there is no travel yet: mark more of them.',
  'sides-exchanged': 'The marks’ right and left seem exchanged: they are the player’s own, so the right ones are at the left of the picture.',
  'not-settled': 'The marks do not go together as a head’s: look whether each stands in its place.',
} as const;

/** A film says nothing of its lens; what a person types holds. */
export function filmLens({ lensMm, work: { facts } }: FilmSource): LensShown {
  if (lensMm !== null) return { millimetres: lensMm, from: 'person' };
  const { width, height } = facts;
  return { millimetres: phoneCamera(width, height).focalPx / focalFromEquivalent(1, width, height), from: 'assumed' };
}

const WORK_WORDS: Readonly<Record<Working['kind'], string>> = {
  opening: 'Opening the film',
  hearing: 'Listening for the notes',
  following: 'Following the marks',
  aligning: 'Matching the two films by their sound',
};

export const workingShown = (working: Working | null): WorkingShown | null =>
  working === null ? null : { words: WORK_WORDS[working.kind], part: working.part, leftS: working.leftS };

export function noteSeen({ travel, elevation, lateral, short, lostPart }: MeasuredNote): NoteSeen {
  const angle = (told: MeasuredNote['elevation']): NoteSeen['elevation'] => (isTold(told) ? { deg: told.value, sdDeg: told.sd } : null);
  const why = [travel, elevation, lateral].find((answer) => !isTold(answer)) as Untold | undefined;
  const isNothing = [travel, elevation, lateral].every((answer) => !isTold(answer));
  return {
    travel: isTold(travel) ? travel : null,
    elevation: angle(elevation),
    lateral: angle(lateral),
    frames: Math.max(0, ...[travel, elevation, lateral].map((answer) => (isTold(answer) ? answer.frames : 0))),
    words: [
      ...(isNothing && why !== undefined ? [UNTOLD_WORDS[why]] : []),
      ...(short ? ['The note is short: only its middle third was used.'] : []),
      ...(!isNothing && lostPart > 0.2 ? [`${Math.round(lostPart * 100)} % of its frames were lost.`] : []),
    ].join(' '),
  };
}

const UNTOLD_WORDS: Readonly<Record<Untold, string>> = {
  'too-short': 'Too few frames were seen in it to say anything.',
  lost: 'Rim, head or horn were lost here: go there, mark them again, and follow once more.',
  'not-in-this-film': 'It lies outside the film.',
};

/** Tuning in words; empty cents of a take in tune say so too. */
export function tuningWords(cents: number | null): string | null {
  if (cents === null) return null;
  const whole = Math.round(cents);
  if (whole === 0) return 'The take is in tune with A4 = 440 Hz.';
  return `The take is ${Math.abs(whole)} ${Math.abs(whole) === 1 ? 'cent' : 'cents'} ${whole > 0 ? 'above' : 'below'} A4 = 440 Hz; notes are named by its own tuning.`;
}

/** Readings and what they were measured from go into the lesson as one step; answers what was done, or why not. */
export function acceptTake(page: AppStore, state: FilmingState, take: TakeShown, homeMidi: number | null, { faultOfMeasuring }: MeasuringKeeping): { readonly isTaken: boolean; readonly words: string } {
  const { record, lesson, changePlayer } = page.getState();
  const taken = takenIn(record.readings, {
    measuringId: state.measuringId,
    date: localDay(),
    films: state.films.filter(({ followed }) => followed !== null),
    notes: take.notes,
    tuningCents: state.tuningCents,
    homeMidi: homeMidi ?? -1,
  });
  if (taken.kind === 'refused') return { isTaken: false, words: taken.words };
  const fault = faultOfMeasuring(lesson, taken.measuring);
  if (fault !== null) return { isTaken: false, words: `Not accepted: ${fault}.` };
  changePlayer((player) => withMeasuring(withLesson(player, { ...lessonOf(player, lesson.id), readings: taken.readings }), lesson.id, taken.measuring));
  return { isTaken: true, words: taken.words };
}

/** The instrument's notes, sounding. */
export const rangeOf = ({ low, high }: { readonly low: string; readonly high: string }): { readonly lowMidi: number; readonly highMidi: number } => ({
  lowMidi: midiOf(low),
  highMidi: midiOf(high),
});

