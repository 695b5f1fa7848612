/** What a column of readings is: types shared by the columns and by whoever shows or reads their cells. */
import type { NoteStyle } from '../core/noteNaming';
import type { ReadingSpec } from '../core/specs';
import type { CellForm, NumberStyle } from './cellText';

/** In a file's own order. A column that comes later stands behind the others, so that a table without a header still means what it did. */
export const COLUMN_IDS = [
  'note', 'take', 'direction',
  'travelUp', 'travelRight', 'travelSd',
  'hornUp', 'hornRight', 'hornSd',
  'airstream', 'upperLipShare', 'ease', 'remark', 'method',
  'jawOpening', 'jawForward', 'jawHinge', 'force',
  'hornRightSd', 'travelRightSd',
] as const;
export type ColumnId = (typeof COLUMN_IDS)[number];

/** How cells are shown and read. */
export interface CellStyle extends NoteStyle, NumberStyle {
  readonly form: CellForm;
  /** The length in which travel up and right are typed (its deviation stays in mm); absent, millimetres. */
  readonly travelUnit?: { readonly mm: number; readonly words: string } | undefined;
  /** −1 where sideways is typed as seen facing the player; absent, 1: the player's own right. */
  readonly sidewaysSign?: 1 | -1 | undefined;
}

/** Null: an empty cell. */
export type CellValue = string | number | null;

export type CellReading =
  | { readonly kind: 'value'; readonly value: CellValue }
  /** `allowed` says what may stand there, for a sentence that begins "Allowed:". */
  | { readonly kind: 'wrong'; readonly allowed: string };

export interface ReadingColumn {
  readonly id: ColumnId;
  /** In words with the unit, as it heads a file's column: "Travel up (mm)", in the language set. */
  readonly header: string;
  /** Under a heading that names the group: "up". */
  readonly label: string;
  readonly group: 'Travel' | 'Horn' | 'Jaw' | null;
  readonly unit: 'mm' | '°' | 'N' | '';
  readonly kind: 'note' | 'number' | 'choice' | 'text';
  /** For `choice` columns, in order: the kept value and its word. */
  readonly choices: readonly { readonly value: string; readonly word: string }[];
  /** Names under which the column is known in a file, whichever language is set, in plainWords' form. */
  readonly names: readonly string[];
  allowed(style: CellStyle): string;
  /** The cell's text; empty where the reading says nothing, and in the page also where nobody saw the angle. */
  show(reading: ReadingSpec, style: CellStyle): string;
  /** Never throws. */
  read(text: string, style: CellStyle): CellReading;
  /** Why the reading cannot have this cell now (a deviation without its number); null where it can. */
  refuses(reading: ReadingSpec): string | null;
  /** The reading with this value, null for an emptied cell. The value is one that `read` gave; an emptied note changes nothing. */
  set(reading: ReadingSpec, value: CellValue): ReadingSpec;
}
