/** The work on one mouth's scans, as the page holds it. */
import type { StoreApi } from 'zustand/vanilla';
import type { Analysis } from '../../core/analysis';
import type { ArchFamily, PlayerRecord } from '../../core/specs';
import type { Vec3 } from '../../core/vector';
import type { JawWork, NotesCompared, SideTeeth, ToothName } from '../../notebook/scan/props';
import type { KeptScan } from '../../records/scanShelf';
import type { ScanUnit } from '../../scans/scanUnits';
import type { JawName } from '../../scans/startView';
import type { ScanDoor } from '../../workers/scanDoor';

export interface ScanningState {
  readonly upper: JawWork;
  readonly lower: JawWork;
  readonly notes: NotesCompared;
  /** What is kept in this browser, of everybody. */
  readonly kept: readonly KeptScan[];
  /** Said after something was done; null: nothing to say. */
  readonly message: string | null;
  open(jaw: JawName, file: File): Promise<void>;
  /** Ends whatever is done with it, and puts it away. */
  away(jaw: JawName): void;
  /** Ends what is done with it: of a fit the file and the marks stay, of a file being read nothing. */
  stop(jaw: JawName): Promise<void>;
  setUnit(jaw: JawName, unit: ScanUnit): void;
  setSides(jaw: JawName, sides: SideTeeth): void;
  setFamily(jaw: JawName, family: ArchFamily | null): void;
  mark(jaw: JawName, tooth: ToothName, place: Vec3): void;
  settle(jaw: JawName): Promise<void>;
  door(jaw: JawName): ScanDoor | null;
  /** What the jaws that are ready make of the angles, worked out anew. */
  compare(): Promise<void>;
  /** Into the record, and onto the shelf if asked for. */
  accept(keep: boolean): Promise<void>;
  /** Without `id`, all scans kept here. */
  forget(id?: string): Promise<void>;
  refreshKept(): Promise<void>;
  /** Everything is put away. */
  close(): void;
}

export type ScanningStore = StoreApi<ScanningState>;

export interface ScanningParts {
  record(): PlayerRecord;
  /** Whose mouth it is. */
  playerId(): string;
  /** `made`: an analysis of what the record changes to. */
  change(edit: (record: PlayerRecord) => PlayerRecord, made?: Analysis): void;
}
