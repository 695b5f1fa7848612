/** Measuring from pictures, joined to the page: fetched when the page stands; while pictures are open the shown one stands in the stage's place. */
import { type ReactElement, type ReactNode, useEffect, useState } from 'react';
import { useStore } from 'zustand';
import { rimDrawn } from '../measure/rimDrawn';
import type { PlayerSpec, RimSpec } from '../core/specs';
import { NOTHING_KNOWN, type PictureResult } from '../measure/pictureResult';
import { noteAsShown } from '../notebook/noteNames';
import { acceptInto, measuredNotes } from '../notebook/measure/acceptReadings';
import { MeasureChapter } from '../notebook/measure/MeasureChapter';
import type { EntryStyle } from '../notebook/props';
import { lessonName } from '../notebook/kept/words';
import { newId } from '../records/newId';
import { sayMarking } from '../words/marking';
import { askStill } from '../workers/askStill';
import { MeasuringRoom } from './MeasuringRoom';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { afterRest } from './idle';
import { localDay } from './localDay';
import { FilmPane } from './FilmPane';
import { FilmRoom } from './FilmRoom';
import { createFilming } from './filming';
import type { FilmingStore } from './filmingTypes';
import { alignFilms, openFilmWork } from './filmWork';
import { filmInLesson } from './filmsInLesson';
import { greyOfFrame, instrumentRange, openFiles } from './measuringFiles';
import { type TakeResults, createTakeResults } from './takeResults';
import { type FilmShelf, createFilmShelf } from '../records/filmShelf';
import { KeptMeasuringsPane, ReopeningPart } from './KeptMeasuringsPane';
import { type KeptFilmsStore, createKeptFilms } from './keptFilms';
import { type AnchorsKeeper, type MarksKeeper, createAnchorsKeeper, createMarksKeeper, forgetMarks } from './marksKept';
import { type MeasuringSource, type MeasuringState, type MeasuringStore, type Opening, createMeasuring, shownSource } from './measuring';
import { measuringDoor } from './measuringDoor';
import { catchMissedDrops, missedWords } from './missedDrops';
import type { MeasuringKeeping } from './measuringKeeping';
import { keptPictures, marksInLesson } from './measuringKept';
import { reopenedOnPage } from './measuringReopened';
import { type Results, countedHome, createResults, lensOf } from './measuringResults';
import type { Records } from './records';
import type { ReopeningStore } from './reopening';
import { snapRim } from './snapRim';
import type { AppStore } from './store';
import { useStrayFilms } from './useStrayFilms';

export interface MeasurePaneProps {
  readonly entry: EntryStyle;
  readonly keeping: MeasuringKeeping;
  /** Handed in for the same reason. */
  readonly records: Records;
}

