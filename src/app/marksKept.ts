/** Marks kept in this browser by the file's size and check sums: a closed tab loses the picture or film only, and its marks are there when it is opened again. */
import type { FileMark } from '../measure/fileMark';
import type { ViewFrom } from '../measure/marks';
import type { FilmAnchorDraft } from '../notebook/measure/anchorEdits';
import { type DraftMarks, NO_MARKS } from '../notebook/measure/marksEdits';

/** Of a picture. */
export interface KeptMarks {
  readonly view: ViewFrom;
  /** Sounding, scientific; null: not said yet. */
  readonly note: string | null;
  readonly marks: DraftMarks;
}

/** Of a film, by its frames. */
export interface KeptAnchors {
  readonly view: ViewFrom;
  readonly anchors: readonly FilmAnchorDraft[];
}

export interface KeptByFile<Kept> {
  find(file: KnownFile): Kept | null;
  keep(file: KnownFile, kept: Kept): void;
  forget(file: KnownFile): void;
}

export type MarksKeeper = KeptByFile<KeptMarks>;
export type AnchorsKeeper = KeptByFile<KeptAnchors>;
export type KnownFile = Pick<FileMark, 'bytes' | 'digest'>;

type Storage = Pick<globalThis.Storage, 'getItem' | 'setItem'>;

const MARKS_KEY = 'rimpath.marks.1';
const ANCHORS_KEY = 'rimpath.filmMarks.1';
/** The marks of more files than this are forgotten, oldest first. */
const MOST_FILES = 60;
/** A film marked anew wherever it was lost. */
const MOST_ANCHORS = 100;

/** `storage` null, or one that refuses: nothing is kept, and nothing else changes. */
export const createMarksKeeper = (storage: Storage | null): MarksKeeper => keptByFile(storage, MARKS_KEY, readMarks);
export const createAnchorsKeeper = (storage: Storage | null): AnchorsKeeper => keptByFile(storage, ANCHORS_KEY, readAnchors);

/** `read`: null for what is not whole. */
function keptByFile<Kept>(storage: Storage | null, key: string, read: (value: unknown) => Kept | null): KeptByFile<Kept> {
  const nameOf = ({ bytes, digest }: KnownFile): string => `${bytes} ${digest}`;
  const entries = (): (readonly [string, unknown])[] => readEntries(storage, key);
  const write = (next: readonly (readonly [string, unknown])[]): void => {
    try {
      storage?.setItem(key, JSON.stringify(next.slice(-MOST_FILES)));
    } catch {
      // A full or closed storage: the marks live as long as the page.
    }
  };
  return {
    find: (file) => {
      const found = entries().find(([name]) => name === nameOf(file));
      return found === undefined ? null : read(found[1]);
    },
    keep: (file, kept) => write([...entries().filter(([name]) => name !== nameOf(file)), [nameOf(file), kept]]),
    forget: (file) => write(entries().filter(([name]) => name !== nameOf(file))),
  };
}

function readEntries(storage: Storage | null, key: string): (readonly [string, unknown])[] {
  try {
    const value: unknown = JSON.parse(storage?.getItem(key) ?? '[]');
    return Array.isArray(value) ? value.filter((one): one is [string, unknown] => Array.isArray(one) && typeof one[0] === 'string') : [];
  } catch {
    return [];
  }
}

/** What was kept by this program alone; anything that is not whole is as if it were not there. */
function readMarks(value: unknown): KeptMarks | null {
  if (!isObject(value) || !isObject(value['marks']) || !isView(value['view'])) return null;
  return { view: value['view'], note: typeof value['note'] === 'string' ? value['note'] : null, marks: draftOf(value['marks']) };
}

function readAnchors(value: unknown): KeptAnchors | null {
  if (!isObject(value) || !Array.isArray(value['anchors']) || !isView(value['view'])) return null;
  const anchors = value['anchors'].flatMap((one: unknown): FilmAnchorDraft[] =>
    isObject(one) && isNumber(one['timeS']) && isObject(one['marks']) ? [{ timeS: one['timeS'], marks: draftOf(one['marks']) }] : []);
  return { view: value['view'], anchors: anchors.slice(0, MOST_ANCHORS).toSorted((a, b) => a.timeS - b.timeS) };
}

function draftOf(kept: Record<string, unknown>): DraftMarks {
  const points = (of: unknown): DraftMarks['rim'] => (Array.isArray(of) ? of.filter(isPoint) : []);
  const named = (of: unknown): object => (isObject(of) ? Object.fromEntries(Object.entries(of).filter(([, point]) => isPoint(point))) : {});
  const mark = kept['hornMarkMm'];
  return {
    ...NO_MARKS,
    rim: points(kept['rim']),
    lipLine: points(kept['lipLine']),
    landmarks: named(kept['landmarks']),
    level: named(kept['level']),
    horn: named(kept['horn']),
    hornMarkMm: isObject(mark) && isNumber(mark['value']) && isNumber(mark['sd']) ? { value: mark['value'], sd: mark['sd'] } : null,
  };
}

const VIEW_NAMES: readonly unknown[] = ['front', 'right', 'left', 'above'] satisfies ViewFrom[];
const isView = (value: unknown): value is ViewFrom => VIEW_NAMES.includes(value);
const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
const isPoint = (value: unknown): value is { x: number; y: number } => isObject(value) && isNumber(value['x']) && isNumber(value['y']);
