/** The work on scans without a page: what is asked of the desk, taken into the record, kept, and stood in for the arch. */
import { describe, expect, it } from 'vitest';
import { analyse, workingsOf } from '../../../src/core/analyse';
import type { Analysis } from '../../../src/core/analysis';
import { scannedJaw } from '../../../src/core/ownArch/scannedArch';
import type { PlayerRecord } from '../../../src/core/specs';
import { parsePlayersText, playersFileText } from '../../../src/records/schema';
import type { KeptScan, ScanShelf } from '../../../src/records/scanShelf';
import { reopenScan } from '../../../src/app/scans/reopenScan';
import { putScans, scansOf } from '../../../src/app/scans/scansWithFile';
import { FIRST_PICTURE, usualProfile } from '../../../src/app/scans/scanChoices';
import { rimReach } from '../../../src/scans/rimReach';
import { scanRefusals } from '../../../src/scans/scanRefusals';
import { createScanning } from '../../../src/app/scans/scanning';
import type { ScanningStore } from '../../../src/app/scans/scanningTypes';
import { type StandIns, createStandIns, mouthFor } from '../../../src/app/scans/standIns';
import { type ScanDoor, openScanDoor } from '../../../src/workers/scanDoor';
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

const upper = madeScan('upper', 1, 110);

/** What a desk answered once, said again by every door: these tests are about who is answered, not about the answer. */
let answers: Promise<Pick<ScanDoor, 'open' | 'settle' | 'ready'>> | null = null;

async function answersOnce(): Promise<Pick<ScanDoor, 'open' | 'settle' | 'ready'>> {
  const door = here();
  const opened = await door.open(new File([upper.bytes], 'u.stl'), 'upper', FIRST_PICTURE, () => {});
  const settled = await door.settle({ jaw: 'upper', mmPerUnit: 1, teeth: upper.teeth, usual: usualProfile('upper'), only: null }, () => {});
  const ready = await door.ready(rimReach(demoPlayers[0]!.record, 'upper'), () => {});
  return { open: () => Promise.resolve(opened), settle: () => Promise.resolve(settled), ready: () => Promise.resolve(ready) };
}

const again = async (): Promise<() => ScanDoor> => {
  const said = await (answers ??= answersOnce());
  return () => ({ ...here(), ...said });
};

function page(openDoor: () => ScanDoor = here): { readonly scanning: ScanningStore; readonly standIns: StandIns; readonly shelf: ScanShelf; record(): PlayerRecord; made(): Analysis | undefined; show(record: PlayerRecord, playerId?: string): void } {
  let record: PlayerRecord = demoPlayers[0]!.record;
  let lastMade: Analysis | undefined;
  let player = 'p1';
  const standIns = createStandIns();
  const shelf = shelfInMemory();
  const scanning = createScanning({ record: () => record, playerId: () => player, change: (edit, made) => void (record = edit(record), lastMade = made) }, standIns, shelf, openDoor);
  return { scanning, standIns, shelf, record: () => record, made: () => lastMade, show: (next, playerId = player) => void (record = next, player = playerId) };
}