export function MeasurePane({ entry, keeping, records }: MeasurePaneProps): ReactNode {
  const { store: page, playhead } = useSession();
  const [{ store, results, room, filming, take, filmRoom, shelf, keptFilms, reopening, keepers }] = useState(() => begin(page, keeping));
  useStrayFilms(shelf, keptFilms, filming, keeping, records);
  const state = useStore(store);
  const record = useUnhurried((now) => now.record);
  const player = useUnhurried((now) => now.player);
  const lesson = useUnhurried((now) => now.lesson);
  const isLocked = useApp((now) => now.locked);
  const [accepted, setAccepted] = useState<string | null>(null);
  const films = useStore(filming, (now) => now.films.length);
  const filmWork = useStore(filming, (now) => now.working !== null);
  const filmRefusals = useStore(filming, (now) => now.refusals);
  const isOpen = state.sources.length > 0;
  const inRoom = films > 0 ? filmRoom : isOpen ? room : null;
  useEffect(() => {
    if (inRoom !== null) playhead.pause();
    measuringDoor.show(inRoom);
    return () => measuringDoor.show(null);
  }, [inRoom, playhead]);
  const { outerDiameterMm } = record.rim;
  useEffect(() => filming.getState().rimChanged(), [filming, outerDiameterMm]);
  useEffect(
    () =>
      catchMissedDrops(window, (names) => {
        page.getState().notify(missedWords(names));
        page.getState().announce(missedWords(names));
      }),
    [page],
  );
  // A film that is open holds a worker: it does not outlive the page's part.
  useEffect(() => () => filming.getState().close(), [filming]);

  const homeId = countedHome(state, record.home?.note);
  const solved = useSolved(results, state.sources, record.rim, homeId);
  const shown = shownSource(state);
  const actions = store.getState();
  return (
    <MeasureChapter
      pictures={state.sources.map((source) => ({
        id: source.id,
        name: source.file.name,
        note: source.note,
        view: source.view,
        marks: source.marks.present,
        result: solved.get(source.id) ?? NOTHING_KNOWN,
      }))}
      shownId={state.shownId}
      homeId={state.homeId}
      homeRefused={homeId === null ? refusedHome(state, record.home?.note, entry) : null}
      active={state.active}
      snaps={state.snaps}
      isOpening={state.isOpening}
      refusals={[...state.refusals, ...filmRefusals]}
      film={films > 0 || filmWork ? <FilmPane store={filming} results={take} keptFilms={keptFilms} keeping={keeping} records={records} entry={entry} /> : null}
      lens={shown === undefined ? null : lensOf(shown)}
      outerDiameterMm={record.rim.outerDiameterMm}
      shareBy={record.upperLipShare.by}
      entry={entry}
      lessonName={sayMarking('lessonOf', { lesson: lessonName(player, lesson), player: player.label === '' ? sayMarking('thisPlayer') : player.label })}
      isLocked={isLocked}
      accepted={accepted}
      asked={<ReopeningPart reopening={reopening} />}
      kept={<KeptMeasuringsPane films={keptFilms} reopening={reopening} keeping={keeping} onForgetMarks={(files) => forgetMarks(keepers, files)} />}
      onFiles={(files) => {
        setAccepted(null);
        void openFiles(files, { measuring: store, filming, range: instrumentRange(record.player.instrument) });
      }}
      onClose={actions.close}
      onRemove={actions.remove}
      onShow={actions.show}
      onActivate={actions.activate}
      onTake={actions.take}
      onSnaps={actions.setSnaps}
      onView={actions.setView}
      onNote={actions.setNote}
      onHome={actions.setHome}
      onLens={actions.setLens}
      onHornMark={(mark) => actions.setHornMark(mark, 'horn-mark')}
      onUndo={actions.undo}
      onRedo={actions.redo}
      onAccept={() => setAccepted(accept(page, store, results, keeping))}
    />
  );
}

/** A hand that still moves a note's end pauses less than this, ms. */
const REST_MS = 400;

interface Begun {
  readonly store: MeasuringStore;
  readonly results: Results;
  /** What stands in the stage's place. */
  readonly room: ReactElement;
  readonly filming: FilmingStore;
  readonly take: TakeResults;
  readonly filmRoom: ReactElement;
  readonly shelf: FilmShelf;
  readonly keptFilms: KeptFilmsStore;
  readonly reopening: ReopeningStore;
  /** Of the marks in pictures, and in films. */
  readonly keepers: readonly [MarksKeeper, AnchorsKeeper];
}

function begin(page: AppStore, { readMeasuring }: MeasuringKeeping): Begun {
  /** Whose marks are meant while a kept measuring is being opened. */
  let wished: string | null = null;
  const keepers = [createMarksKeeper(storageOrNull()), createAnchorsKeeper(storageOrNull())] as const;
  const store = createMeasuring({
    open: openPicture,
    snap: snapRim,
    drawRim: rimDrawn,
    keeper: keepers[0],
    keptElsewhere: (file) => marksInLesson(page.getState().lesson, file, readMeasuring),
    newId,
  });
  const filming = createFilming({
    open: (file) => openFilmWork(file, () => page.getState().record.rim),
    snap: snapRim,
    greyOf: greyOfFrame,
    align: (first, other, signal) => alignFilms(first, other, signal),
    keeper: keepers[1],
    keptElsewhere: (file, measuringId) => {
      const film = filmInLesson(page.getState().lesson, file, readMeasuring, measuringId ?? wished);
      return film === null ? null : { film, isWished: wished !== null };
    },
    outerDiameterMm: () => page.getState().record.rim.outerDiameterMm,
    rest: (work) => void setTimeout(work, REST_MS),
    newId,
  });
  const take = createTakeResults();
  const shelf = createFilmShelf();
  const reopening = reopenedOnPage({ page, shelf, measuring: store, filming, readMeasuring, wish: (id) => void (wished = id), focus: focusChapter });
  return {
    ...{ store, results: createResults(), room: <MeasuringRoom store={store} /> },
    ...{ filming, take, filmRoom: <FilmRoom store={filming} results={take} /> },
    ...{ shelf, keptFilms: createKeptFilms(shelf), reopening, keepers },
  };
}

