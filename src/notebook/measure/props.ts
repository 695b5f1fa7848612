/** What the chapter on pictures is given: plain data and callbacks; nothing of the store. */
import type { ReactNode } from 'react';
import type { ShareMeaning } from '../../core/lipLine';
import type { ViewFrom } from '../../measure/marks';
import type { PictureResult } from '../../measure/pictureResult';
import type { EntryStyle } from '../props';
import type { DraftMarks, MarkId } from './marksEdits';

export interface OpenPicture {
  readonly id: string;
  readonly name: string;
  readonly note: string | null;
  readonly view: ViewFrom;
  readonly marks: DraftMarks;
  readonly result: PictureResult;
}

/** The focal length as a person knows it: that of a full-frame camera that would see as much. */
export interface LensShown {
  readonly millimetres: number;
  readonly from: 'picture' | 'person' | 'assumed';
}

export interface MeasureChapterProps {
  /** What stands here while films are open; null: none is. */
  readonly film: ReactNode;
  readonly pictures: readonly OpenPicture[];
  readonly shownId: string | null;
  readonly homeId: string | null;
  /** Why travel is not counted from the chosen home picture; null: it is. */
  readonly homeRefused: string | null;
  readonly active: MarkId | null;
  readonly snaps: boolean;
  readonly isOpening: boolean;
  readonly refusals: readonly string[];
  readonly lens: LensShown | null;
  readonly outerDiameterMm: number;
  readonly shareBy: ShareMeaning;
  readonly entry: EntryStyle;
  /** Whose lesson the readings would go into. */
  readonly lessonName: string;
  /** Another tab has this player. */
  readonly isLocked: boolean;
  /** What the last accepting did, or why it could not; null: nothing yet. */
  readonly accepted: string | null;
  /** What is asked before a kept measuring can be opened again; draws nothing else. */
  readonly asked: ReactNode;
  /** What this lesson holds already. */
  readonly kept: ReactNode;
  onFiles(files: readonly File[]): void;
  onClose(): void;
  onRemove(id: string): void;
  onShow(id: string): void;
  onActivate(id: MarkId | null): void;
  onTake(id: MarkId): void;
  onSnaps(on: boolean): void;
  onView(view: ViewFrom): void;
  onNote(note: string | null): void;
  onHome(id: string): void;
  onLens(millimetres: number | null): void;
  onHornMark(mark: DraftMarks['hornMarkMm']): void;
  onUndo(): void;
  onRedo(): void;
  onAccept(): void;
}
