/**
 * The films of one take that are open and being measured: which frame is shown, what was marked in which, what was followed and heard. Not the
 * record, which only hears of it when its readings are accepted. How a film is read is given, so that the rules can be tested without a browser.
 *
 * Times are the first film's (the take's own clock) unless they are said to be a film's own: own = take's − `offsetS`.
 */
import { createStore } from 'zustand/vanilla';
import { isSameFile } from '../measure/fileMark';
import type { Point } from '../measure/picture';
import type { FilmProgress } from '../measure/progress';
import { type DraftMarks, type MarkId, NO_MARKS, markAt, marksPut, nextMark, withMark, withoutMark } from '../notebook/measure/marksEdits';
import { type FilmAnchorDraft, anchorAt, marksSoFar, withAnchorMarks } from '../notebook/measure/anchorEdits';
import { sayFilming } from '../words/filming';
import { createFilmHeads } from './filmHeads';
import { alignedWords, begun, frameAt, nearestFrame, notAlignedWords, withKept } from './filmSource';
import type { FilmOpening, FilmSource, FilmingParts, FilmingState, FilmingStore, Working } from './filmingTypes';
import { closeStep, redo, startHistory, step, undo } from './history';
import { MOST_ANCHORS } from './marksKept';
import { ofFile } from './measuring';

/** From the front, from a side, from above. */
export const MOST_FILMS = 3;
/** Columns of a wide time line. */
const OVERVIEW_BUCKETS = 1200;

