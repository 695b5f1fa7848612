import { describe, expect, test, vi } from 'vitest';
import { type LeftFilmsParts, forgetLeftFilms, leftWith, measuringsOf } from '../../../src/app/leftFilms';
import type { Everything } from '../../../src/records/shelfTypes';
import { measuringsInUse } from '../../../src/records/tracedReadings';
import { fullPlayer } from '../../support/records';

const film = { measuring: 'measuring-1', source: 0, name: 'a.mp4', bytes: 9 };
const nobody: Everything = { players: [], damaged: [], message: null };
const without = { ...fullPlayer(), lessons: fullPlayer().lessons.slice(1) };

async function forgotten(gone: readonly string[], given: Partial<{ everything: Everything; open: LeftFilmsParts['open']; fails: boolean }> = {}): Promise<readonly [string, readonly unknown[]]> {
  const { everything = nobody, open = () => without, fails = false } = given;
  const remove = vi.fn((_: string) => Promise.resolve(fails ? ({ kind: 'failed', message: 'x' } as const) : ({ kind: 'forgotten', films: 1, bytes: 9 } as const)));
  const answer = await forgetLeftFilms(gone, {
    films: { list: () => Promise.resolve({ kind: 'films', films: [film, { ...film, source: 1 }, { ...film, measuring: 'other' }], bytes: 27 }), remove },
    shelf: { all: () => Promise.resolve(everything) },
    measuringsInUse,
    open,
  });
  return [answer, remove.mock.calls.map(([id]) => id)];
}

describe('films of what was deleted', () => {
  test('are forgotten at once, and no others', async () => {
    expect(await forgotten(['measuring-1', 'measuring-2'])).toEqual(['forgotten', ['measuring-1']]);
    expect(await forgotten(['measuring-2'])).toEqual(['none', []]);
  });

  test('stay where a copy of the player, or whoever is on the page, needs them', async () => {
    const copy: Everything = { ...nobody, players: [{ player: { ...fullPlayer(), id: 'copy' }, revision: 1, changedAt: 0 }] };
    expect(await forgotten(['measuring-1'], { everything: copy })).toEqual(['none', []]);
    expect(await forgotten(['measuring-1'], { open: () => fullPlayer() })).toEqual(['none', []]);
  });

  test('stay where nobody knows who needs them, or they cannot be reached, and that is said', async () => {
    expect(await forgotten(['measuring-1'], { everything: { ...nobody, damaged: [{ id: 'x', message: '', text: '' }] } })).toEqual(['unsure', []]);
    expect((await forgotten(['measuring-1'], { fails: true }))[0]).toBe('unsure');
  });

  test('are those of lessons that the same player has no more', () => {
    const player = fullPlayer();
    expect(leftWith(player, without)).toEqual(measuringsOf(player.lessons.slice(0, 1)));
    expect(leftWith(player, without).length).toBeGreaterThan(0);
    expect(leftWith(without, player)).toEqual([]);
    expect(leftWith(player, { ...without, id: 'another' })).toEqual([]);
  });
});
