import { expect, test } from 'vitest';
import { forgetLeftScan } from '../../../src/app/scans/forgetLeftScan';
import type { ArchSpec, PlayerSpec } from '../../../src/core/specs';
import type { KeptScan } from '../../../src/records/scanShelf';
import type { Shelf } from '../../../src/records/shelfTypes';
import { demoPlayers } from '../../support/demos';

const { record } = demoPlayers[0]!;
const scannedAs = (id: string): ArchSpec => ({ ...record.arch, scanned: { id, upper: { numbers: [], residualMm: 0 } } });
const player = (arch: ArchSpec, id = 'q'): PlayerSpec => ({ id, label: '', instrument: 'trumpet', arch, lips: record.lips, lessons: [] });

const kept = (id: string, of?: string): KeptScan => ({ id, jaw: 'upper', bytes: 9, of });
const SHELVED = [kept('a'), kept('b')];

async function forgotten(gone: ArchSpec, kept: readonly ArchSpec[], open: ArchSpec, damaged = 0, shelved: readonly KeptScan[] = SHELVED): Promise<readonly (string | undefined)[]> {
  const asked: (string | undefined)[] = [];
  const all = () => Promise.resolve({ players: kept.map((arch) => ({ player: player(arch), revision: 1 })), damaged: Array(damaged).fill({ id: 'x', text: '' }), message: null });
  const list = () => Promise.resolve({ kind: 'scans' as const, scans: shelved });
  await forgetLeftScan(player(gone, 'gone'), { all } as unknown as Pick<Shelf, 'all'>, () => player(open), { list, forget: (id) => (asked.push(id), Promise.resolve({ kind: 'forgotten', count: 1 })) });
  return asked;
}

test('a deleted player’s scan goes, unless a copy or the player on the page has it, or somebody cannot be read', async () => {
  expect(await forgotten(scannedAs('a'), [scannedAs('b'), record.arch], record.arch)).toEqual(['a']);
  expect(await forgotten(scannedAs('a'), [scannedAs('a')], record.arch)).toEqual([]);
  expect(await forgotten(scannedAs('a'), [], scannedAs('a'))).toEqual([]);
  expect(await forgotten(scannedAs('a'), [], record.arch, 1)).toEqual([]);
  expect(await forgotten(record.arch, [], record.arch)).toEqual([]);
});

test('so do those that were taken in as theirs before, or whose arch they have no more', async () => {
  const shelved = [kept('a', 'gone'), kept('old', 'gone'), kept('b', 'q'), kept('c')];
  expect(await forgotten(scannedAs('a'), [scannedAs('b')], record.arch, 0, shelved)).toEqual(['a', 'old']);
  expect(await forgotten(record.arch, [scannedAs('old')], record.arch, 0, shelved)).toEqual(['a']);
});
