import { useEffect } from 'react';
import type { FilmShelf } from '../records/filmShelf';
import { useSession } from './SessionContext';
import type { FilmingStore } from './filmingTypes';
import { afterRest, browserIdle } from './idle';
import type { KeptFilmsStore } from './keptFilms';
import type { MeasuringKeeping } from './measuringKeeping';
import type { Records } from './records';
import { createPages, forgetStrayFilms } from './strayFilms';

/** When the page has come to rest: which films are kept is read, and those that belong to nobody any more are forgotten. */
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
    const callOff = afterRest(() => browserIdle(() => void look(), () => store.getState().dragging));
    return () => {
      isLeft = true;
      callOff();
    };
  }, [shelf, keptFilms, filming, measuringsInUse, records, store]);
}

/** One for the page, however often its part is drawn. */
const pages = createPages(globalThis.navigator?.locks);
