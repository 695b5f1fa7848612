/** The work on one mouth's scans: opened, marked and settled jaw by jaw, compared with the arch, taken into the record, kept and forgotten. */
import { createStore } from 'zustand/vanilla';
import { type FittedToScan, scannedJaw, withScanned } from '../../core/ownArch/scannedArch';
import type { PlayerRecord } from '../../core/specs';
import type { JawWork } from '../../notebook/scan/props';
import { newId } from '../../records/newId';
import type { ScanShelf } from '../../records/scanShelf';
import { fieldOf } from '../../scans/jawParts';
import { rimReach } from '../../scans/rimReach';
import { MM_PER } from '../../scans/scanUnits';
import type { JawName } from '../../scans/startView';
import { sayScans } from '../../words/scans';
import { type ScanDoor, openScanDoor } from '../../workers/scanDoor';
import { analyseAhead, nextTask } from './analyseAhead';
import { compareNotes } from './compareNotes';
import { madeStandIn } from './madeStandIn';
import { reopenedDoor } from './reopenedDoor';
import type { ScanningParts, ScanningStore } from './scanningTypes';
import { type StandIns, mouthFor } from './standIns';
import { FIRST_PICTURE, usualProfile } from './scanChoices';

const JAWS: readonly JawName[] = ['upper', 'lower'];
const EMPTY: JawWork = {
  phase: 'empty', part: 0, fileName: '', opened: null, unit: null, sides: 'canines', marks: {}, family: null, settled: null, ready: null, refusal: null,
};

