/**
 * The pictures that are open and being measured: not the record, which only hears of them when their readings are accepted. Each picture
 * has its own steps back and forward. How a file becomes a picture and where marks snap to is given, so that the rules can be tested without a browser.
 */
import { type StoreApi, createStore } from 'zustand/vanilla';
import type { FileMark } from '../measure/fileMark';
import type { ViewFrom } from '../measure/marks';
import type { GreyPicture, Point } from '../measure/picture';
import { type DraftMarks, type MarkId, NO_MARKS, markAt, nextMark, withMark, withoutMark } from '../notebook/measure/marksEdits';
import { sayMarking } from '../words/marking';
import type { Marking } from './marking';
import type { KeptMarks, MarksKeeper } from './marksKept';
import { type History, closeStep, redo, startHistory, step, undo } from './history';

/** A picture made ready, upright. */
export interface OpenedPicture {
  readonly width: number;
  readonly height: number;
  readonly shown: ImageBitmap;
  /** The same made smaller, for showing the whole; null where it is small itself. */
  readonly small: ImageBitmap | null;
  readonly grey: GreyPicture;
  /** Focal length as the file tells it, as on a full-frame camera (36 × 24 mm); null: it does not. */
  readonly equivalentMm: number | null;
}

export type Opening =
  | { readonly kind: 'picture'; readonly picture: OpenedPicture; readonly file: FileMark }
  /** One sentence that says what to do. */
  | { readonly kind: 'refused'; readonly words: string };

export interface MeasuringSource {
  readonly id: string;
  readonly file: FileMark;
  readonly picture: OpenedPicture;
  readonly view: ViewFrom;
  /** Sounding, scientific; null: not said yet. */
  readonly note: string | null;
  readonly marks: History<DraftMarks>;
  /** The same as a person typed it; null: they did not. */
  readonly lensMm: number | null;
}

export interface MeasuringState extends Marking {
  readonly sources: readonly MeasuringSource[];
  readonly shownId: string | null;
  /** The picture whose rim is where travel is counted from. */
  readonly homeId: string | null;
  readonly isOpening: boolean;
  /** Under which what is accepted is kept in the lesson; accepted once more, it takes its own place. */
  readonly measuringId: string;
  /** Why files could not be opened, a sentence each. */
  readonly refusals: readonly string[];

  open(files: readonly File[]): Promise<void>;
  /** All pictures are let go; the marks stay kept by the files' names. */
  close(): void;
  /** One picture is taken away; its kept marks too. */
  remove(id: string): void;
  show(id: string): void;
  setNote(note: string | null): void;
  setHome(id: string): void;
  /** Of every open picture of the shown one's size: they are by one camera. */
  setLens(millimetres: number | null): void;
  /** In every open picture: the far mark is put on the same spot of the horn. */
  setHornMark(mark: DraftMarks['hornMarkMm'], key: string | null): void;
}

export interface MeasuringParts {
  open(file: File): Promise<Opening>;
  /** A point of the rim drawn to the edge beside it; the same point where there is none. */
  snap(picture: GreyPicture, point: Point, marks: DraftMarks): Point;
  /** All points of a rim on its edge; null where they are too few or no edge is seen. */
  drawRim(picture: GreyPicture, rim: readonly Point[]): readonly Point[] | null;
  readonly keeper: MarksKeeper;
  /** The marks of a file that a kept lesson holds; null: none does. */
  keptElsewhere(file: FileMark): KeptMarks | null;
  newId(): string;
}

export type MeasuringStore = StoreApi<MeasuringState>;

/** More pictures than this at once would take more memory than a phone has. */
export const MOST_OPEN = 12;
/** Of all open pictures together: in colour and in grey 5 bytes each, so that they stay within 1 GB. A dozen of 12 million are 144 million. */
const MOST_OPEN_PIXELS = 200e6;

