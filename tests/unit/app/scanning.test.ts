/** The work on scans without a page: what is asked of the desk, taken into the record, kept, and stood in for the arch. */
import { describe, expect, it } from 'vitest';
import { analyse, workingsOf } from '../../../src/core/analyse';
import { scannedJaw } from '../../../src/core/ownArch/scannedArch';
import type { PlayerRecord } from '../../../src/core/specs';
import { parsePlayersText, playersFileText } from '../../../src/records/schema';
import type { KeptScan, ScanShelf } from '../../../src/records/scanShelf';
import { reopenScan } from '../../../src/app/scans/reopenScan';
import { putScans, scansOf } from '../../../src/app/scans/scansWithFile';
import { createScanning } from '../../../src/app/scans/scanning';
import type { ScanningStore } from '../../../src/app/scans/scanningTypes';
import { type StandIns, createStandIns, mouthFor } from '../../../src/app/scans/standIns';
import { openScanDoor } from '../../../src/workers/scanDoor';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';
import { MADE_JAW, madeScan } from '../../support/madeScan';

const here = (): ReturnType<typeof openScanDoor> => openScanDoor(() => { throw new Error('no workers'); });

function shelfInMemory(): ScanShelf {
  const rows = new Map<string, KeptScan & { readonly packed: Uint8Array<ArrayBuffer> }>();
  return {
    put: (scan, packed) => Promise.resolve((rows.set(`${scan.id} ${scan.jaw}`, { ...scan, bytes: packed.length, packed }), { kind: 'kept' as const })),
    get: (id, jaw) => {
      const row = rows.get(`${id} ${jaw}`);
      return Promise.resolve(row === undefined ? { kind: 'none' as const } : { kind: 'scan' as const, ...row });
    },
    list: () => Promise.resolve({ kind: 'scans', scans: [...rows.values()] }),
    forget: (id) => {
      const gone = [...rows.keys()].filter((key) => id === undefined || key.startsWith(`${id} `));
      for (const key of gone) rows.delete(key);
      return Promise.resolve({ kind: 'forgotten', count: gone.length });
    },
  };
}

function page(): { readonly scanning: ScanningStore; readonly standIns: StandIns; readonly shelf: ScanShelf; record(): PlayerRecord } {
  let record: PlayerRecord = demoPlayers[0]!.record;
  const standIns = createStandIns();
  const shelf = shelfInMemory();
  const scanning = createScanning({ record: () => record, change: (edit) => void (record = edit(record)) }, standIns, shelf, here);
  return { scanning, standIns, shelf, record: () => record };
}

const upper = madeScan('upper', 1, 110);

async function settled({ scanning }: ReturnType<typeof page>): Promise<void> {
  const { open, mark } = scanning.getState();
  await open('upper', new File([upper.bytes], 'u.stl'));
  expect(scanning.getState().upper).toMatchObject({ phase: 'open', unit: 'mm', fileName: 'u.stl', refusal: null });
  for (const tooth of ['right', 'front', 'left'] as const) mark('upper', tooth, upper.teeth[tooth]);
  await scanning.getState().settle('upper');
}

