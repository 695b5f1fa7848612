/** What the part on the own arch is given. */
import type { NoteBudget } from '../../core/ownArch/budget';
import type { NoPrintFit, PrintFit } from '../../core/ownArch/fitPrint';
import type { SplineFit } from '../../core/ownArch/fitSpline';
import type { BitePrintSpec, PlayerRecord } from '../../core/specs';
import type { GreyPicture } from '../../measure/picture';
import type { ArchChoice, ChangeRecord } from '../props';

export interface BudgetShown {
  /** Of every reading, in the analysis's order; null until it is known, and where there is none. */
  readonly budget: readonly NoteBudget[] | null;
  /** Why it could not be worked out. */
  readonly failure: string | null;
  /** What is shown is of an earlier record. */
  readonly behind: boolean;
}

/** A picture of a print made ready, upright. */
export interface PrintPictureFile {
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly shown: ImageBitmap;
  /** The same made smaller, for showing the whole; null where it is small itself. */
  readonly small: ImageBitmap | null;
  readonly grey: GreyPicture;
}

/** What is fitted to a print. */
export interface PrintForms {
  readonly kind: 'forms';
  /** Of every family that can be fitted, the better ones first. */
  readonly fits: readonly PrintFit[];
  /** Off the best of them; null where the points make none. */
  readonly free: FreeForm | null;
}

export type FreeForm = Pick<SplineFit, 'form' | 'places' | 'frontAt' | 'rmsMm' | 'aicc'>;

/** What a print needs of the page. */
export interface PrintDoors {
  /** Never rejects: a sentence where the file is no picture. The bitmaps are the caller's to close. */
  open(file: File): Promise<PrintPictureFile | string>;
  /** All forms fitted beside the page; never rejects: a sentence's part where that cannot be, null where a newer print was asked about meanwhile. */
  fit(print: BitePrintSpec): Promise<PrintForms | NoPrintFit | string | null>;
  announce(words: string): void;
}

export interface OwnArchProps {
  readonly record: PlayerRecord;
  /** The chosen reading. */
  readonly selected: number;
  /** The ready-made ones; the first is the average. */
  readonly arches: readonly ArchChoice[];
  readonly shown: BudgetShown;
  readonly doors: PrintDoors;
  noteLabel(note: string): string;
  onChange: ChangeRecord;
  onSettle(): void;
}
