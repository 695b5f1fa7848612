/** How a kept measuring is opened and shown on the page. */
import { isSameFile, markFile } from '../measure/fileMark';
import type { FilmShelf } from '../records/filmShelf';
import { sayMarking } from '../words/marking';
import { fixed } from '../words/numbers';
import type { FilmingStore } from './filmingTypes';
import type { MeasuringStore } from './measuring';
import { instrumentRange } from './measuringFiles';
import type { MeasuringKeeping } from './measuringKeeping';
import { type ReopeningStore, createReopening } from './reopening';
import type { AppStore } from './store';

export interface Reopened {
  readonly page: AppStore;
  readonly shelf: Pick<FilmShelf, 'get'>;
  readonly measuring: MeasuringStore;
  readonly filming: FilmingStore;
  readonly readMeasuring: MeasuringKeeping['readMeasuring'];
  /** Whose marks are meant while files are being opened; null: those that were put last. */
  wish(measuringId: string | null): void;
  /** Where whoever works by keys goes on from. */
  focus(): void;
}

export function reopenedOnPage({ page, shelf, measuring, filming, readMeasuring, wish, focus }: Reopened): ReopeningStore {
  return createReopening({
    shelf,
    mark: markFile,
    measuringOf: (id) => {
      const kept = page.getState().lesson.measurings?.find((one) => one.id === id);
      const read = kept === undefined ? null : readMeasuring(kept);
      return read?.kind === 'measuring' ? read.measuring : null;
    },
    openNow: () => {
      const { films, measuringId } = filming.getState();
      if (films.length > 0) return { files: films.map(({ file }) => file), measuringId };
      const { sources, measuringId: ofPictures } = measuring.getState();
      return { files: sources.map(({ file }) => file), measuringId: ofPictures };
    },
    open: async ({ id, kind, sources }, files) => {
      wish(id);
      if (kind === 'film') {
        const opening = filming.getState().open(files, instrumentRange(page.getState().record.player.instrument));
        const done = opening.finally(() => wish(null));
        // The frame need not wait until the sound's outline is drawn.
        const shown = whenStanding(filming, files.length);
        await Promise.race([done, shown.standing]);
        shown.stop();
        return;
      }
      await measuring.getState().open(files).finally(() => wish(null));
      const isWhole = sources.every((one) => measuring.getState().sources.some(({ file }) => isSameFile(file, one)));
      if (isWhole) measuring.setState({ measuringId: id });
    },
    close: () => {
      filming.getState().close();
      measuring.getState().close();
    },
    show: (source, frameS) => {
      const film = filming.getState().films.find(({ file }) => isSameFile(file, source));
      const picture = measuring.getState().sources.find(({ file }) => isSameFile(file, source));
      if (picture !== undefined) measuring.getState().show(picture.id);
      if (film !== undefined) showFrame(filming, film.id, frameS);
      focus();
      const file = source.name;
      const words = frameS === null || film === undefined ? sayMarking('isShown', { file }) : sayMarking('isShownAt', { file, seconds: fixed(frameS, 2) });
      if (film !== undefined || picture !== undefined) page.getState().announce(words);
    },
  });
}

/** As soon as so many films are open and the last of them shows a frame. */
function whenStanding(filming: FilmingStore, count: number): { readonly standing: Promise<void>; stop(): void } {
  let stop = (): void => undefined;
  const standing = new Promise<void>((resolve) => {
    stop = filming.subscribe(({ films }) => {
      if (films.length >= count && films.at(-1)?.frame != null) resolve();
    });
  });
  return { standing, stop: () => stop() };
}

/** The frame, and in the list the note that it was taken from. */
function showFrame(filming: FilmingStore, id: string, frameS: number | null): void {
  const { show, goTo } = filming.getState();
  show(id);
  if (frameS === null) return;
  const { films, notes } = filming.getState();
  const timeS = frameS + (films.find((one) => one.id === id)?.offsetS ?? 0);
  const note = notes.present.findIndex(({ startS, endS }) => startS <= timeS && timeS <= endS);
  if (note !== -1) filming.setState({ selectedNote: note });
  goTo(timeS);
}