export function createMeasuring({ open, snap, drawRim, keeper, keptElsewhere, newId }: MeasuringParts): MeasuringStore {
  return createStore<MeasuringState>()((set, get) => {
    let openings = 0;
    const change = (id: string | null, edit: (source: MeasuringSource) => MeasuringSource): void => {
      const before = get().sources.find((one) => one.id === id);
      if (before === undefined) return;
      const next = edit(before);
      if (next === before) return;
      set({ sources: get().sources.map((one) => (one === before ? next : one)) });
      keeper.keep(next.file, { view: next.view, note: next.note, marks: next.marks.present });
    };
    const shown = (): MeasuringSource | undefined => shownSource(get());
    const show = (id: string | null): void => {
      const source = get().sources.find((one) => one.id === id);
      set({ shownId: source?.id ?? null, active: source === undefined ? null : nextMark(source.marks.present, source.view) });
    };
    const editMarks = (edit: (marks: DraftMarks) => DraftMarks, key: string | null): void =>
      change(get().shownId, (source) => {
        const marks = step(source.marks, edit(source.marks.present), key);
        return marks === source.marks ? source : { ...source, marks };
      });
    const steps = (walk: typeof undo<DraftMarks>): void => {
      change(get().shownId, (source) => ({ ...source, marks: walk(source.marks) }));
      const source = shown();
      if (source !== undefined) set({ active: nextMark(source.marks.present, source.view) });
    };
    const snapped = (id: MarkId, point: Point): Point => {
      const source = shown();
      if (source === undefined || !get().snaps || !id.startsWith('rim-')) return point;
      return snap(source.picture.grey, point, source.marks.present);
    };
    /** A rim point that was put or let go: with enough of them the whole rim goes to its edge. */
    const withPut = (marks: DraftMarks, id: MarkId, point: Point): DraftMarks => {
      const source = shown();
      const next = withMark(marks, id, snapped(id, point));
      const rim = source !== undefined && get().snaps && id.startsWith('rim-') ? drawRim(source.picture.grey, next.rim) : null;
      return rim === null ? next : { ...next, rim };
    };
    return {
      sources: [],
      shownId: null,
      homeId: null,
      active: null,
      snaps: true,
      isOpening: false,
      measuringId: newId(),
      refusals: [],
      open: async (files) => {
        if (get().isOpening) {
          set({ refusals: [...get().refusals, sayMarking('waitForPictures', { files: files.map(({ name }) => name).join(', ') })] });
          return;
        }
        set({ isOpening: true, refusals: [] });
        const mine = ++openings;
        const refusals: string[] = [];
        for (const file of files) {
          if (get().sources.length >= MOST_OPEN) {
            refusals.push(sayMarking('mostPictures', { most: MOST_OPEN, file: file.name }));
            continue;
          }
          // A browser that runs out of memory throws; the other files, and those chosen later, are opened all the same.
          const opening = await open(file).catch((): Opening => ({ kind: 'refused', words: sayMarking('notOpened') }));
          if (mine !== openings) {
            // All was closed in the meantime.
            if (opening.kind === 'picture') letGo(opening.picture);
            return;
          }
          if (opening.kind === 'refused') {
            refusals.push(ofFile(file, opening.words));
            continue;
          }
          if (pixelsOf([...get().sources, opening]) > MOST_OPEN_PIXELS) {
            opening.picture.shown.close();
            refusals.push(sayMarking('mostPixels', { file: file.name, most: MOST_OPEN_PIXELS / 1e6 }));
            continue;
          }
          const source = begun(newId(), opening, keeper.find(opening.file) ?? keptElsewhere(opening.file), get().sources.at(-1));
          set({ sources: [...get().sources, source], homeId: get().homeId ?? source.id });
          if (get().shownId === null) show(source.id);
        }
        set({ isOpening: false, refusals: [...get().refusals, ...refusals] });
      },
      close: () => {
        openings += 1;
        for (const { picture } of get().sources) letGo(picture);
        set({ isOpening: false, sources: [], shownId: null, homeId: null, active: null, refusals: [], measuringId: newId() });
      },
      remove: (id) => {
        const source = get().sources.find((one) => one.id === id);
        if (source === undefined) return;
        keeper.forget(source.file);
        letGo(source.picture);
        const sources = get().sources.filter((one) => one !== source);
        set({ sources, homeId: get().homeId === id ? (sources[0]?.id ?? null) : get().homeId });
        if (get().shownId === id) show(sources[0]?.id ?? null);
      },
      show,
      activate: (active) => set({ active }),
      setSnaps: (snaps) => set({ snaps }),
      setView: (view) => {
        change(get().shownId, (source) => (source.view === view ? source : { ...source, view }));
        const source = shown();
        if (source !== undefined) set({ active: nextMark(source.marks.present, view) });
      },
      setNote: (note) => change(get().shownId, (source) => ({ ...source, note })),
      setHome: (homeId) => set({ homeId }),
      setLens: (lensMm) => {
        const { width, height } = shown()?.picture ?? { width: 0, height: 0 };
        for (const { id, picture } of get().sources) {
          if (picture.width === width && picture.height === height) change(id, (source) => ({ ...source, lensMm }));
        }
      },
      setHornMark: (hornMarkMm, key) => {
        for (const { id } of get().sources) change(id, (source) => ({ ...source, marks: step(source.marks, { ...source.marks.present, hornMarkMm }, key) }));
      },
      put: (point) => {
        const { active } = get();
        if (active === null || shown() === undefined) return false;
        const isNew = markAt(shown()!.marks.present, active) === null;
        editMarks((marks) => withPut(marks, active, point), null);
        if (isNew) set({ active: following(shown()!, active) });
        return true;
      },
      move: (id, point, key) => editMarks((marks) => withMark(marks, id, point), key),
      settle: (id, snaps) => {
        const at = shown() && markAt(shown()!.marks.present, id);
        // In the same step as the move: undoing takes both back.
        if (snaps && at != null) editMarks((marks) => withPut(marks, id, at), shown()!.marks.openKey);
        change(get().shownId, (source) => {
          const marks = closeStep(source.marks);
          return marks === source.marks ? source : { ...source, marks };
        });
      },
      take: (id) => {
        editMarks((marks) => withoutMark(marks, id), null);
        const source = shown();
        if (source !== undefined) set({ active: markAt(source.marks.present, id) === null ? id : nextMark(source.marks.present, source.view) });
      },
      undo: () => steps(undo),
      redo: () => steps(redo),
    };
  });
}

