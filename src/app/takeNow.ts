/** A take on film between its session and the page: what is shown of it, and its readings put into the lesson. */
import { lessonOf, measuringIdIn, withLesson, withMeasuring } from '../core/lessons';
import { midiOf } from '../core/pitch';
import type { LessonSpec, PlayerSpec } from '../core/specs';
import { type MeasuredNote, type Untold, isTold } from '../measure/takeReadings';
import type { NoteHeard } from '../measure/traces';
import { type SidewaysEntry, sidewaysSign } from '../notebook/entry';
import { type FilmAnchorDraft, marksSoFar } from '../notebook/measure/anchorEdits';
import type { FilmPartProps, FollowedShown, OpenFilmShown, WorkingShown } from '../notebook/measure/film/props';
import { lostName } from '../notebook/measure/film/lostNames';
import { noHeadWords, notFollowedWords, setAsideWords, untoldNotes } from '../notebook/measure/film/lostWords';
import type { LensShown } from '../notebook/measure/props';
import type { NoteSeen } from '../notebook/measure/timeLine/NotesList';
import { focalFromEquivalent, unknownCamera } from '../measure/camera';
import type { Measuring } from '../records/measuringSchema';
import { sayFilming } from '../words/filming';
import { sayMarking } from '../words/marking';
import { fixed } from '../words/numbers';
import type { FilmSource, FilmingState, Working } from './filmingTypes';
import { LEAST_RIM_POINTS } from './filmsInLesson';
import { takenIn, tellingFilms } from './filmingKept';
import { localDay } from './localDay';
import { lostMarks } from './lostMarks';
import type { MeasuringKeeping } from './measuringKeeping';
import { type TakeShown, framesSeen } from './takeResults';
import type { AppStore } from './store';

export function filmShown(source: FilmSource, isFirst: boolean, take: TakeShown): OpenFilmShown {
  const { id, file, view, work, anchors, hornMarkMm, offsetS, offsetWords } = source;
  return {
    id,
    name: file.name,
    view,
    told: work.facts.told,
    marks: marksSoFar(anchors.present),
    markedFrames: anchors.present.length,
    hornMarkMm,
    followed: followedShown(source, take),
    offset: isFirst ? null : { seconds: offsetS, words: offsetWords },
  };
}

function followedShown(source: FilmSource, take: TakeShown): FollowedShown | null {
  const { followed, anchors, view } = source;
  if (followed === null) return null;
  const { trace, notFollowed, words, head } = followed;
  return {
    frames: trace.frames.length,
    isBehind: trace.view !== view ? 'view' : followed.anchors !== anchors.present ? 'marks' : null,
    lost: lostMarks(source, take).onTheWay,
    problems: [
      ...(words === null ? [] : [words]),
      ...notFollowed.map((name) => notFollowedWords(lostName(name))),
      ...(notFollowed.includes('rim') ? [] : fewRimPoints(followed.anchors)),
      ...(head?.kind === 'not-found' ? [noHeadWords(head.reason)] : []),
      ...(head?.kind === 'found' && head.setAside.length > 0 ? [setAsideWords(head.setAside.map(lostName))] : []),
    ],
  };
}

/** Frames in which the rim was put again with too few points to be seen anew. */
function fewRimPoints(anchors: readonly FilmAnchorDraft[]): readonly string[] {
  return anchors.flatMap(({ timeS, marks: { rim } }) =>
    rim.length === 0 || rim.length >= LEAST_RIM_POINTS
      ? []
      : [sayFilming('fewRimPoints', { seconds: fixed(timeS, 2), count: rim.length, least: LEAST_RIM_POINTS })]);
}

/** A film says nothing of its lens; what a person types holds. */
export function filmLens({ lensMm, work: { facts } }: FilmSource): LensShown {
  if (lensMm !== null) return { millimetres: lensMm, from: 'person' };
  const { width, height } = facts;
  return { millimetres: unknownCamera(width, height).focalPx / focalFromEquivalent(1, width, height), from: 'assumed' };
}

export const workingShown = (working: Working | null): WorkingShown | null =>
  working === null ? null : { words: sayFilming(`${working.kind}Work`), part: working.part, leftS: working.leftS };

/** `ofFilms`: the same note as each open film tells it; undefined for one that tells nothing yet. */
export function noteSeen({ travel, elevation, lateral, short, lostPart }: MeasuredNote, ofFilms: readonly (MeasuredNote | undefined)[], sideways: SidewaysEntry): NoteSeen {
  const angle = (told: MeasuredNote['elevation']): NoteSeen['elevation'] => (isTold(told) ? { deg: told.value, sdDeg: told.sd } : null);
  const why = [travel, elevation, lateral].find((answer) => !isTold(answer)) as Untold | undefined;
  const isNothing = [travel, elevation, lateral].every((answer) => !isTold(answer));
  return {
    travel: isTold(travel) ? { ...travel, rightMm: travel.rightMm * sidewaysSign(sideways) } : null,
    elevation: angle(elevation),
    lateral: angle(lateral),
    frames: ofFilms.map((one) => (one === undefined ? null : framesSeen(one))),
    words: [
      ...(isNothing && why !== undefined ? [sayFilming(UNTOLD[why])] : []),
      ...(short ? [sayFilming('shortNote')] : []),
      ...(!isNothing && lostPart > 0.2 ? [sayFilming('framesLost', { percent: Math.round(lostPart * 100) })] : []),
    ].join(' '),
  };
}