describe('a scan', () => {
  it('opened, marked and settled is compared with the arch, taken, kept, brought back and forgotten', async () => {
    const at = page();
    await settled(at);
    const { scanning, standIns, shelf, record } = at;
    expect(scanning.getState().upper.settled).toMatchObject({ family: 'beta' });
    await expect.poll(() => scanning.getState().notes.kind, { timeout: 30_000 }).toBe('compared');
    await scanning.getState().accept(true);
    const { arch } = record();
    if ('single' in arch || arch.upper.form.kind !== 'power') throw new Error('a power form was fitted');
    expectWithin(arch.upper.form.widthMm, (MADE_JAW.form as { widthMm: number }).widthMm, { abs: 0.2 }, 'width');
    expect(scannedJaw(arch, 'upper')!.numbers.map(({ name }) => name)).toContain('crownRadiusMm');
    expect(arch.lower).toBe((demoPlayers[0]!.record.arch as typeof arch).lower);

    const mouth = mouthFor(standIns.getState(), arch)!;
    expect(mouthFor(standIns.getState(), arch)).toBe(mouth);
    const onScan = analyse(record(), undefined, 'full', mouth);
    const onArch = analyse(record());
    expect(workingsOf(onScan).mouthOf).toBe(mouth);
    expectWithin(onScan.readings.at(-1)!.changeFromHome.lateralDeg, onArch.readings.at(-1)!.changeFromHome.lateralDeg, { abs: 0.2 }, 'swing');
    expect(onScan.readings.at(-1)!.changeFromHome.lateralDeg).not.toBe(onArch.readings.at(-1)!.changeFromHome.lateralDeg);

    // The next page knows it from the shelf alone.
    const again = await reopenScan(record(), arch.scanned!.id, shelf, here);
    expect(again!.jaws).toEqual({ upper: true, lower: false });
    const next = analyse(record(), undefined, 'full', again!.mouthOf(again!.jaws));
    expectWithin(next.readings.at(-1)!.changeFromHome.lateralDeg, onScan.readings.at(-1)!.changeFromHome.lateralDeg, { abs: 1e-3 }, 'swing, once kept');

    // With its player's file, where that was asked for, it comes to another browser.
    const spec = { id: 'p1', label: 'A', instrument: 'trumpet', arch, lips: record().lips, lessons: [{ id: 'l1', rim: record().rim, force: record().force, upperLipShare: record().upperLipShare, readings: [], tryOuts: [] }] };
    const scans = await scansOf(spec, shelf);
    expect(playersFileText([spec])).not.toContain('packed');
    const read = parsePlayersText(playersFileText([spec], scans));
    if (read.kind === 'refused') throw new Error(read.message);
    const other = shelfInMemory();
    await putScans(read.scans!, [{ ...spec, arch: { ...arch, scanned: undefined } }], other);
    expect(await other.list()).toEqual({ kind: 'scans', scans: [] });
    await putScans(read.scans!, read.players, other);
    expect(await other.get(arch.scanned!.id, 'upper')).toEqual(await shelf.get(arch.scanned!.id, 'upper'));
    const damaged = { ...scans[0]!, packed: '***' };
    await putScans([damaged], [spec], shelfInMemory());
    expect(parsePlayersText(playersFileText([spec], [{ ...damaged, jaw: 'middle' as 'upper' }]))).toMatchObject({ kind: 'refused' });

    standIns.getState().restOn(false);
    expect(mouthFor(standIns.getState(), arch)).toBeNull();
    standIns.getState().restOn(true);
    // Changed by hand it is the scan's no more.
    expect(mouthFor(standIns.getState(), { ...arch, upper: { ...arch.upper, form: { ...arch.upper.form, widthMm: 60 } } })).toBeNull();
    await scanning.getState().forget(arch.scanned!.id);
    expect(mouthFor(standIns.getState(), arch)).toBeNull();
    expect(await reopenScan(record(), arch.scanned!.id, shelf, here)).toBeNull();
    expect(scanning.getState()).toMatchObject({ kept: [], message: 'The scan is forgotten. The fitted arch stays.' });
  }, 60_000);

  it('that cannot be read, and marks that cannot be, are told; what was there before is not lost', async () => {
    const at = page();
    const { scanning, record } = at;
    const before = record();
    await scanning.getState().open('lower', new File(['not a scan'], 'n.stl'));
    expect(scanning.getState().lower).toMatchObject({ phase: 'empty', fileName: 'n.stl' });
    expect(scanning.getState().lower.refusal).toMatch(/^This is not a scan/);
    await settled(at);
    scanning.getState().mark('upper', 'left', upper.teeth.right);
    expect(scanning.getState().upper.settled).toBeNull();
    await scanning.getState().settle('upper');
    expect(scanning.getState().upper.refusal).toMatch(/^The right tooth and the left one are marked 0\.0 mm apart/);
    await scanning.getState().accept(true);
    expect(record()).toBe(before);
    scanning.getState().away('upper');
    expect(scanning.getState().upper.phase).toBe('empty');
    expect(scanning.getState().door('upper')).toBeNull();
  }, 60_000);

  it('put away while it is read is answered by nothing', async () => {
    const { scanning } = page();
    const opening = scanning.getState().open('upper', new File([upper.bytes], 'u.stl'));
    scanning.getState().away('upper');
    await opening;
    expect(scanning.getState().upper).toMatchObject({ phase: 'empty', opened: null });
  });
});