const pixelsOf = (all: readonly Pick<MeasuringSource, 'picture'>[]): number => all.reduce((sum, { picture: { width, height } }) => sum + width * height, 0);

/** Which of several files a sentence is about, where it does not say so itself. */
export const ofFile = ({ name }: File, words: string): string => (words.includes(name) ? words : sayMarking('ofFile', { file: name, words }));

function letGo({ shown, small }: OpenedPicture): void {
  shown.close();
  small?.close();
}

export const shownSource = ({ sources, shownId }: Pick<MeasuringState, 'sources' | 'shownId'>): MeasuringSource | undefined =>
  sources.find((one) => one.id === shownId);

/** A file opened again finds its marks; the next of several is taken to be seen from where the last was. */
function begun(
  id: string,
  { file, picture }: Extract<Opening, { kind: 'picture' }>,
  kept: KeptMarks | null,
  before: MeasuringSource | undefined,
): MeasuringSource {
  return {
    id,
    file,
    picture,
    view: kept?.view ?? before?.view ?? 'front',
    note: kept?.note ?? null,
    marks: startHistory(kept?.marks ?? { ...NO_MARKS, hornMarkMm: before?.marks.present.hornMarkMm ?? null }),
    lensMm: before?.lensMm ?? null,
  };
}

/** Further points of rim and lip line may follow as long as the person chose them beyond what is asked for. */
function following(source: MeasuringSource, put: MarkId): MarkId | null {
  const marks = source.marks.present;
  if (put.startsWith('lip-')) return marks.lipLine.length < 2 ? `lip-${marks.lipLine.length}` : nextMark(marks, source.view);
  return nextMark(marks, source.view, put);
}