async function settled({ scanning }: ReturnType<typeof page>, jaw: 'upper' | 'lower' = 'upper'): Promise<void> {
  const { open, mark } = scanning.getState();
  await open(jaw, new File([upper.bytes], 'u.stl'));
  expect(scanning.getState()[jaw]).toMatchObject({ phase: 'open', unit: 'mm', fileName: 'u.stl', refusal: null });
  for (const tooth of ['right', 'front', 'left'] as const) mark(jaw, tooth, upper.teeth[tooth]);
  await scanning.getState().settle(jaw);
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
    // It was analysed before it was taken, and nothing of that is worked out again.
    const taken = analyse(record(), at.made(), 'full', mouth);
    expect(taken.home.follow).toBe(at.made()!.home.follow);
    expect(taken.readings.map(({ follow }) => follow)).toEqual(onScan.readings.map(({ follow }) => follow));
    for (const [index, { follow }] of taken.readings.entries()) expect(follow).toBe(at.made()!.readings[index]!.follow);
    const onArch = analyse(record());
    expect(workingsOf(onScan).mouthOf).toBe(mouth);
    expectWithin(onScan.readings.at(-1)!.changeFromHome.lateralDeg, onArch.readings.at(-1)!.changeFromHome.lateralDeg, { abs: 0.2 }, 'swing');
    expect(onScan.readings.at(-1)!.changeFromHome.lateralDeg).not.toBe(onArch.readings.at(-1)!.changeFromHome.lateralDeg);

    // The next page knows it from the shelf alone.
    const reopened = await reopenScan(record(), arch.scanned!.id, shelf, here);
    expect(reopened!.jaws).toEqual({ upper: true, lower: false });
    const next = analyse(record(), undefined, 'full', reopened!.mouthOf(reopened!.jaws));
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
    expect(await other.list()).toMatchObject({ scans: [{ of: spec.id }] });
    await putScans([{ ...read.scans![0]!, packed: btoa('another') }], read.players, other);
    expect(await other.get(arch.scanned!.id, 'upper')).toEqual({ ...(await shelf.get(arch.scanned!.id, 'upper')), of: spec.id });
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

    // Put away while it is taken, it is not taken and leaves nothing behind; a second press is none.
    const before = record();
    const taking = scanning.getState().accept(true);
    await scanning.getState().accept(true);
    scanning.getState().close();
    await taking;
    expect(record()).toBe(before);
    expect(await shelf.list()).toEqual({ kind: 'scans', scans: [] });
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

  it('taken in goes to the player who is on the page then, also where keeping it takes a while', async () => {
    const at = page(await again());
    await settled(at);
    const { scanning, shelf, record, show } = at;
    const put = shelf.put;
    let go = (): void => {};
    const held = new Promise<void>((resolve) => (go = resolve));
    Object.assign(shelf, { put: async (...asked: Parameters<ScanShelf['put']>) => (await held, put(...asked)) });
    const accepting = scanning.getState().accept(true);
    await expect.poll(() => record().arch).toHaveProperty('scanned');
    const taken = record();
    const next = demoPlayers[1]!.record;
    show(next);
    scanning.getState().close();
    go();
    await accepting;
    expect(record()).toBe(next);
    expect(scanning.getState().message).toBeNull();
    expect(await shelf.list()).toMatchObject({ scans: [{ id: (taken.arch as { scanned: { id: string } }).scanned.id, jaw: 'upper', of: 'p1' }] });
  }, 60_000);

  it('is taken for nobody where somebody else comes onto the page while the seats on it are worked out', async () => {
    const at = page(await again());
    await settled(at);
    const { scanning, shelf, record, show } = at;
    const accepting = scanning.getState().accept(true);
    const next = demoPlayers[1]!.record;
    show(next, 'p2');
    await accepting;
    expect(record()).toBe(next);
    expect(await shelf.list()).toEqual({ kind: 'scans', scans: [] });
  }, 60_000);

  it('fitted while a mark or the unit is changed is not what was asked for any more', async () => {
    const at = page(await again());
    const { scanning } = at;
    await settled(at);
    const { setUnit, settle } = scanning.getState();
    const settling = settle('upper');
    setUnit('upper', 'cm');
    expect(scanning.getState().upper).toMatchObject({ phase: 'open', unit: 'cm' });
    await settling;
    expect(scanning.getState().upper).toMatchObject({ phase: 'open', settled: null, ready: null, refusal: null });
    expect(scanning.getState().notes.kind).toBe('none');
  }, 60_000);

  it('stopped in the middle of a fit keeps its file and its marks, and can be fitted again', async () => {
    const at = page(await again());
    const { scanning } = at;
    await settled(at);
    const { marks, opened } = scanning.getState().upper;
    const before = scanning.getState().door('upper');
    const settling = scanning.getState().settle('upper');
    expect(scanning.getState().upper.phase).toBe('settling');
    const stopping = scanning.getState().stop('upper');
    expect(scanning.getState().upper).toMatchObject({ phase: 'open', fileName: 'u.stl', unit: 'mm', marks, opened, settled: null, ready: null, refusal: null });
    await Promise.all([settling, stopping]);
    expect(scanning.getState().upper).toMatchObject({ phase: 'open', settled: null });
    expect(scanning.getState().door('upper')).not.toBe(before);
    await scanning.getState().settle('upper');
    expect(scanning.getState().upper).toMatchObject({ settled: { family: 'beta' } });
  }, 60_000);

  it('stopped, and its file gone meanwhile, is told as a file that cannot be read', async () => {
    const doors = await again();
    let isGone = false;
    const at = page(() => ({ ...doors(), ...(isGone && { open: () => Promise.resolve(scanRefusals.unreadable()) }) }));
    const { scanning } = at;
    await settled(at);
    const settling = scanning.getState().settle('upper');
    isGone = true;
    await scanning.getState().stop('upper');
    await settling;
    expect(scanning.getState().upper).toMatchObject({ phase: 'empty', fileName: 'u.stl', opened: null, refusal: scanRefusals.unreadable().words });
  }, 60_000);

  it('of one jaw taken in anew leaves the one before to those who mean it, and the other jaw goes along', async () => {
    const at = page(await again());
    await settled(at);
    const { scanning, standIns, shelf, record } = at;
    await scanning.getState().accept(true);
    const before = record().arch as Extract<PlayerRecord['arch'], { upper: unknown }>;
    const first = await shelf.get(before.scanned!.id, 'upper');
    scanning.getState().close();
    await settled(at, 'lower');
    await scanning.getState().accept(true);
    const after = record().arch as typeof before;
    expect(after.scanned!.id).not.toBe(before.scanned!.id);
    expect(Object.keys(after.scanned!)).toEqual(['id', 'upper', 'lower']);
    expect(standIns.getState().known.get(after.scanned!.id)!.jaws).toEqual({ upper: true, lower: true });
    expect(standIns.getState().known.get(before.scanned!.id)!.jaws).toEqual({ upper: true, lower: false });
    expect(await shelf.get(after.scanned!.id, 'upper')).toMatchObject({ packed: (first as { packed: Uint8Array }).packed });
    expect(await shelf.get(before.scanned!.id, 'upper')).toEqual(first);
    expect(await shelf.get(before.scanned!.id, 'lower')).toEqual({ kind: 'none' });
  }, 60_000);

  it('put away while it is read is answered by nothing', async () => {
    const { scanning } = page();
    const opening = scanning.getState().open('upper', new File([upper.bytes], 'u.stl'));
    scanning.getState().away('upper');
    await opening;
    expect(scanning.getState().upper).toMatchObject({ phase: 'empty', opened: null });
  });
});
