/**
 * A kept measuring opened once more: its films from where films are kept, or the same files asked for again. How files are opened and
 * shown is given, so that the rules can be tested without a browser.
 */
import { type StoreApi, createStore } from 'zustand/vanilla';
import { type FileMark, isSameFile } from '../measure/fileMark';
import type { FilmShelf } from '../records/filmShelf';
import type { Measuring, MeasuringSource } from '../records/measuringSchema';
import { sayMarking } from '../words/marking';
import type { FrameWish } from './frameDoor';

export type Reopening =
  | { readonly kind: 'none' }
  /** Something else is open and would have to be closed first. */
  | { readonly kind: 'busy'; readonly wish: FrameWish; readonly names: string }
  | {
      readonly kind: 'asks';
      readonly wish: FrameWish;
      readonly pictures: boolean;
      /** The files that are still missing, by name. */
      readonly missing: readonly string[];
      /** The one that is wished for is there; others are not. */
      readonly canGoOn: boolean;
      /** What was wrong with the last choice; null: nothing. */
      readonly words: string | null;
    };

export interface ReopeningState {
  readonly now: Reopening;
  ask(wish: FrameWish): Promise<void>;
  /** Closes what is open, which loses what was not accepted, and goes on with the wish. */
  closeAndGoOn(): Promise<void>;
  choose(files: readonly File[]): Promise<void>;
  /** Without what is missing. */
  goOn(): Promise<void>;
  leave(): void;
}

export interface ReopeningParts {
  /** null: it is gone, or cannot be read. */
  measuringOf(id: string): Measuring | null;
  readonly shelf: Pick<FilmShelf, 'get'>;
  mark(file: File): Promise<FileMark>;
  /** What stands open now, and as which measuring. */
  openNow(): { readonly files: readonly FileMark[]; readonly measuringId: string };
  /** Opens files, in their order, as this measuring. */
  open(measuring: Measuring, files: readonly File[]): Promise<void>;
  close(): void;
  /** Shows an open film at a frame, its own time, or a picture. */
  show(source: MeasuringSource, frameS: number | null): void;
}

export type ReopeningStore = StoreApi<ReopeningState>;

export function createReopening({ measuringOf, shelf, mark, openNow, open, close, show }: ReopeningParts): ReopeningStore {
  return createStore<ReopeningState>()((set, get) => {
    /** Which wish an answer belongs to: a later one overtakes it. */
    let count = 0;
    let measuring: Measuring | null = null;
    let have = new Map<number, File>();
    const wanted = (wish: FrameWish): readonly number[] => {
      const all = (measuring?.sources ?? []).map((_, index) => index);
      // A picture says all by itself; a film has the take's clock and its other side in the others.
      return measuring?.kind === 'pictures' && wish.sourceIndex !== null ? [wish.sourceIndex] : all;
    };
    const missingOf = (wish: FrameWish): readonly number[] => wanted(wish).filter((index) => !have.has(index));
    const asks = (wish: FrameWish, words: string | null): void => {
      const missing = missingOf(wish);
      const canGoOn = wish.sourceIndex === null ? have.size > 0 : have.has(wish.sourceIndex);
      set({ now: { kind: 'asks', wish, pictures: measuring?.kind === 'pictures', missing: missing.map((index) => measuring!.sources[index]!.name), canGoOn, words } });
    };
    const opened = async (wish: FrameWish): Promise<void> => {
      const files = [...have].toSorted(([a], [b]) => a - b).map(([, file]) => file);
      set({ now: { kind: 'none' } });
      have = new Map();
      const at = count;
      const shown = measuring!;
      await open(shown, files);
      if (at === count) show(shown.sources[wish.sourceIndex ?? 0]!, wish.frameS);
    };
    return {
      now: { kind: 'none' },
      ask: async (wish) => {
        count += 1;
        const at = count;
        measuring = measuringOf(wish.measuringId);
        have = new Map();
        set({ now: { kind: 'none' } });
        const source = measuring?.sources[wish.sourceIndex ?? 0];
        if (measuring === null || source === undefined) return;
        const { files, measuringId } = openNow();
        if (wish.sourceIndex === null ? measuringId === measuring.id : files.some((one) => isSameFile(one, source))) {
          show(source, wish.frameS);
          return;
        }
        if (files.length > 0) {
          set({ now: { kind: 'busy', wish, names: namesOf(files) } });
          return;
        }
        for (const index of wanted(wish)) {
          const got = await shelf.get(measuring.id, index);
          if (at !== count) return;
          if (got.kind === 'film') have.set(index, new File([got.blob], got.name, { type: got.blob.type }));
        }
        if (missingOf(wish).length === 0) await opened(wish);
        else asks(wish, null);
      },
      closeAndGoOn: async () => {
        const { now } = get();
        if (now.kind !== 'busy') return;
        close();
        await get().ask(now.wish);
      },
      choose: async (files) => {
        const { now } = get();
        if (now.kind !== 'asks') return;
        const at = count;
        const strange: string[] = [];
        for (const file of files) {
          const known = await mark(file).catch(() => null);
          if (at !== count) return;
          const index = known === null ? undefined : missingOf(now.wish).find((one) => isSameFile(measuring!.sources[one]!, known));
          if (index === undefined) strange.push(file.name);
          else have.set(index, file);
        }
        if (missingOf(now.wish).length === 0) await opened(now.wish);
        else asks(now.wish, strange.length === 0 ? null : strangeWords(strange));
      },
      goOn: async () => {
        const { now } = get();
        if (now.kind === 'asks' && now.canGoOn) await opened(now.wish);
      },
      leave: () => {
        count += 1;
        have = new Map();
        set({ now: { kind: 'none' } });
      },
    };
  });
}

function namesOf(files: readonly FileMark[]): string {
  const [first, ...others] = files;
  return others.length === 0 ? first!.name : sayMarking('andOtherFiles', { first: first!.name, count: others.length });
}

const strangeWords = (names: readonly string[]): string => sayMarking('strange', { files: names.join(', ') });
