/** What the part of the chapter on films is given: plain data and callbacks; nothing of the store. */
import type { ViewFrom } from '../../../measure/marks';
import type { EntryStyle } from '../../props';
import type { DraftMarks, MarkId } from '../marksEdits';
import type { LensShown } from '../props';
import type { LostCost } from './lostWords';
import type { NotesListProps } from '../timeLine/NotesList';
import type { Stretch } from '../timeLine/props';

export interface OpenFilmShown {
  readonly id: string;
  readonly name: string;
  readonly view: ViewFrom;
  /** Sentences about what is unusual in it. */
  readonly told: readonly string[];
  /** All marks put in any of its frames. */
  readonly marks: DraftMarks;
  /** How many of its frames were marked. */
  readonly markedFrames: number;
  readonly hornMarkMm: DraftMarks['hornMarkMm'];
  readonly followed: FollowedShown | null;
  /** null: it is the first film, whose clock the take goes by. */
  readonly offset: { readonly seconds: number | null; readonly words: string } | null;
}

export interface LostShown extends Stretch {
  readonly what: string;
  readonly cost: LostCost;
}

export interface FollowedShown {
  readonly frames: number;
  /** Sentences: what was not followed, what could not be told. */
  readonly problems: readonly string[];
  readonly lost: readonly LostShown[];
  /** What was changed since. */
  readonly isBehind: 'marks' | 'view' | null;
}

export interface WorkingShown {
  readonly words: string;
  readonly part: number | null;
  readonly leftS: number | null;
}

export interface FilmPartProps extends Omit<NotesListProps, 'nameOf' | 'midiNamed' | 'allowedNames' | 'sideways'> {
  readonly films: readonly OpenFilmShown[];
  readonly shownId: string | null;
  readonly active: MarkId | null;
  readonly snaps: boolean;
  readonly working: WorkingShown | null;
  readonly lens: LensShown;
  readonly outerDiameterMm: number;
  readonly entry: EntryStyle;
  /** In words; null: unclear, or the notes were tapped. */
  readonly tuning: string | null;
  /** The sounding home note; null: none yet. */
  readonly homeMidi: number | null;
  /** The lesson names it: it is not to be chosen here. */
  readonly isHomeGiven: boolean;
  readonly canUndoNotes: boolean;
  readonly canRedoNotes: boolean;
  /** What to look at before accepting, the worst first; where to go for it, the take's time, and in which film. */
  readonly beforeAccepting: readonly { readonly words: string; readonly goTo: { readonly filmId: string; readonly timeS: number } | null }[];
  readonly lessonName: string;
  readonly isLocked: boolean;
  /** The film itself stays in this browser when its readings are accepted. */
  readonly keepsFilm: boolean;
  /** It was kept with this measuring already. */
  readonly isFilmKept: boolean;
  readonly accepted: string | null;
  /** What is shown is not yet worked out from the notes, lens and rim as they are. */
  readonly isSolving: boolean;
  onShow(id: string): void;
  onCloseFilm(id: string): void;
  onActivate(id: MarkId): void;
  onTake(id: MarkId): void;
  onSnaps(on: boolean): void;
  onView(view: ViewFrom): void;
  onLens(millimetres: number | null): void;
  onHornMark(mark: DraftMarks['hornMarkMm']): void;
  onOffset(seconds: number): void;
  onFollow(): void;
  onStop(): void;
  onTime(timeS: number): void;
  /** Shows a film at a time of the take. */
  onGoTo(filmId: string, timeS: number): void;
  onHome(midi: number): void;
  onUndoNotes(): void;
  onRedoNotes(): void;
  onKeepsFilm(on: boolean): void;
  onAccept(): void;
  onClose(): void;
}
