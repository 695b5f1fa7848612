import { useEffect } from 'react';
import type { FilmShelf } from '../records/filmShelf';
import { sayApp } from '../words/app';
import { sayMarking } from '../words/marking';
import { useSession } from './SessionContext';
import type { FilmingStore } from './filmingTypes';
import { afterRest, browserIdle } from './idle';
import type { KeptFilmsStore } from './keptFilms';
import { forgetLeftFilms, leftWith, measuringsOf } from './leftFilms';
import type { MeasuringKeeping } from './measuringKeeping';
import type { Records } from './records';
import { createPages, forgetStrayFilms } from './strayFilms';

/** When the page has come to rest: which films are kept is read, and those that belong to nobody any more are forgotten; those of what is deleted at once. */
export function useStrayFilms(shelf: FilmShelf, keptFilms: KeptFilmsStore, filming: FilmingStore, { measuringsInUse }: MeasuringKeeping, records: Records): void {
  const { store } = useSession();
  useEffect(() => {
    let isLeft = false;
    const look = async (): Promise<void> => {
      if (isLeft) return;
      await forgetStrayFilms({
        films: shelf,
        shelf: records.shelf,
        measuringsInUse,
        open: () => {
          const { past, present, future } = store.getState().history;
          return [...past, present, ...future].map(({ player }) => player);
        },
        mayComeBack: () => records.current().deleted.length > 0 || filming.getState().films.length > 0,
        isOnlyPage: pages.isOnlyPage,
      });
      await keptFilms.getState().refresh();
    };
    const leave = async (gone: readonly string[]): Promise<void> => {
      if (gone.length === 0) return;
      // As it is kept, not as it was kept before.
      await records.settle();
      const answer = await forgetLeftFilms(gone, { films: shelf, shelf: records.shelf, measuringsInUse, open: () => store.getState().player });
      if (answer === 'unsure') store.getState().notify(sayMarking('stillKept', { chapter: sayApp('measureChapter') }));
      await keptFilms.getState().refresh();
    };
    const endLessons = store.subscribe((now, before) => {
      // A step back is no deleting: the step forward brings it all again.
      if (now.player !== before.player && now.history.future.length === 0) void leave(leftWith(before.player, now.player));
    });
    const endPlayers = records.onRemoved(({ lessons }) => void leave(measuringsOf(lessons)));
    const callOff = afterRest(() => browserIdle(() => void look(), () => store.getState().dragging));
    return () => {
      isLeft = true;
      callOff();
      endLessons();
      endPlayers();
    };
  }, [shelf, keptFilms, filming, measuringsInUse, records, store]);
}

/** One for the page, however often its part is drawn. */
const pages = createPages(globalThis.navigator?.locks);