export function createFilming({ open, snap, greyOf, align, keeper, keptElsewhere, outerDiameterMm, rest, newId }: FilmingParts): FilmingStore {
  return createStore<FilmingState>()((set, get) => {
    let stopping = new AbortController();
    /** A hand has set or changed them: heard anew they would be others. */
    let areNotesOwn = false;
    const film = (id: string | null): FilmSource | undefined => get().films.find((one) => one.id === id);
    const shown = (): FilmSource | undefined => film(get().shownId);
    const change = (id: string | null, edit: (film: FilmSource) => FilmSource): void => {
      const before = film(id);
      if (before === undefined) return;
      const next = edit(before);
      if (next === before) return;
      set({ films: get().films.map((one) => (one === before ? next : one)) });
      if (next.anchors.present !== before.anchors.present || SAID_OF_A_FILM.some((what) => next[what] !== before[what])) remember(next);
    };
    /** Kept at once by the file's mark: the page may be closed at any time. */
    const remember = (source: FilmSource): void => {
      const { films, notes, tuningCents, homeMidi } = get();
      const [first] = films;
      const { view, lensMm, hornMarkMm, offsetS } = source;
      const { began, take } = keeper.find(source.file) ?? {};
      const isFirst = first?.id === source.id;
      const takeNow = areNotesOwn || homeMidi !== null ? { notes: areNotesOwn ? notes.present : null, tuningCents, homeMidi } : undefined;
      const beganNow = first === undefined || offsetS === null ? undefined : { first: { bytes: first.file.bytes, digest: first.file.digest }, offsetS };
      keeper.keep(source.file, {
        ...{ view, lensMm, hornMarkMm, anchors: source.anchors.present },
        // Another take, in which it stood in another place, stays as it was.
        ...where('began', isFirst ? began : beganNow),
        ...where('take', isFirst ? takeNow : take),
      });
    };
    const rememberTake = (): void => {
      const [first] = get().films;
      if (first !== undefined) remember(first);
    };
    const refuse = (words: string): void => set({ refusals: [...new Set([...get().refusals, words])] });
    const work = (kind: Working['kind'], filmId: string | null): void => set({ working: { kind, filmId, part: null, leftS: null } });
    const onProgress = ({ doneS, ofS, leftS }: FilmProgress): void => {
      const { working } = get();
      if (working !== null) set({ working: { ...working, part: ofS > 0 ? Math.min(1, doneS / ofS) : null, leftS } });
    };
    const fetchFrame = async (id: string, index: number): Promise<void> => {
      change(id, (one) => ({ ...one, frameIndex: index }));
      const asked = film(id);
      if (asked === undefined) return;
      const got = await asked.work.frame(index).catch((fault: unknown) => {
        if (!isStop(fault)) set({ refusals: [sentenceOf(fault)] });
        // It will not come: the one that is shown stays, and is what is said to be shown.
        change(id, (one) => (one.frame === null || one.frameIndex !== index ? one : { ...one, frameIndex: one.frame.index }));
        return null;
      });
      if (got === null) return;
      const now = film(id);
      if (now === undefined) {
        got.bitmap.close();
        return;
      }
      now.frame?.bitmap.close();
      change(id, (one) => ({ ...one, frame: got }));
    };
    const askNext = (): void => {
      const source = shown();
      if (source !== undefined) set({ active: nextMark(marksSoFar(source.anchors.present), source.view) });
    };
    /** The frame that is shown has no marks, and no more frames can have any. */
    const isFull = (): boolean => {
      const source = shown();
      return source?.frame != null && source.anchors.present.length >= MOST_ANCHORS && anchorAt(source.anchors.present, source.frame.timeS) === undefined;
    };
    const editMarks = (edit: (marks: DraftMarks) => DraftMarks, key: string | null): void => {
      if (isFull()) {
        refuse(sayFilming('mostAnchors', { most: MOST_ANCHORS }));
        return;
      }
      change(get().shownId, (source) => {
        if (source.frame === null) return source;
        const anchors = step(source.anchors, withAnchorMarks(source.anchors.present, source.frame.timeS, edit), key);
        return anchors === source.anchors ? source : { ...source, anchors };
      });
    };
    const here = (): DraftMarks => {
      const source = shown();
      return source?.frame == null ? NO_MARKS : (anchorAt(source.anchors.present, source.frame.timeS)?.marks ?? NO_MARKS);
    };
    const snapped = (id: MarkId, point: Point): Point => {
      const frame = shown()?.frame;
      return frame == null || !get().snaps || !id.startsWith('rim-') ? point : snap(greyOf(frame), point);
    };
    const walk = (walked: typeof undo<readonly FilmAnchorDraft[]>): void => {
      change(get().shownId, (source) => ({ ...source, anchors: walked(source.anchors) }));
      askNext();
    };
    const heads = createFilmHeads({
      films: () => get().films,
      notes: () => get().notes.present,
      outerDiameterMm,
      changeFollowed: ({ id }, edit) => change(id, (one) => (one.followed === null ? one : { ...one, followed: edit(one.followed) })),
      fault: (fault) => {
        if (!isStop(fault)) set({ refusals: [sentenceOf(fault)] });
      },
      rest,
    });
    const changeHead = (edit: (source: FilmSource) => FilmSource): void => {
      change(get().shownId, edit);
      heads.later();
    };
    const hearOf = async (source: FilmSource, range: { readonly lowMidi: number; readonly highMidi: number }, signal: AbortSignal): Promise<void> => {
      work('hearing', source.id);
      const heard = await source.work.hear(range, signal, onProgress);
      if (heard === null || film(source.id) === undefined) return;
      if (heard.words !== null) refuse(heard.words);
      areNotesOwn = false;
      set({ notes: startHistory(heard.notes), tuningCents: heard.tuningCents, selectedNote: heard.notes.length > 0 ? 0 : null });
    };
    const alignOf = async (first: FilmSource, source: FilmSource, signal: AbortSignal): Promise<void> => {
      work('aligning', source.id);
      const found = await align(first.work, source.work, signal);
      change(source.id, (one) => (found === null ? { ...one, offsetWords: notAlignedWords() } : { ...one, offsetS: found.offsetS, offsetWords: alignedWords(found.sdS) }));
    };
    /** One more film, with what its marks' keeper and the lesson know of it. */
    const taken = (file: File, opening: Extract<FilmOpening, { kind: 'film' }>): FilmSource => {
      const [first] = get().films;
      const kept = keptElsewhere(opening.file);
      const own = keeper.find(opening.file);
      const source = withKept(begun(newId(), file, opening, own, first ?? null), own, kept, first ?? null, keptElsewhere);
      set({ films: [...get().films, source] });
      const isWhole = kept !== null && kept.film.files.every((one) => get().films.some((open) => isSameFile(open.file, one)));
      if (isWhole) set({ measuringId: kept.film.measuringId });
      const begins = first === undefined && kept?.film.place === 0 ? kept.film : null;
      const ownTake = first === undefined && kept?.isWished !== true ? own?.take : undefined;
      const ownNotes = ownTake?.notes ?? null;
      const sound = ownTake === undefined || ownNotes === null ? (begins?.sound ?? null) : { notes: ownNotes, tuningCents: ownTake.tuningCents };
      if (first === undefined) {
        areNotesOwn = ownNotes !== null;
        set({ homeMidi: ownTake?.homeMidi ?? begins?.homeMidi ?? null });
      }
      if (sound !== null) set({ notes: startHistory(sound.notes), tuningCents: sound.tuningCents, selectedNote: sound.notes.length > 0 ? 0 : null });
      if (source.followed !== null) heads.later();
      return source;
    };
    const admit = async (file: File, range: { readonly lowMidi: number; readonly highMidi: number }, signal: AbortSignal): Promise<void> => {
      const opening = await open(file);
      if (opening.kind === 'refused') {
        refuse(ofFile(file, opening.words));
        return;
      }
      if (signal.aborted) {
        opening.work.close();
        return;
      }
      const again = get().films.find((one) => isSameFile(one.file, opening.file));
      const source = again ?? taken(file, opening);
      if (again !== undefined) {
        // Its reading may have broken off: what was marked and followed stays, and it is read anew.
        again.work.close();
        change(again.id, (one) => ({ ...one, work: opening.work, original: file }));
        heads.later();
      }
      set({ shownId: source.id });
      askNext();
      const marked = source.anchors.present[0];
      await fetchFrame(source.id, again?.frameIndex ?? (marked === undefined ? 0 : nearestFrame(opening.work.frameTimesS, marked.timeS)));
      if (opening.work.facts.sound === null || signal.aborted) return;
      const overview = await opening.work.overview(OVERVIEW_BUCKETS, signal);
      change(source.id, (one) => ({ ...one, overview }));
      // Stopped in the meantime: nobody would end what is begun now.
      if (signal.aborted) return;
      const [first] = get().films;
      if (first?.id === source.id) {
        if (get().notes.present.length === 0) await hearOf(first, range, signal);
      } else if (first !== undefined && first.work.facts.sound !== null && film(source.id)?.offsetS === null) await alignOf(first, film(source.id)!, signal);
    };
    return {
      measuringId: newId(),
      films: [],
      shownId: null,
      active: null,
      snaps: true,
      notes: startHistory([]),
      tuningCents: null,
      selectedNote: null,
      homeMidi: null,
      working: null,
      refusals: [],
      open: async (files, range) => {
        if (get().working !== null) {
          refuse(sayFilming('waitForFilm', { files: files.map(({ name }) => name).join(', ') }));
          return;
        }
        set({ refusals: [] });
        const { signal } = stopping;
        for (const file of files) {
          if (get().films.length >= MOST_FILMS) {
            refuse(sayFilming('mostFilms', { most: MOST_FILMS, file: file.name }));
            continue;
          }
          work('opening', null);
          await admit(file, range, signal).catch((fault: unknown) => {
            if (!isStop(fault)) refuse(sentenceOf(fault));
          });
          if (signal.aborted) break;
        }
        if (!signal.aborted) set({ working: null });
      },
      close: () => {
        stopping.abort();
        stopping = new AbortController();
        areNotesOwn = false;
        for (const one of get().films) {
          one.frame?.bitmap.close();
          one.work.close();
        }
        set({ measuringId: newId(), films: [], shownId: null, active: null, notes: startHistory([]), tuningCents: null, selectedNote: null, homeMidi: null, working: null, refusals: [] });
      },
      remove: (id) => {
        const source = film(id);
        if (source === undefined || get().working !== null) return;
        // The take's clock is the first film's: without it nothing has a time.
        if (get().films[0] === source || get().films.length === 1) {
          get().close();
          return;
        }
        source.frame?.bitmap.close();
        source.work.close();
        const { measuringId, shownId } = get();
        const films = get().films.filter((one) => one !== source);
        // A measuring that holds the closed film goes on holding it: what is accepted of the others from now on is another one's.
        const isHeld = keptElsewhere(source.file, measuringId) !== null;
        set({ films, shownId: shownId === id ? (films[0]?.id ?? null) : shownId, ...(isHeld && { measuringId: newId() }) });
        askNext();
      },
      show: (id) => {
        const before = shown();
        set({ shownId: id });
        askNext();
        const source = film(id);
        const timeS = before?.frame == null || before.offsetS === null ? null : before.frame.timeS + before.offsetS;
        if (timeS !== null && source?.offsetS != null) get().goTo(timeS);
      },
      goTo: (timeS) => {
        const source = shown();
        if (source !== undefined) void fetchFrame(source.id, frameAt(source.work.frameTimesS, timeS - (source.offsetS ?? 0)));
      },
      stepFrames: (by) => {
        const source = shown();
        if (source === undefined) return;
        const last = source.work.frameTimesS.length - 1;
        void fetchFrame(source.id, Math.min(last, Math.max(0, source.frameIndex + by)));
      },
      activate: (active) => set({ active }),
      setSnaps: (snaps) => set({ snaps }),
      setView: (view) => {
        change(get().shownId, (source) => (source.view === view ? source : { ...source, view }));
        askNext();
      },
      setLens: (lensMm) => changeHead((source) => ({ ...source, lensMm })),
      setHornMark: (hornMarkMm) => changeHead((source) => ({ ...source, hornMarkMm })),
      setOffset: (offsetS) => changeHead((source) => ({ ...source, offsetS, offsetWords: 'typed' })),
      put: (point) => {
        const { active } = get();
        const source = shown();
        if (active === null || source?.frame == null) return false;
        const isNew = markAt(marksSoFar(source.anchors.present), active) === null;
        editMarks((marks) => withMark(marks, active, snapped(active, point)), null);
        if (isNew && !isFull()) set({ active: nextMark(marksSoFar(shown()!.anchors.present), source.view, active) });
        return true;
      },
      move: (id, point, key) => editMarks((marks) => withMark(marks, id, point), key),
      settle: (id, letsGo) => {
        const at = markAt(here(), id);
        // In the same step as the move: undoing takes both back.
        if (letsGo && at !== null) editMarks((marks) => withMark(marks, id, snapped(id, at)), shown()!.anchors.openKey);
        change(get().shownId, (source) => ({ ...source, anchors: closeStep(source.anchors) }));
      },
      take: (id) => {
        editMarks((marks) => withoutMark(marks, id), null);
        askNext();
      },
      undo: () => walk(undo),
      redo: () => walk(redo),
      follow: async () => {
        const source = shown();
        if (source === undefined || get().working !== null || marksPut(marksSoFar(source.anchors.present)).length === 0) return;
        const { signal } = stopping;
        set({ refusals: [] });
        work('following', source.id);
        const asked = { view: source.view, anchors: source.anchors.present };
        try {
          const followed = await source.work.follow(asked, signal, onProgress);
          if (followed !== null && film(source.id) !== undefined) {
            const { trace } = followed;
            const head = await heads.head(source.id, trace);
            change(source.id, (one) => ({ ...one, followed: { ...followed, anchors: asked.anchors, ...head } }));
            // Lens, notes or rim may have been changed meanwhile.
            heads.later();
          }
        } catch (fault) {
          if (!isStop(fault)) set({ refusals: [sentenceOf(fault)] });
        }
        if (!signal.aborted) set({ working: null });
      },
      stop: () => {
        stopping.abort();
        stopping = new AbortController();
        set({ working: null });
      },
      editNotes: (edit, key = null) => {
        const { notes, selectedNote } = get();
        const next = edit(notes.present);
        if (next === notes.present) return;
        areNotesOwn = true;
        set({ notes: step(notes, next, key), selectedNote: selectedNote === null || next.length === 0 ? null : Math.min(selectedNote, next.length - 1) });
        // In the middle of a drag there is a next one at once.
        if (key === null) rememberTake();
        heads.later();
      },
      settleNotes: () => {
        set({ notes: closeStep(get().notes) });
        rememberTake();
      },
      undoNotes: () => {
        set({ notes: undo(get().notes) });
        rememberTake();
        heads.later();
      },
      redoNotes: () => {
        set({ notes: redo(get().notes) });
        rememberTake();
        heads.later();
      },
      selectNote: (selectedNote) => {
        set({ selectedNote });
        const note = selectedNote === null ? undefined : get().notes.present[selectedNote];
        if (note !== undefined) get().goTo((note.startS + note.endS) / 2);
      },
      setHome: (homeMidi) => {
        set({ homeMidi });
        rememberTake();
      },
      rimChanged: () => heads.later(),
      isHeadBehind: () => get().films.some(heads.isBehind),
      headsSettled: () => heads.settled(),
    };
  });
}

/** Beside its marks. */
const SAID_OF_A_FILM = ['view', 'lensMm', 'hornMarkMm', 'offsetS'] as const;

const where = <Key extends string, Value>(key: Key, value: Value | undefined): { readonly [K in Key]?: Value } =>
  (value === undefined ? {} : { [key]: value }) as { readonly [K in Key]?: Value };

const isStop = (fault: unknown): boolean => fault instanceof DOMException && fault.name === 'AbortError';

function sentenceOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}