export function createScanning(page: ScanningParts, standIns: StandIns, shelf: ScanShelf, openDoor: () => ScanDoor = openScanDoor): ScanningStore {
  const doors: Partial<Record<JawName, ScanDoor>> = {};
  /** Behind each door. */
  const files: Partial<Record<JawName, File>> = {};
  /** The fit that each jaw waits for: another mark or unit, and its answer is wanted no more. */
  const runs: Partial<Record<JawName, object>> = {};
  /** Of whoever is on the page: what was begun for the one before says nothing to the next. */
  let sitting = {};
  let comparing: AbortController | null = null;
  let taking: AbortController | null = null;
  return createStore((set, get) => {
    const put = (jaw: JawName, changes: Partial<JawWork>): void => set({ [jaw]: { ...get()[jaw], ...changes } });
    const unsettled = { settled: null, ready: null, refusal: null } as const;
    /** What is changed is no longer what was fitted, or is being fitted. */
    const unsettle = (jaw: JawName, changes: Partial<JawWork>): void => {
      delete runs[jaw];
      put(jaw, { ...changes, ...unsettled, phase: 'open', part: 0 });
      void get().compare();
    };
    const end = (jaw: JawName): void => {
      doors[jaw]?.end();
      delete doors[jaw];
      delete files[jaw];
      delete runs[jaw];
    };
    const ready = (): readonly JawName[] => JAWS.filter((jaw) => get()[jaw].ready !== null);
    /** The record with the arch as it would be. */
    const proposed = (id: string): PlayerRecord => {
      const record = page.record();
      if ('single' in record.arch) return record;
      const jaws: Partial<Record<JawName, FittedToScan>> = {};
      for (const jaw of ready()) {
        const { spec, numbers, residualMm } = get()[jaw].settled!;
        jaws[jaw] = { spec, numbers, residualMm };
      }
      return { ...record, arch: withScanned(record.arch, id, jaws) };
    };
    const standIn = (): ReturnType<typeof madeStandIn> => {
      const [upper, lower] = [get().upper.ready?.field, get().lower.ready?.field];
      return madeStandIn({ ...(upper === undefined ? {} : { upper }), ...(lower === undefined ? {} : { lower }) });
    };
    /** Onto the shelf; answers in words what could not be kept. */
    const keptUnder = async (id: string, of: string, scans: readonly PackedJaw[]): Promise<string> => {
      let words = '';
      for (const { jaw, packed } of scans) {
        const answer = await shelf.put({ id, jaw, of }, packed);
        if (answer.kind === 'failed') words = ` ${sayScans('notKept', { why: answer.message })}`;
      }
      return words;
    };
    const compare = async (): Promise<void> => {
      comparing?.abort();
      comparing = new AbortController();
      const { signal } = comparing;
      if (ready().length === 0) {
        set({ notes: { kind: 'none' } });
        return;
      }
      set({ notes: { kind: 'waiting' } });
      const made = standIn();
      const notes = await compareNotes(proposed('compared'), made.mouthOf(made.jaws), signal);
      if (!signal.aborted) set({ notes: { kind: 'compared', notes } });
    };
    return {
      upper: EMPTY,
      lower: EMPTY,
      notes: { kind: 'none' },
      kept: [],
      message: null,
      compare,
      door: (jaw) => doors[jaw] ?? null,
      open: async (jaw, file) => {
        end(jaw);
        const door = openDoor();
        doors[jaw] = door;
        files[jaw] = file;
        put(jaw, { ...EMPTY, phase: 'reading', fileName: file.name });
        set({ message: null });
        const opened = await door.open(file, jaw, FIRST_PICTURE, (part) => put(jaw, { part }));
        if (doors[jaw] !== door || opened.kind === 'stopped') return;
        if (opened.kind === 'refused') {
          end(jaw);
          put(jaw, { ...EMPTY, fileName: file.name, refusal: opened.words });
        } else put(jaw, { phase: 'open', opened, unit: opened.unit?.sure === true ? opened.unit.unit : null });
        void compare();
      },
      away: (jaw) => {
        end(jaw);
        put(jaw, EMPTY);
        void compare();
      },
      stop: async (jaw) => {
        const file = files[jaw];
        const { phase, opened } = get()[jaw];
        if (file === undefined || opened === null) get().away(jaw);
        else if (phase === 'settling' || phase === 'preparing') {
          // A worker in the middle of a fit hears nothing: it is ended, and another one reads the file.
          end(jaw);
          const again = reopenedDoor(openDoor, file, jaw);
          doors[jaw] = again.door;
          files[jaw] = file;
          unsettle(jaw, {});
          const answer = await again.opened;
          if (doors[jaw] !== again.door || answer.kind !== 'refused') return;
          end(jaw);
          put(jaw, { ...EMPTY, fileName: file.name, refusal: answer.words });
        }
      },
      setUnit: (jaw, unit) => unsettle(jaw, { unit }),
      setSides: (jaw, sides) => unsettle(jaw, { sides, marks: { ...(get()[jaw].marks.front === undefined ? {} : { front: get()[jaw].marks.front }) } }),
      setFamily: (jaw, family) => put(jaw, { family }),
      mark: (jaw, tooth, place) => unsettle(jaw, { marks: { ...get()[jaw].marks, [tooth]: place } }),
      settle: async (jaw) => {
        const door = doors[jaw];
        const { unit, marks: { right, front, left }, family } = get()[jaw];
        if (door === undefined || unit === null || right === undefined || front === undefined || left === undefined) return;
        const run = {};
        runs[jaw] = run;
        const isWanted = (): boolean => doors[jaw] === door && runs[jaw] === run;
        const tell = (part: number): void => {
          if (isWanted()) put(jaw, { part });
        };
        put(jaw, { phase: 'settling', part: 0, ...unsettled });
        void compare();
        const settled = await door.settle({ jaw, mmPerUnit: MM_PER[unit], teeth: { right, front, left }, usual: usualProfile(jaw), only: family }, tell);
        if (!isWanted() || settled.kind === 'stopped') return;
        if (settled.kind === 'refused') {
          put(jaw, { phase: 'open', refusal: settled.words });
          return;
        }
        put(jaw, { phase: 'preparing', part: 0, settled });
        const made = await door.ready(rimReach(page.record(), jaw), tell);
        if (!isWanted()) return;
        put(jaw, { phase: 'open', ready: made && { field: fieldOf(made.parts), packed: made.packed }, ...(made === null ? { refusal: sayScans('unreadable') } : {}) });
        void compare();
      },
      accept: async (keep) => {
        const scans = ready().map((jaw): PackedJaw => ({ jaw, packed: get()[jaw].ready!.packed }));
        if (scans.length === 0 || taking !== null) return;
        const work = new AbortController();
        taking = work;
        const [now, record, of] = [sitting, page.record(), page.playerId()];
        // Another one each time: an arch that undo brings back, or a copy of the player, still means the scan before.
        const id = newId();
        const accepted = proposed(id);
        const other = otherJaw(record, scans);
        const fields = other === null ? undefined : standIns.getState().known.get(other.id)?.fields;
        const made = madeStandIn({ ...(other !== null && fields?.[other.jaw] !== undefined && { [other.jaw]: fields[other.jaw] }), ...standIn().fields });
        const mouth = mouthFor({ known: new Map([[id, made]]), onScan: standIns.getState().onScan }, accepted.arch);
        const analysis = await analyseAhead(accepted, mouth, () => work.signal.aborted);
        // Put away meanwhile, or somebody else is on the page by now: it is nobody's else.
        const isLeft = (): boolean => work.signal.aborted || page.playerId() !== of;
        if (!isLeft()) {
          standIns.getState().put(id, made);
          // What shows that a scan is at hand is drawn in a task of its own, before all that shows the arch.
          await nextTask();
        }
        if (taking === work) taking = null;
        if (isLeft()) {
          standIns.getState().forget(id);
          return;
        }
        page.change((before) => ({ ...before, arch: accepted.arch }), page.record() === record ? (analysis ?? undefined) : undefined);
        const kept = other === null ? null : await shelf.get(other.id, other.jaw);
        const words = await keptUnder(id, of, [...(keep ? scans : []), ...(kept?.kind === 'scan' ? [{ jaw: kept.jaw, packed: kept.packed }] : [])]);
        await get().refreshKept();
        if (now === sitting) set({ message: `${sayScans('accepted')}${words}` });
      },
      forget: async (id) => {
        const answer = await shelf.forget(id);
        standIns.getState().forget(id);
        await get().refreshKept();
        set({ message: answer.kind === 'failed' ? answer.message : sayScans('forgotten') });
      },
      refreshKept: async () => {
        const listed = await shelf.list();
        // A browser that keeps no scans is no fault as long as nobody wants to keep one.
        set({ kept: listed.kind === 'failed' ? [] : listed.scans });
      },
      close: () => {
        sitting = {};
        comparing?.abort();
        taking?.abort();
        taking = null;
        for (const jaw of JAWS) end(jaw);
        set({ upper: EMPTY, lower: EMPTY, notes: { kind: 'none' }, message: null });
      },
    };
  });
}

interface PackedJaw {
  readonly jaw: JawName;
  readonly packed: Uint8Array<ArrayBuffer>;
}

/** The mouth's other jaw where it is that of a scan already, and under which `id`: it goes along. */
function otherJaw({ arch }: PlayerRecord, scans: readonly PackedJaw[]): { readonly id: string; readonly jaw: JawName } | null {
  if ('single' in arch || arch.scanned === undefined) return null;
  const jaw = JAWS.find((one) => scans.every((scan) => scan.jaw !== one) && scannedJaw(arch, one) !== null);
  return jaw === undefined ? null : { id: arch.scanned.id, jaw };
}
