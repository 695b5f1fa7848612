/** What the lesson keeps of its measurings, joined to the page: opened again, forgotten, deleted; and what is asked when one is to be seen again. */
import { type ReactNode, useEffect, useMemo } from 'react';
import { useStore } from 'zustand';
import type { LessonSpec } from '../core/specs';
import { ChooseAgain, CloseFirst } from '../notebook/measure/ChooseAgain';
import { KeptMeasurings, type KeptMeasuringShown } from '../notebook/measure/KeptMeasurings';
import type { FilmEntry } from '../records/filmShelf';
import { useApp, useSession, useUnhurried } from './SessionContext';
import { frameDoor } from './frameDoor';
import { type KeptFilmsStore, filmsOf } from './keptFilms';
import type { KnownFile } from './marksKept';
import type { MeasuringKeeping } from './measuringKeeping';
import type { ReopeningStore } from './reopening';

export interface KeptMeasuringsPaneProps {
  readonly films: KeptFilmsStore;
  readonly reopening: ReopeningStore;
  readonly keeping: MeasuringKeeping;
  /** Marks that this browser keeps by their file. */
  onForgetMarks(files: readonly KnownFile[]): void;
}

export function KeptMeasuringsPane({ films: store, reopening, keeping, onForgetMarks }: KeptMeasuringsPaneProps): ReactNode {
  const { store: page } = useSession();
  const lesson = useUnhurried((now) => now.lesson);
  const isLocked = useApp((now) => now.locked);
  const { films, bytes, message, forget, forgetAll } = useStore(store);
  const measurings = useMemo(() => measuringsShown(lesson, films, keeping), [lesson, films, keeping]);
  return (
    <KeptMeasurings
      measurings={measurings}
      allFilms={{ count: films.length, bytes }}
      message={message}
      isLocked={isLocked}
      onAgain={(measuringId) => void reopening.getState().ask({ measuringId, sourceIndex: null, frameS: null })}
      onForget={(id) => void forget(id)}
      onForgetAll={() => void forgetAll()}
      onDelete={(id) => {
        const kept = lesson.measurings?.find((one) => one.id === id);
        const read = kept === undefined ? null : keeping.readMeasuring(kept);
        if (read?.kind === 'measuring') onForgetMarks(read.measuring.sources);
        page.getState().changePlayer((now) => keeping.withoutMeasuring(now, lesson.id, id));
        if (filmsOf(films, id).length > 0) void forget(id);
      }}
    />
  );
}

/** Stands at the chapter's top while a file is asked for. */
export function ReopeningPart({ reopening }: Pick<KeptMeasuringsPaneProps, 'reopening'>): ReactNode {
  const { now, ask, choose, closeAndGoOn, goOn, leave } = useStore(reopening);
  useEffect(() => {
    const takeUp = (): void => {
      const wish = frameDoor.take();
      if (wish !== null) void ask(wish);
    };
    takeUp();
    return frameDoor.subscribe(takeUp);
  }, [ask]);
  if (now.kind === 'busy') return <CloseFirst names={now.names} onClose={() => void closeAndGoOn()} onLeave={leave} />;
  if (now.kind === 'none') return null;
  return (
    <ChooseAgain
      missing={now.missing}
      pictures={now.pictures}
      forFrame={now.wish.sourceIndex !== null}
      canGoOn={now.canGoOn}
      words={now.words}
      onFiles={(files) => void choose(files)}
      onGoOn={() => void goOn()}
      onLeave={leave}
    />
  );
}

function measuringsShown(lesson: LessonSpec, films: readonly FilmEntry[], { readMeasuring, readingsFrom, deletingWords }: MeasuringKeeping): readonly KeptMeasuringShown[] {
  return (lesson.measurings ?? []).map((kept) => {
    const read = readMeasuring(kept);
    const own = filmsOf(films, kept.id);
    const known = read.kind === 'measuring' ? read.measuring : null;
    return {
      id: kept.id,
      kind: known?.kind ?? 'pictures',
      date: known?.date ?? null,
      files: known?.sources.map(({ name }) => name) ?? [],
      readingCount: readingsFrom(lesson, kept.id),
      films: { count: own.length, bytes: own.reduce((sum, one) => sum + one.bytes, 0) },
      deleting: deletingWords(lesson, kept.id),
    };
  });
}
