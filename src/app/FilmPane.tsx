/** The films of a take joined to the page: what stands in the chapter while they are open. */
import { type ReactNode, useMemo, useState } from 'react';
import { useStore } from 'zustand';
import { joinedWithNext, boundaryMoved, removed, renamed, split } from '../measure/tapped';
import { FilmPart } from '../notebook/measure/film/FilmPart';
import { editedOr } from '../notebook/measure/film/tapping';
import { undoKeys } from '../notebook/measure/MeasuringPicture';
import { lessonName } from '../notebook/kept/words';
import type { EntryStyle } from '../notebook/props';
import { useHomeMidi } from './FilmRoom';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { shownFilm, takeTime } from './filmSource';
import type { FilmingStore } from './filmingTypes';
import { type KeptFilmsStore, filmsOf } from './keptFilms';
import type { MeasuringKeeping } from './measuringKeeping';
import { acceptTake, filmLens, filmShown, noteSeen, tuningWords, workingShown } from './takeNow';
import type { Records } from './records';
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
  const { films, notes, working, measuringId } = state;
  const isKept = useStore(keptFilms, (now) => filmsOf(now.films, measuringId).length > 0);
  const take = useMemo(() => results.of(films, notes.present, homeMidi), [results, films, notes.present, homeMidi]);
  const shown = shownFilm(state);
  const edit = (change: Parameters<typeof state.editNotes>[0], key: string | null = null): void => state.editNotes(change, key);
  const accept = async (): Promise<void> => {
    const { isTaken, words } = acceptTake(page, store.getState(), take, homeMidi, keeping);
    setAccepted(words);
    if (!isTaken || !keepsFilm) return;
    // Another page that is just being opened forgets films whose measuring it cannot find.
    await records.settle();
    // The places of the films are those that the measuring gives them.
    for (const [source, { file, original }] of films.filter(({ followed }) => followed !== null).entries()) {
      const failed = await keptFilms.getState().put({ measuring: measuringId, source, name: file.name }, original);
      if (failed !== null) setAccepted(`${words} ${failed}`);
    }
  };
  return (
    <div className="film-part" onKeyDown={undoKeys({ onUndo: state.undo, onRedo: state.redo })}>
      <FilmPart
        films={films.map((film, index) => filmShown(film, index === 0))}
        shownId={state.shownId}
        active={state.active}
        snaps={state.snaps}
        working={workingShown(working)}
        lens={shown === undefined ? { millimetres: 0, from: 'assumed' } : filmLens(shown)}
        outerDiameterMm={rim.outerDiameterMm}
        entry={entry}
        tuning={notes.present.length === 0 ? null : tuningWords(state.tuningCents)}
        homeMidi={homeMidi}
        isHomeGiven={lesson.home?.note !== undefined}
        notes={notes.present}
        seen={take.notes.map(noteSeen)}
        selected={state.selectedNote}
        timeS={shown === undefined ? 0 : takeTime(shown)}
        span={shown === undefined ? { startS: 0, endS: 0 } : { startS: shown.work.facts.startS, endS: shown.work.facts.endS }}
        canUndoNotes={notes.past.length > 0}
        canRedoNotes={notes.future.length > 0}
        lessonName={`${lessonName(player, lesson)} of ${player.label === '' ? 'this player' : player.label}`}
        isLocked={isLocked}
        keepsFilm={keepsFilm}
        isFilmKept={isKept}
        accepted={accepted}
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
        onHome={state.setHome}
        onSelect={state.selectNote}
        onRename={(index, midi) => edit((before) => editedOr(before, renamed(before, index, midi)))}
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