function focusChapter(): void {
  document.getElementById('measure-heading')?.focus();
}

/** What the pictures say, a moment behind the hand: heads are solved when the marks have come to rest. */
function useSolved(results: Results, sources: readonly MeasuringSource[], rim: RimSpec, homeId: string | null): ReadonlyMap<string, PictureResult> {
  const [solved, setSolved] = useState<ReadonlyMap<string, PictureResult>>(NOTHING_SOLVED);
  useEffect(() => afterRest(() => setSolved(results.of(sources, rim, homeId))), [results, sources, rim, homeId]);
  return solved;
}

const NOTHING_SOLVED: ReadonlyMap<string, PictureResult> = new Map();

/** Readings and what they were measured from go into the lesson as one step; answers what was done, or why not. */
function accept(page: AppStore, store: MeasuringStore, results: Results, { faultOfMeasuring, faultOfPlayer, lessonOf, measuringIdIn, withLesson, withMeasuring }: MeasuringKeeping): string {
  const state = store.getState();
  const { record, player: before, lesson, changePlayer } = page.getState();
  const measuringId = measuringIdIn(before, lesson.id, state.measuringId, newId);
  // As the marks are now, not as they last came to rest.
  const known = results.of(state.sources, record.rim, countedHome(state, record.home?.note));
  const notes = measuredNotes(state.sources.map(({ id, note }) => ({ note, result: known.get(id) ?? NOTHING_KNOWN })), record.upperLipShare.by);
  const home = state.sources.find(({ id }) => id === state.homeId)?.note ?? record.home?.note ?? null;
  const taken = acceptInto(record.readings, notes, measuringId, home);
  if (taken.kind === 'refused') return taken.words;
  const measuring = keptPictures(measuringId, localDay(), state.sources, notes);
  const accepted = (player: PlayerSpec): PlayerSpec => {
    const now = lessonOf(player, lesson.id);
    return withMeasuring(withLesson(player, { ...now, readings: taken.readings }), lesson.id, measuring);
  };
  const fault = faultOfMeasuring(lesson, measuring) ?? faultOfPlayer(accepted(before));
  if (fault !== null) return sayMarking('notAccepted', { why: fault });
  changePlayer(accepted);
  store.setState({ measuringId });
  return taken.words;
}

async function openPicture(file: File): Promise<Opening> {
  const seen = await askStill(file);
  if (seen.kind === 'refused') return { kind: 'refused', words: seen.words };
  const { bitmap, small, grey, camera, mark } = seen;
  return { kind: 'picture', picture: { width: bitmap.width, height: bitmap.height, shown: bitmap, small, grey, equivalentMm: camera.focal35Mm }, file: mark };
}

function refusedHome({ sources, homeId }: MeasuringState, home: string | undefined, entry: EntryStyle): string | null {
  if (home === undefined) return null;
  const named = noteAsShown(home, entry);
  return (sources.find(({ id }) => id === homeId)?.note ?? null) === null
    ? sayMarking('homeNeedsNote', { note: named })
    : sayMarking('homeIsAnother', { note: named });
}

function storageOrNull(): Storage | null {
  try {
    return globalThis.localStorage;
  } catch {
    return null;
  }
}
