/** Marks kept in this browser by the file's size and check sums: a closed tab loses the picture or film only, and its marks are there when it is opened again. */
import type { FileMark } from '../measure/fileMark';
import type { ViewFrom } from '../measure/marks';
import type { NoteHeard } from '../measure/traces';
import type { FilmAnchorDraft } from '../notebook/measure/anchorEdits';
import { type DraftMarks, NO_MARKS } from '../notebook/measure/marksEdits';

/** Of a picture. */
export interface KeptMarks {
  readonly view: ViewFrom;
  /** Sounding, scientific; null: not said yet. */
  readonly note: string | null;
  readonly marks: DraftMarks;
}

/** Of a film, by its frames. What is absent was not kept by the version that wrote it, or not said. */
export interface KeptAnchors {
  readonly view: ViewFrom;
  readonly anchors: readonly FilmAnchorDraft[];
  /** Full-frame focal length, mm; null: assumed. */
  readonly lensMm?: number | null;
  readonly hornMarkMm?: DraftMarks['hornMarkMm'];
  /** To be added to its times to give those of the film that it was brought together with. */
  readonly began?: { readonly first: KnownFile; readonly offsetS: number };
  /** Of the take whose clock this film gives. */
  readonly take?: KeptTake;
}

export interface KeptTake {
  /** As a hand has set or changed them; null: as they were heard. */
  readonly notes: readonly NoteHeard[] | null;
  readonly tuningCents: number | null;
  /** The sounding note that travel counts from; null: not chosen here. */
  readonly homeMidi: number | null;
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
/** What came to it later may be absent, so that its number has stayed. */
const ANCHORS_KEY = 'rimpath.filmMarks.1';
/** The marks of more files than this are forgotten, oldest first. */
const MOST_FILES = 60;
/** A film marked anew wherever it was lost; a lesson keeps no more. */
export const MOST_ANCHORS = 100;
/** A lesson keeps no more of them either. */
const MOST_NOTES = 2000;

/** `storage` null, or one that refuses: nothing is kept, and nothing else changes. */
export const createMarksKeeper = (storage: Storage | null): MarksKeeper => keptByFile(storage, MARKS_KEY, readMarks);
export const createAnchorsKeeper = (storage: Storage | null): AnchorsKeeper => keptByFile(storage, ANCHORS_KEY, readAnchors);

/** The marks of a measuring's files, once it is deleted: who deletes marks means these too. */
export function forgetMarks(keepers: readonly Pick<KeptByFile<never>, 'forget'>[], files: readonly KnownFile[]): void {
  for (const keeper of keepers) for (const file of files) keeper.forget(file);
}

/** `read`: null for what is not whole. */
function keptByFile<Kept>(storage: Storage | null, key: string, read: (value: unknown) => Kept | null): KeptByFile<Kept> {
  const nameOf = ({ bytes, digest }: KnownFile): string => `${bytes} ${digest}`;
  const entries = (): (readonly [string, unknown])[] => readEntries(storage, key);
  const write = (next: readonly (readonly [string, unknown])[]): void => {
    // A full storage forgets the oldest files; one that takes nothing at all is closed, and the marks live as long as the page.
    for (let most = MOST_FILES; most >= 1; most = Math.floor(most / 2)) {
      try {
        storage?.setItem(key, JSON.stringify(next.slice(-most)));
        return;
      } catch {
        // Fewer of them may go in.
      }
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
  const { lensMm, began, take } = value;
  const hornMarkMm = hornMarkOf(value['hornMarkMm']);
  return {
    view: value['view'],
    anchors: anchors.slice(0, MOST_ANCHORS).toSorted((a, b) => a.timeS - b.timeS),
    ...((lensMm === null || isAbove(lensMm, 0)) && { lensMm }),
    ...((value['hornMarkMm'] === null || hornMarkMm !== null) && { hornMarkMm }),
    ...(isObject(began) && isNumber(began['offsetS']) && isFile(began['first']) && { began: { first: began['first'], offsetS: began['offsetS'] } }),
    ...(isObject(take) && { take: readTake(take) }),
  };
}

function readTake({ notes, tuningCents, homeMidi }: Record<string, unknown>): KeptTake {
  const read = Array.isArray(notes) ? notes.map(readNote) : [null];
  return {
    // Notes in part would be wrong ones: they are heard anew.
    notes: read.length <= MOST_NOTES && read.every((note) => note !== null) ? read.toSorted((a, b) => a.startS - b.startS) : null,
    tuningCents: isNumber(tuningCents) ? tuningCents : null,
    homeMidi: isMidi(homeMidi) ? homeMidi : null,
  };
}

function readNote(value: unknown): NoteHeard | null {
  if (!isObject(value)) return null;
  const { startS, endS, midi, cents } = value;
  if (!isNumber(startS) || !isNumber(endS) || !(endS > startS)) return null;
  if (!(midi === null || isMidi(midi)) || !(cents === null || isNumber(cents))) return null;
  return { startS, endS, midi, cents };
}

function draftOf(kept: Record<string, unknown>): DraftMarks {
  const points = (of: unknown): DraftMarks['rim'] => (Array.isArray(of) ? of.filter(isPoint) : []);
  const named = (of: unknown): object => (isObject(of) ? Object.fromEntries(Object.entries(of).filter(([, point]) => isPoint(point))) : {});
  return {
    ...NO_MARKS,
    rim: points(kept['rim']),
    lipLine: points(kept['lipLine']),
    landmarks: named(kept['landmarks']),
    level: named(kept['level']),
    horn: named(kept['horn']),
    hornMarkMm: hornMarkOf(kept['hornMarkMm']),
  };
}

const hornMarkOf = (mark: unknown): DraftMarks['hornMarkMm'] =>
  isObject(mark) && isAbove(mark['value'], 0) && isAbove(mark['sd'], 0) ? { value: mark['value'], sd: mark['sd'] } : null;

const VIEW_NAMES: readonly unknown[] = ['front', 'right', 'left', 'above'] satisfies ViewFrom[];
const isView = (value: unknown): value is ViewFrom => VIEW_NAMES.includes(value);
const isObject = (value: unknown): value is Record<string, unknown> => typeof value === 'object' && value !== null && !Array.isArray(value);
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
const isAbove = (value: unknown, least: number): value is number => isNumber(value) && value > least;
const isMidi = (value: unknown): value is number => isNumber(value) && value >= 0 && value <= 127;
const isFile = (value: unknown): value is KnownFile => isObject(value) && isNumber(value['bytes']) && typeof value['digest'] === 'string';
const isPoint = (value: unknown): value is { x: number; y: number } => isObject(value) && isNumber(value['x']) && isNumber(value['y']);
