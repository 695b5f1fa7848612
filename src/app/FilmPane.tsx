/** The films of a take joined to the page: what stands in the chapter while they are open. */
import { type ReactNode, useMemo, useRef, useState } from 'react';
import { useStore } from 'zustand';
import { joinedWithNext, boundaryMoved, removed, renamed, split } from '../measure/tapped';
import { FilmPart } from '../notebook/measure/film/FilmPart';
import { editedOr } from '../notebook/measure/film/tapping';
import { noteHeardName } from '../notebook/measure/film/noteHeardName';
import { undoKeys } from '../notebook/measure/MeasuringPicture';
import { lessonName } from '../notebook/kept/words';
import type { EntryStyle } from '../notebook/props';
import { newId } from '../records/newId';
import { sayMarking } from '../words/marking';
import { homeMidiOf, useHomeMidi } from './FilmRoom';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { shownFilm, takeSpan, takeTime } from './filmSource';
import type { FilmingStore } from './filmingTypes';
import { tellingFilms } from './filmingKept';
import { type KeptFilmsStore, filmsOf } from './keptFilms';
import type { MeasuringKeeping } from './measuringKeeping';
import { acceptTake, beforeAccepting, filmLens, filmShown, noteSeen, tuningWords, workingShown } from './takeNow';
import type { Records } from './records';
import type { AppStore } from './store';
import type { TakeResults } from './takeResults';

export interface FilmPaneProps {
  readonly store: FilmingStore;
  readonly results: TakeResults;
  readonly keptFilms: KeptFilmsStore;
  readonly keeping: MeasuringKeeping;
  readonly records: Pick<Records, 'settle'>;
  readonly entry: EntryStyle;
}

export function FilmPane({ store, results, keptFilms, keeping, records, entry }: FilmPaneProps): ReactNode {
  const { store: page } = useSession();
  const state = useStore(store);
  const player = useUnhurried((now) => now.player);
  const lesson = useUnhurried((now) => now.lesson);
  const isLocked = useApp((now) => now.locked);
  const rim = useApp((now) => now.record.rim);
  const homeMidi = useHomeMidi(store);
  const [accepted, setAccepted] = useState<string | null>(null);
  const [keepsFilm, setKeepsFilm] = useState(false);
  const isAccepting = useRef(false);
  const { films, notes, working, measuringId } = state;
  const isKept = useStore(keptFilms, (now) => filmsOf(now.films, measuringId).length > 0);
  const take = useMemo(() => results.of(films, notes.present, homeMidi), [results, films, notes.present, homeMidi]);
  const shown = shownFilm(state);
  const edit = (change: Parameters<typeof state.editNotes>[0], key: string | null = null): void => state.editNotes(change, key);
  const accept = async (): Promise<void> => {
    if (isAccepting.current) return;
    isAccepting.current = true;
    const meant = whereOf(page);
    // As everything is now, and not as it was last drawn: the heads first.
    await state.headsSettled().finally(() => {
      isAccepting.current = false;
    });
    const now = store.getState();
    // Meanwhile the film may have been closed, or another lesson opened.
    if (now.films.length === 0 || now.working !== null || whereOf(page) !== meant || page.getState().locked) return;
    const home = homeMidiOf(page.getState().record.home?.note, now.homeMidi);
    const taken = results.of(now.films, now.notes.present, home);
    const { isTaken, words, measuringId: keptAs } = acceptTake(page, now, taken, home, { keeping, nameOf: (note) => noteHeardName(note, entry), newId });
    setAccepted(words);
    if (!isTaken) return;
    store.setState({ measuringId: keptAs });
    if (!keepsFilm) return;
    // Another page that is just being opened forgets films whose measuring it cannot find.
    await records.settle();
    // The places of the films are those that the measuring gives them.
    for (const [source, { file, original }] of tellingFilms(now.films).entries()) {
      const failed = await keptFilms.getState().put({ measuring: keptAs, source, name: file.name }, original);
      if (failed !== null) setAccepted(`${words} ${failed}`);
    }
  };
  return (
    <div className="film-part" onKeyDown={undoKeys({ onUndo: state.undo, onRedo: state.redo })}>
      <FilmPart
        films={films.map((film, index) => filmShown(film, index === 0, take))}
        shownId={state.shownId}
        active={state.active}
        snaps={state.snaps}
        working={workingShown(working)}
        lens={shown === undefined ? NO_LENS : filmLens(shown)}
        outerDiameterMm={rim.outerDiameterMm}
        entry={entry}
        tuning={notes.present.length === 0 ? null : tuningWords(state.tuningCents)}
        homeMidi={homeMidi}
        isHomeGiven={lesson.home?.note !== undefined}
        notes={notes.present}
        seen={take.notes.map((note, index) => noteSeen(note, films.map(({ id }) => take.notesOf.get(id)?.[index]), entry.sideways))}
        filmViews={films.map(({ view }) => view)}
        selected={state.selectedNote}
        timeS={shown === undefined ? 0 : takeTime(shown)}
        span={takeSpan(films)}
        canUndoNotes={notes.past.length > 0}
        canRedoNotes={notes.future.length > 0}
        lessonName={sayMarking('lessonOf', { lesson: lessonName(player, lesson), player: player.label === '' ? sayMarking('thisPlayer') : player.label })}
        isLocked={isLocked}
        beforeAccepting={beforeAccepting(films, take, (note) => noteHeardName(note, entry))}
        keepsFilm={keepsFilm}
        isFilmKept={isKept}
        accepted={accepted}
        isSolving={state.isHeadBehind()}
        onShow={state.show}
        onCloseFilm={state.remove}
        onActivate={state.activate}
        onTake={state.take}
        onSnaps={state.setSnaps}
        onView={state.setView}
        onLens={state.setLens}
        onHornMark={state.setHornMark}
        onOffset={state.setOffset}
        onFollow={() => void state.follow()}
        onStop={state.stop}
        onTime={state.goTo}
        onGoTo={(filmId, timeS) => {
          state.show(filmId);
          state.goTo(timeS);
        }}
        onHome={state.setHome}
        onSelect={state.selectNote}
        onRename={(index, midi) => edit((before) => editedOr(before, renamed(before, index, midi)), `name:${index}`)}
        onRenamed={state.settleNotes}
        onMove={(index, end, timeS) => edit((before) => editedOr(before, boundaryMoved(before, index, end, timeS)))}
        onSplit={(index, timeS) => edit((before) => editedOr(before, split(before, index, timeS)))}
        onJoin={(index) => edit((before) => editedOr(before, joinedWithNext(before, index)))}
        onRemove={(index) => edit((before) => editedOr(before, removed(before, index)))}
        onUndoNotes={state.undoNotes}
        onRedoNotes={state.redoNotes}
        onKeepsFilm={setKeepsFilm}
        onAccept={() => void accept()}
        onClose={state.close}
      />
    </div>
  );
}

/** Copies of a player have lessons of the same ids. */
const whereOf = (page: AppStore): string => `${page.getState().player.id} ${page.getState().lesson.id}`;

/** Where no film is shown. */
const NO_LENS = { millimetres: 0, from: 'assumed' } as const;
