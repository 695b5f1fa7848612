/** What the part on scans is given. */
import type { ArchFamily, PlayerRecord } from '../../core/specs';
import type { Vec3 } from '../../core/vector';
import type { KeptScan } from '../../records/scanShelf';
import type { ComparedSeats } from '../../scans/compareSeats';
import type { ScanPicture } from '../../scans/drawScan';
import type { GapField } from '../../scans/gapField';
import type { JawReady, JawSettled, ScanOpened } from '../../scans/scanDesk';
import type { ScanUnit } from '../../scans/scanUnits';
import type { PictureSize, ScanView } from '../../scans/scanView';
import type { JawName } from '../../scans/startView';

export type ToothName = 'right' | 'front' | 'left';
export const TEETH: readonly ToothName[] = ['right', 'front', 'left'];
export type SideTeeth = 'canines' | 'molars';
/** In the scan's own axes and unit. */
export type Marks = Readonly<Partial<Record<ToothName, Vec3>>>;

export interface JawWork {
  /** Empty, or what a worker is at; open: it waits for a person. */
  readonly phase: 'empty' | 'reading' | 'open' | 'settling' | 'preparing';
  /** Of what a worker is at, 0 to 1. */
  readonly part: number;
  readonly fileName: string;
  readonly opened: ScanOpened | null;
  /** Null until a person has said which of several it is. */
  readonly unit: ScanUnit | null;
  readonly sides: SideTeeth;
  readonly marks: Marks;
  /** Null: the nearest. */
  readonly family: ArchFamily | null;
  readonly settled: JawSettled | null;
  readonly ready: { readonly field: GapField; readonly packed: JawReady['packed'] } | null;
  /** Why the last thing asked for was refused, in words. */
  readonly refusal: string | null;
}

/** What the scans make of the notes' angles. */
export type NotesCompared =
  | { readonly kind: 'none' }
  | { readonly kind: 'waiting' }
  | { readonly kind: 'compared'; readonly notes: readonly { readonly note: string; readonly seats: ComparedSeats }[] };

/** Pictures of the scan on the desk; null where there is none any more. */
export interface PictureSource {
  picture(view: ScanView, size: PictureSize, withDifferences: boolean): Promise<ScanPicture | null>;
  frontView(size: PictureSize): Promise<ScanView | null>;
}

export interface JawEdits {
  onFile(jaw: JawName, file: File): void;
  onAway(jaw: JawName): void;
  onStop(jaw: JawName): void;
  onUnit(jaw: JawName, unit: ScanUnit): void;
  onSides(jaw: JawName, sides: SideTeeth): void;
  onFamily(jaw: JawName, family: ArchFamily | null): void;
  onMark(jaw: JawName, tooth: ToothName, place: Vec3): void;
  onSettle(jaw: JawName): void;
}

export interface ScanPartProps extends JawEdits {
  readonly record: PlayerRecord;
  readonly upper: JawWork;
  readonly lower: JawWork;
  readonly notes: NotesCompared;
  readonly message: string | null;
  /** Of everybody. */
  readonly kept: readonly KeptScan[];
  /** The record's own scan is at hand, so that the rim can rest on it. */
  readonly isAtHand: boolean;
  readonly onScan: boolean;
  pictures(jaw: JawName): PictureSource | null;
  noteLabel(note: string): string;
  onRestOn(scan: boolean): void;
  onAccept(keep: boolean): void;
  /** Without `id`, all. */
  onForget(id?: string): void;
}
