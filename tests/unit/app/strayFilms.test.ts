import { describe, expect, test, vi } from 'vitest';
import { type PageLocks, type StrayFilmsParts, createPages, forgetStrayFilms } from '../../../src/app/strayFilms';
import type { FilmEntry } from '../../../src/records/filmShelf';
import type { Everything } from '../../../src/records/shelfTypes';
import { measuringsInUse } from '../../../src/records/tracedReadings';
import { fullPlayer } from '../../support/records';

const film: FilmEntry = { measuring: 'measuring-1', source: 0, name: 'a.mp4', bytes: 9 };
const KEPT: Everything = { players: [{ player: fullPlayer(), revision: 1, changedAt: 0 }], damaged: [], message: null };

/** Answers which measurings were said to be in use; null: nothing was forgotten. */
async function inUse(given: Partial<Omit<StrayFilmsParts, 'films' | 'shelf' | 'measuringsInUse'>> & { readonly everything?: Everything; readonly lasting?: boolean; readonly films?: readonly FilmEntry[] } = {}): Promise<ReadonlySet<string> | null> {
  const { everything = KEPT, lasting = true, films = [film], ...parts } = given;
  const forget = vi.fn((_: ReadonlySet<string>) => Promise.resolve({ kind: 'forgotten', films: 0, bytes: 0 } as const));
  const isDone = await forgetStrayFilms({
    films: { list: () => Promise.resolve({ kind: 'films', films, bytes: 9 }), forgetUnreferenced: forget },
    measuringsInUse,
    shelf: { all: () => Promise.resolve(everything), lasting },
    open: () => [],
    mayComeBack: () => false,
    isOnlyPage: () => Promise.resolve(true),
    ...parts,
  });
  expect(isDone).toBe(forget.mock.calls.length > 0);
  return forget.mock.calls[0]?.[0] ?? null;
}

describe('films that belong to nobody', () => {
  test('are forgotten when everybody who is kept, and whoever is on the page, was asked', async () => {
    expect(await inUse()).toEqual(new Set(['measuring-1', 'measuring-2']));
    const open = { ...fullPlayer(), id: 'open', lessons: [{ ...fullPlayer().lessons[0]!, measurings: [{ id: 'undone' }] }] };
    expect((await inUse({ open: () => [open] }))?.has('undone')).toBe(true);
  });

  test.each<[string, Parameters<typeof inUse>[0]]>([
    ['another page stands open', { isOnlyPage: () => Promise.resolve(false) }],
    ['a deleted player can be put back', { mayComeBack: () => true }],
    ['nothing is kept for long', { lasting: false }],
    ['somebody cannot be read', { everything: { ...KEPT, damaged: [{ id: 'x', message: '', text: '' }] } }],
    ['nobody could be read', { everything: { ...KEPT, message: 'failed' } }],
    ['no film is kept', { films: [] }],
  ])('stay where %s', async (_, given) => {
    expect(await inUse(given)).toBeNull();
  });
});

describe('pages', () => {
  /** Locks as a browser has them, as far as they are used: shared ones, held for good. */
  function locks(): PageLocks {
    const held: { name: string }[] = [];
    return {
      request: (name) => {
        held.push({ name });
        return new Promise(() => undefined);
      },
      query: () => Promise.resolve({ held: [...held, { name: 'rimpath player x' }] }),
    };
  }

  test('know whether they are the only one', async () => {
    const shared = locks();
    const first = createPages(shared);
    expect(await first.isOnlyPage()).toBe(true);
    createPages(shared);
    expect(await first.isOnlyPage()).toBe(false);
  });

  test('do not take themselves for the only one where nobody can tell', async () => {
    expect(await createPages(undefined).isOnlyPage()).toBe(false);
    const broken: PageLocks = { request: () => Promise.reject(new Error('no')), query: () => Promise.reject(new Error('no')) };
    expect(await createPages(broken).isOnlyPage()).toBe(false);
  });
});
