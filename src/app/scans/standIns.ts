/** What stands in for which arch under the rim: the scans that are at hand on this page, by the `id` that an arch names them with. */
import { type StoreApi, createStore } from 'zustand/vanilla';
import type { MouthOf } from '../../core/arch';
import { scannedJaw } from '../../core/ownArch/scannedArch';
import type { ArchSpec } from '../../core/specs';
import type { ScannedFields } from '../../scans/scannedMouth';

export type Jaws = Readonly<Record<'upper' | 'lower', boolean>>;

/** Scans of one mouth, ready to rest a rim on. */
export interface StandIn {
  readonly fields: ScannedFields;
  /** Those that were scanned. */
  readonly jaws: Jaws;
  /** For the same jaws the very same, so that it can be told whether an analysis was made with it. */
  mouthOf(jaws: Jaws): MouthOf;
}

export interface StandInsState {
  readonly known: ReadonlyMap<string, StandIn>;
  /** False: the rim rests on the fitted arch, also where a scan is at hand. */
  readonly onScan: boolean;
  put(id: string, standIn: StandIn): void;
  forget(id?: string): void;
  restOn(scan: boolean): void;
}

export type StandIns = StoreApi<StandInsState>;

export const createStandIns = (): StandIns =>
  createStore<StandInsState>()((set, get) => ({
    known: new Map(),
    onScan: true,
    put: (id, standIn) => set({ known: new Map([...get().known, [id, standIn]]) }),
    forget: (id) => set({ known: new Map(id === undefined ? [] : [...get().known].filter(([one]) => one !== id)) }),
    restOn: (scan) => set({ onScan: scan }),
  }));

/** Null: the arch itself. Jaws changed by hand since they were fitted are no longer the scan's. */
export function mouthFor({ known, onScan }: Pick<StandInsState, 'known' | 'onScan'>, arch: ArchSpec): MouthOf | null {
  const id = 'single' in arch ? undefined : arch.scanned?.id;
  const standIn = id === undefined || !onScan ? undefined : known.get(id);
  if (standIn === undefined) return null;
  const jaws = { upper: standIn.jaws.upper && scannedJaw(arch, 'upper') !== null, lower: standIn.jaws.lower && scannedJaw(arch, 'lower') !== null };
  return jaws.upper || jaws.lower ? standIn.mouthOf(jaws) : null;
}
