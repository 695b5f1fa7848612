/** Files of version 1 still open. The goldens under goldens/ are never written anew: they are what was saved once. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type Record1, migrateRecord1 } from '../../../src/records/record1';
import { parsePlayersText } from '../../../src/records/schema';

const golden = (name: string): string => readFileSync(new URL(`./goldens/${name}.json`, import.meta.url), 'utf8');
const ids = (): (() => string) => {
  const list = ['player-id', 'lesson-id'];
  return () => list.shift() ?? 'too many';
};

describe('a file of version 1', () => {
  it('with every field becomes one player with one lesson of no known day, and nothing is lost', () => {
    const { players } = JSON.parse(golden('full-1-as-2')) as { players: unknown };
    expect(parsePlayersText(golden('full-1'), ids())).toEqual({ kind: 'players', players, fromVersion: 1 });
    expect(parsePlayersText(golden('full-1-as-2'))).toEqual({ kind: 'players', players, fromVersion: 2 });
  });

  it('with few fields gets none that it did not have', () => {
    const record = JSON.parse(golden('example-1')) as Record1;
    const { home: _home, ...bare } = record;
    const player = migrateRecord1(bare, { player: 'p', lesson: 'l' });
    expect(Object.keys(player.lessons[0]!)).toEqual(['id', 'rim', 'force', 'upperLipShare', 'readings', 'tryOuts']);
    expect(player.lessons[0]!.readings).toEqual(record.readings);
    expect(parsePlayersText(golden('example-1'), ids())).toMatchObject({ kind: 'players', fromVersion: 1 });
  });

  it('is refused in one line where it was refused before, and for what only version 2 knows', () => {
    const message = (change: (record: Record<string, unknown>) => void): string => {
      const record = JSON.parse(golden('full-1')) as Record<string, unknown>;
      change(record);
      const parsed = parsePlayersText(JSON.stringify(record));
      return parsed.kind === 'refused' ? parsed.message : 'read';
    };
    const reading = (record: Record<string, unknown>) => (record['readings'] as Record<string, unknown>[])[1]!;
    expect(message(() => undefined)).toBe('read');
    expect(message((record) => delete reading(record)['travel'])).toBe('readings[1].travel (B♭3): missing; allowed: an object with upMm, rightMm, sdMm');
    expect(message((record) => (reading(record)['ease'] = 3))).toBe(
      'readings[1].ease (B♭3): unknown field; allowed here: note, travel, method, horn, direction, jaw, force',
    );
    expect(message((record) => ((reading(record)['travel'] as Record<string, unknown>)['rightSdMm'] = 1))).toBe(
      'readings[1].travel.rightSdMm (B♭3): unknown field; allowed here: upMm, rightMm, sdMm',
    );
    expect(message((record) => (record['force'] = 3))).toBe('force: 3; allowed: an object with newtons');
    expect(message((record) => (record['players'] = []))).toMatch(/^players: unknown field; allowed here: format, version, player,/);
  });
});
