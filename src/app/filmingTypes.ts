/** What a session of measuring films is made of, and what it is given. Times are the take's own clock unless they are said to be a film's own. */
import type { StoreApi } from 'zustand/vanilla';
import type { SoundOffset } from '../measure/alignSound';
import type { FileMark } from '../measure/fileMark';
import type { SoundOverview, WholeSound } from '../measure/filmSound';
import type { Followed } from '../measure/followFilm';
import type { HeadFilm, NoHeadFilm } from '../measure/headFromFilm';
import type { ViewFrom } from '../measure/marks';
import type { FilmFacts } from '../measure/openFilm';
import type { GreyPicture, Point } from '../measure/picture';
import type { FilmProgress } from '../measure/progress';
import type { FilmTrace, NoteHeard } from '../measure/traces';
import type { DraftMarks } from '../notebook/measure/marksEdits';
import type { FilmAnchorDraft } from '../notebook/measure/anchorEdits';
import type { KeptFilm } from './filmsInLesson';
import type { History } from './history';
import type { Marking } from './marking';
import type { AnchorsKeeper } from './marksKept';

export interface ShownFrame {
  readonly index: number;
  readonly timeS: number;
  readonly bitmap: ImageBitmap;
}

/** What was heard in a film: notes on the film's own clock. */
export interface Heard {
  readonly notes: readonly NoteHeard[];
  /** The take's tuning off A4 = 440 Hz, cents; null: unclear. */
  readonly tuningCents: number | null;
  /** A sentence where the sound could not be read to its end; null: it could. */
  readonly words: string | null;
}

/** One open film, read and followed beside the page. */
export interface FilmWork {
  readonly facts: FilmFacts;
  /** Beginning of every frame, the film's own clock. */
  readonly frameTimesS: Float64Array;
  /** null where a later wish overtook this one. */
  frame(index: number): Promise<ShownFrame | null>;
  overview(buckets: number, signal?: AbortSignal): Promise<SoundOverview | null>;
  /** null: no sound, or stopped. */
  hear(range: { readonly lowMidi: number; readonly highMidi: number }, signal: AbortSignal, onProgress: (progress: FilmProgress) => void): Promise<Heard | null>;
  /** null: no sound, or stopped. */
  sound(signal?: AbortSignal): Promise<WholeSound | null>;
  /** When another film of the take began against this one; its samples are handed over. */
  align(other: WholeSound, signal?: AbortSignal): Promise<SoundOffset | null>;
  /** null: stopped. */
  follow(asked: FollowAsked, signal: AbortSignal, onProgress: (progress: FilmProgress) => void): Promise<FollowedTrace | null>;
  /** The head's own frame through the film, from what was followed. */
  head(asked: HeadAsked): Promise<HeadFilm | NoHeadFilm>;
  close(): void;
}

export interface FollowAsked {
  readonly view: ViewFrom;
  readonly anchors: readonly FilmAnchorDraft[];
}

export interface HeadAsked {
  readonly trace: FilmTrace;
  readonly lensMm: number | null;
  readonly hornMarkMm: DraftMarks['hornMarkMm'];
  /** Frames of each note's steady part, in which the rim rests on the head. */
  readonly steady: readonly (readonly number[])[];
}

export type FilmOpening =
  | { readonly kind: 'film'; readonly work: FilmWork; readonly file: FileMark }
  /** One sentence that says what to do. */
  | { readonly kind: 'refused'; readonly words: string };

export type FollowedTrace = Omit<Extract<Followed, { kind: 'followed' }>, 'kind'>;

export interface FollowedFrom extends FollowedTrace {
  /** The marks that it was followed from. */
  readonly anchors: readonly FilmAnchorDraft[];
  /** From a view from the front: the head's own frame; null: another view, or not worked out yet. */
  readonly head: HeadFilm | NoHeadFilm | null;
  /** What the head was worked out from; null: not yet. */
  readonly headFrom: HeadFrom | null;
}