const UNTOLD = { 'too-short': 'tooShort', lost: 'lostHere', 'not-in-this-film': 'outside' } as const satisfies Readonly<Record<Untold, string>>;

/** What to look at before a take is accepted: notes without a number that others have, marks lost in much of a film, marks that slipped. */
export function beforeAccepting(films: readonly FilmSource[], take: TakeShown, nameOf: (note: NoteHeard) => string): FilmPartProps['beforeAccepting'] {
  const named = take.notes.filter(({ note }) => note.midi !== null);
  const untold = NUMBERS_TOLD.flatMap((which) => {
    const lost = named.filter((one) => one[which] === 'lost');
    const goTo = films.find(({ id }) => (take.notesOf.get(id) ?? []).some((one) => isTold(one[which])));
    if (lost.length === 0 || goTo === undefined) return [];
    const { startS, endS } = lost[0]!.note;
    return [{ words: untoldNotes(which, lost.map(({ note }) => ({ name: nameOf(note), startS: note.startS })), named.length), goTo: { filmId: goTo.id, timeS: (startS + endS) / 2 } }];
  });
  const ofFilms = films.flatMap((film) => {
    const ofFilm = (words: string): string => (films.length > 1 ? sayFilming('ofFilm', { file: film.file.name, words }) : words);
    const head = film.followed?.head;
    const slipped = head?.kind === 'found' && head.setAside.length > 0 ? [{ words: ofFilm(setAsideWords(head.setAside.map(lostName))), goTo: null }] : [];
    return [...slipped, ...lostMarks(film, take).much.map(({ words, goToS }) => ({ words: ofFilm(words), goTo: { filmId: film.id, timeS: goToS } }))];
  });
  return [...untold, ...ofFilms];
}

const NUMBERS_TOLD = ['travel', 'elevation', 'lateral'] as const;

/** Tuning in words; empty cents of a take in tune say so too. */
export function tuningWords(cents: number | null): string | null {
  if (cents === null) return null;
  const whole = Math.round(cents);
  if (whole === 0) return sayFilming('inTune');
  return sayFilming('tuning', { cents: Math.abs(whole), way: whole > 0 ? 'above' : 'below' });
}

export interface Accepted {
  readonly isTaken: boolean;
  readonly words: string;
  /** Under which the lesson keeps it: another than asked for where another lesson of the player has that one. */
  readonly measuringId: string;
}

export interface AcceptingParts {
  readonly keeping: Pick<MeasuringKeeping, 'faultOfMeasuring' | 'faultOfPlayer' | 'readMeasuring'>;
  /** As the page names a note. */
  nameOf(note: NoteHeard): string;
  newId(): string;
}

/** Readings and what they were measured from go into the lesson as one step; answers what was done, or why not. */
export function acceptTake(page: AppStore, state: FilmingState, take: TakeShown, homeMidi: number | null, { keeping, nameOf, newId }: AcceptingParts): Accepted {
  const { record, player, lesson, changePlayer } = page.getState();
  const measuringId = measuringIdIn(player, lesson.id, state.measuringId, newId);
  const turned = state.films.find(({ followed, view }) => followed !== null && followed.trace.view !== view);
  if (turned !== undefined) return { isTaken: false, words: sayFilming('turned', { file: turned.file.name }), measuringId };
  const taken = takenIn(record.readings, {
    measuringId,
    date: localDay(),
    films: tellingFilms(state.films),
    notes: take.notes,
    notesOf: take.notesOf,
    tuningCents: state.tuningCents,
    homeMidi,
    isHomeChosen: record.home?.note === undefined,
    before: keptBefore(lesson, measuringId, keeping),
    nameOf,
  });
  if (taken.kind === 'refused') return { isTaken: false, words: taken.words, measuringId };
  const accepted = (before: PlayerSpec): PlayerSpec =>
    withMeasuring(withLesson(before, { ...lessonOf(before, lesson.id), readings: taken.readings }), lesson.id, taken.measuring);
  const fault = keeping.faultOfMeasuring(lesson, taken.measuring) ?? keeping.faultOfPlayer(accepted(player));
  if (fault !== null) return { isTaken: false, words: sayMarking('notAccepted', { why: fault }), measuringId };
  changePlayer(accepted);
  return { isTaken: true, words: taken.words, measuringId };
}

function keptBefore({ measurings = [] }: LessonSpec, measuringId: string, { readMeasuring }: Pick<MeasuringKeeping, 'readMeasuring'>): Measuring | null {
  const kept = measurings.find(({ id }) => id === measuringId);
  const read = kept === undefined ? null : readMeasuring(kept);
  return read?.kind === 'measuring' ? read.measuring : null;
}

/** The instrument's notes, sounding. */
export const rangeOf = ({ low, high }: { readonly low: string; readonly high: string }): { readonly lowMidi: number; readonly highMidi: number } => ({
  lowMidi: midiOf(low),
  highMidi: midiOf(high),
});

