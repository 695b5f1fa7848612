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
import { madeStandIn } from './madeStandIn';
import { compareNotes } from './compareNotes';
import type { ScanningParts, ScanningStore } from './scanningTypes';
import type { StandIns } from './standIns';
import { FIRST_PICTURE, usualProfile } from './scanChoices';

const JAWS: readonly JawName[] = ['upper', 'lower'];
const EMPTY: JawWork = {
  phase: 'empty', part: 0, fileName: '', opened: null, unit: null, sides: 'canines', marks: {}, family: null, settled: null, ready: null, refusal: null,
};

export function createScanning(page: ScanningParts, standIns: StandIns, shelf: ScanShelf, openDoor: () => ScanDoor = openScanDoor): ScanningStore {
  const doors: Partial<Record<JawName, ScanDoor>> = {};
  let comparing: AbortController | null = null;
  return createStore((set, get) => {
    const put = (jaw: JawName, changes: Partial<JawWork>): void => set({ [jaw]: { ...get()[jaw], ...changes } });
    const unsettled = { settled: null, ready: null, refusal: null } as const;
    const end = (jaw: JawName): void => {
      doors[jaw]?.end();
      delete doors[jaw];
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
      door: (jaw) => doors[jaw] ?? null,
      open: async (jaw, file) => {
        end(jaw);
        const door = openDoor();
        doors[jaw] = door;
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
      setUnit: (jaw, unit) => put(jaw, { unit, ...unsettled }),
      setSides: (jaw, sides) => put(jaw, { sides, marks: { ...(get()[jaw].marks.front === undefined ? {} : { front: get()[jaw].marks.front }) }, ...unsettled }),
      setFamily: (jaw, family) => put(jaw, { family }),
      mark: (jaw, tooth, place) => put(jaw, { marks: { ...get()[jaw].marks, [tooth]: place }, ...unsettled }),
      settle: async (jaw) => {
        const door = doors[jaw];
        const { unit, marks: { right, front, left }, family } = get()[jaw];
        if (door === undefined || unit === null || right === undefined || front === undefined || left === undefined) return;
        put(jaw, { phase: 'settling', part: 0, ...unsettled });
        const settled = await door.settle(
          { jaw, mmPerUnit: MM_PER[unit], teeth: { right, front, left }, usual: usualProfile(jaw), only: family }, (part) => put(jaw, { part }),
        );
        if (doors[jaw] !== door || settled.kind === 'stopped') return;
        if (settled.kind === 'refused') {
          put(jaw, { phase: 'open', refusal: settled.words });
          return;
        }
        put(jaw, { phase: 'preparing', part: 0, settled });
        const made = await door.ready(rimReach(page.record(), jaw), (part) => put(jaw, { part }));
        if (doors[jaw] !== door) return;
        put(jaw, { phase: 'open', ready: made && { field: fieldOf(made.parts), packed: made.packed }, ...(made === null ? { refusal: sayScans('unreadable') } : {}) });
        void compare();
      },
      accept: async (keep) => {
        if (ready().length === 0) return;
        const id = idFor(page.record(), ready());
        const accepted = proposed(id);
        const made = standIn();
        let words = sayScans('accepted');
        for (const jaw of keep ? ready() : []) {
          const answer = await shelf.put({ id, jaw }, get()[jaw].ready!.packed);
          if (answer.kind === 'failed') words = `${words} ${sayScans('notKept', { why: answer.message })}`;
        }
        // The other jaw of the same mouth may be at hand from before.
        standIns.getState().put(id, madeStandIn({ ...standIns.getState().known.get(id)?.fields, ...made.fields }));
        page.change((record) => ({ ...record, arch: accepted.arch }));
        await get().refreshKept();
        set({ message: words });
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
        comparing?.abort();
        for (const jaw of JAWS) end(jaw);
        set({ upper: EMPTY, lower: EMPTY, notes: { kind: 'none' }, message: null });
      },
    };
  });
}

/** Under which the mouth's other jaw is known already, if it is; else a new one. */
function idFor({ arch }: PlayerRecord, jaws: readonly JawName[]): string {
  const stays = JAWS.some((jaw) => !jaws.includes(jaw) && scannedJaw(arch, jaw) !== null);
  return !('single' in arch) && arch.scanned !== undefined && stays ? arch.scanned.id : newId();
}
