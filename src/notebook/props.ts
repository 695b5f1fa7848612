/** What the notebook's chapters are given: plain data and callbacks; nothing of the store. */
import type { NoteNaming } from '../core/noteNaming';
import type { ArchSpec, PlayerRecord, RimSpec, ToothSpec } from '../core/specs';
import type { LengthUnit, SidewaysEntry } from './entry';
import type { Posture } from '../print/instrumentWords';

export interface InstrumentChoice {
  readonly id: string;
  readonly name: string;
  readonly posture: Posture;
  /** Written minus sounding pitch, semitones. */
  readonly transpositionSemitones: number;
  /** The rim that goes with it when nothing else was chosen. */
  readonly rimId: string | null;
}

export interface ArchChoice {
  readonly id: string;
  readonly name: string;
  readonly arch: ArchSpec;
}

export interface RimChoice {
  readonly id: string;
  readonly name: string;
  readonly rim: RimSpec;
}

export interface PlayerChoice {
  readonly id: string;
  readonly name: string;
  readonly record: PlayerRecord;
}

/** Where a tooth stands along its arch: ISO 3950 number, middle by arc length (+ to the player's left), width. */
export type ToothPlace = Omit<ToothSpec, 'outMm'>;

export interface NotebookLibrary {
  /** The front teeth of both jaws. */
  readonly teeth: readonly ToothPlace[];
  readonly instruments: readonly InstrumentChoice[];
  readonly arches: readonly ArchChoice[];
  readonly rims: readonly RimChoice[];
  readonly players: readonly PlayerChoice[];
}

/**
 * A change to the record as it is at that moment (a part of the page need not be drawn again for every change of another);
 * changes in a row with one key are undone together.
 */
export type ChangeRecord = (edit: (record: PlayerRecord) => PlayerRecord, key?: string | null) => void;

/** How numbers are typed and notes are named. */
export interface EntryStyle {
  readonly sideways: SidewaysEntry;
  readonly unit: LengthUnit;
  readonly noteNames: 'sounding' | 'written';
  /** Absent: scientific. */
  readonly naming?: NoteNaming | undefined;
  /** Written minus sounding, semitones; 0 while sounding names are shown. */
  readonly shownTransposition: number;
}

/** What the reader may change of it. */
export type EntryChange = Partial<Pick<EntryStyle, 'sideways' | 'unit' | 'noteNames'>> & { readonly naming?: NoteNaming };
