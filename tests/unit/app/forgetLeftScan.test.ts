import { expect, test } from 'vitest';
import { forgetLeftScan } from '../../../src/app/scans/forgetLeftScan';
import type { ArchSpec, PlayerSpec } from '../../../src/core/specs';
import type { Shelf } from '../../../src/records/shelfTypes';
import { demoPlayers } from '../../support/demos';

const { record } = demoPlayers[0]!;
const scannedAs = (id: string): ArchSpec => ({ ...record.arch, scanned: { id, upper: { numbers: [], residualMm: 0 } } });
const player = (arch: ArchSpec): PlayerSpec => ({ id: 'p', label: '', instrument: 'trumpet', arch, lips: record.lips, lessons: [] });

async function forgotten(gone: ArchSpec, kept: readonly ArchSpec[], open: ArchSpec, damaged = 0): Promise<readonly (string | undefined)[]> {
  const asked: (string | undefined)[] = [];
  const all = () => Promise.resolve({ players: kept.map((arch) => ({ player: player(arch), revision: 1 })), damaged: Array(damaged).fill({ id: 'x', text: '' }), message: null });
  await forgetLeftScan(gone, { all } as unknown as Pick<Shelf, 'all'>, () => player(open), { forget: (id) => (asked.push(id), Promise.resolve({ kind: 'forgotten', count: 1 })) });
  return asked;
}

test('a deleted player’s scan goes, unless a copy or the player on the page has it, or somebody cannot be read', async () => {
  expect(await forgotten(scannedAs('a'), [scannedAs('b'), record.arch], record.arch)).toEqual(['a']);
  expect(await forgotten(scannedAs('a'), [scannedAs('a')], record.arch)).toEqual([]);
  expect(await forgotten(scannedAs('a'), [], scannedAs('a'))).toEqual([]);
  expect(await forgotten(scannedAs('a'), [], record.arch, 1)).toEqual([]);
  expect(await forgotten(record.arch, [], record.arch)).toEqual([]);
});