export interface HeadFrom extends Pick<FilmSource, 'lensMm' | 'hornMarkMm' | 'offsetS' | 'work'> {
  readonly notes: readonly NoteHeard[];
  readonly outerDiameterMm: number;
}

export interface FilmSource {
  readonly id: string;
  readonly file: FileMark;
  /** The file itself: kept only if the person asks for it. */
  readonly original: Blob;
  readonly work: FilmWork;
  readonly view: ViewFrom;
  /** Full-frame focal length as a person typed it, mm; null: assumed. */
  readonly lensMm: number | null;
  readonly hornMarkMm: DraftMarks['hornMarkMm'];
  readonly anchors: History<readonly FilmAnchorDraft[]>;
  /** The frame that is wished for, and the one that has come. */
  readonly frameIndex: number;
  readonly frame: ShownFrame | null;
  readonly overview: SoundOverview | null;
  readonly followed: FollowedFrom | null;
  /** To be added to its own times to give the take's; null: not known, or unclear. The first film's is 0. */
  readonly offsetS: number | null;
  /** By what the offset was found, in words; empty for the first film. */
  readonly offsetWords: string;
}

export interface Working {
  readonly kind: 'opening' | 'hearing' | 'following' | 'aligning';
  readonly filmId: string | null;
  /** 0 to 1; null: not known yet. */
  readonly part: number | null;
  readonly leftS: number | null;
}

export interface FilmingState extends Marking {
  /** By which the lesson keeps what is accepted of these films: accepted again, it takes its own place. */
  readonly measuringId: string;
  readonly films: readonly FilmSource[];
  readonly shownId: string | null;
  readonly notes: History<readonly NoteHeard[]>;
  readonly tuningCents: number | null;
  readonly selectedNote: number | null;
  /** Which note travel is counted from, where the lesson names none. */
  readonly homeMidi: number | null;
  readonly working: Working | null;
  readonly refusals: readonly string[];

  open(files: readonly File[], range: { readonly lowMidi: number; readonly highMidi: number }): Promise<void>;
  close(): void;
  remove(id: string): void;
  show(id: string): void;
  /** Shows the frame that stands at a time of the take. */
  goTo(timeS: number): void;
  stepFrames(by: number): void;
  setLens(millimetres: number | null): void;
  setHornMark(mark: DraftMarks['hornMarkMm']): void;
  setOffset(offsetS: number): void;
  follow(): Promise<void>;
  /** Ends whatever is being worked at. */
  stop(): void;
  editNotes(edit: (notes: readonly NoteHeard[]) => readonly NoteHeard[], key?: string | null): void;
  settleNotes(): void;
  undoNotes(): void;
  redoNotes(): void;
  selectNote(index: number | null): void;
  setHome(midi: number | null): void;
  /** The lesson's rim is another one: millimetres come from it. */
  rimChanged(): void;
  /** A head that was followed is not yet that of the notes, lens and rim that are shown. */
  isHeadBehind(): boolean;
  /** Works such heads out at once. */
  headsSettled(): Promise<void>;
}

export interface FilmingParts {
  open(file: File): Promise<FilmOpening>;
  snap(picture: GreyPicture, point: Point): Point;
  /** Brightness of a shown frame, for snapping. */
  greyOf(frame: ShownFrame): GreyPicture;
  /** To be added to the other film's times; null: unclear. */
  align(first: FilmWork, other: FilmWork, signal: AbortSignal): Promise<{ readonly offsetS: number; readonly sdS: number } | null>;
  readonly keeper: AnchorsKeeper;
  /** What a kept lesson holds of a file, in the measuring that is named, or in any; null: nothing. */
  keptElsewhere(file: FileMark, measuringId?: string): { readonly film: KeptFilm; readonly isWished: boolean } | null;
  /** Of the rim of the lesson on the page, mm. */
  outerDiameterMm(): number;
  /** Does it when nothing has been asked for a moment. */
  rest(work: () => void): void;
  newId(): string;
}

export type FilmingStore = StoreApi<FilmingState>;
