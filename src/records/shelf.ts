/** The shelf on which players are kept: each with a revision, so that nobody saves over what somebody else has saved since. */
import { sayKeeping } from '../words/keeping';
import { sayRecords } from '../words/records';
import { copyFromThisTab, numberedLabel } from './copies';
import type { Timers } from './connection';
import { openDatabase } from './database';
import { type LeftNotes, createLeftNotes } from './leftNotes';
import { type NewId, newId } from './newId';
import { type RowStore, type Rows, StoreError, createMemoryRows } from './rowStore';
import { sameValue } from './sameValue';
import { unreadableWords } from './shelfWords';
import { type NotesStorage, browserStorage } from './saved';
import { faultOfPlayer, parsePlayers, playersFile } from './schema';
import type { DamagedPlayer, Everything, Got, Imported, KeptPlayer, PlayerSummary, Removed, Saved, Shelf, ToSave } from './shelfTypes';

export interface ShelfSurroundings {
  readonly factory: IDBFactory | undefined;
  readonly timers: Timers;
  /** Where a page that is being left puts down what is not saved yet; null: nowhere. */
  readonly notes: NotesStorage | null;
  /** Milliseconds since 1970. */
  now(): number;
  readonly idOf: NewId;
}

/** Opens the browser's own store; where there is none to be had, a shelf that lasts as long as the page and says why. */
export async function openShelf(given: Partial<ShelfSurroundings> = {}): Promise<Shelf> {
  const surroundings = { ...browserSurroundings(), ...given };
  try {
    const rows = await openDatabase(surroundings.factory, surroundings.timers);
    const left = createLeftNotes(surroundings.notes);
    // What cannot be finished now stays where it is for the next time.
    await within(FINISH_WITHIN_MS, surroundings.timers, finishUnfinished(rows, left, surroundings).catch(() => undefined));
    return shelfOn(rows, left, surroundings, true, null);
  } catch (error) {
    return createMemoryShelf(error instanceof StoreError ? error.message : String(error), surroundings);
  }
}

/** The same shelf without a store behind it. `message` says why, and what to do. */
export function createMemoryShelf(message: string | null = null, given: Partial<ShelfSurroundings> = {}): Shelf {
  return shelfOn(createMemoryRows(), createLeftNotes(null), { ...browserSurroundings(), ...given }, false, message);
}

/** What stands in the store for one player: its file, so that what is kept here long is read and migrated as any other file. */
interface Row {
  readonly file: unknown;
  readonly revision: number;
  readonly changedAt: number;
  /** Which opened shelf wrote it: what the same one put down when it was left is newer, however far its last save came. */
  readonly writer: string;
}

/** The page is not kept waiting longer than this for what another left behind; milliseconds. */
const FINISH_WITHIN_MS = 4000;

type Rest = Pick<ShelfSurroundings, 'now' | 'idOf'>;

function shelfOn(store: RowStore, left: LeftNotes, { now, idOf }: Rest, lasting: boolean, message: string | null): Shelf {
  const writer = idOf();
  /** What was read and found right once is not read again while it is the same writing. */
  const known = new Map<string, { readonly writing: string; readonly kept: KeptPlayer }>();
  const read = (id: string, row: unknown): KeptPlayer | DamagedPlayer => {
    const before = known.get(id);
    const writing = `${revisionOf(row)} ${(row as Partial<Row> | null)?.changedAt} ${writerOf(row)}`;
    if (before?.writing === writing) return before.kept;
    const kept = readRow(id, row);
    if ('player' in kept) known.set(id, { writing, kept });
    return kept;
  };
  const all = async (): Promise<Everything> => {
    try {
      const rows = await store.transact('readonly', (inside) => inside.all('players'));
      const players: KeptPlayer[] = [];
      const unreadable: DamagedPlayer[] = [];
      for (const [id, row] of rows) {
        const one = read(id, row);
        if ('player' in one) players.push(one);
        else unreadable.push(one);
      }
      return { players, damaged: unreadable, message: null };
    } catch (error) {
      return { players: [], damaged: [], message: wordsOf(error) };
    }
  };
  const write = async <T>(work: (rows: Rows) => Promise<T>): Promise<T | { kind: 'not-saved'; message: string }> => {
    try {
      return await store.transact('readwrite', work);
    } catch (error) {
      return { kind: 'not-saved', message: wordsOf(error) };
    }
  };
  /** `at`: when saving was asked for, not when the store came to it: what was left meanwhile is newer. */
  const saveInside = async (rows: Rows, list: readonly ToSave[], at: number): Promise<Imported> => {
    for (const { player, revision } of list) {
      const row = await rows.get('players', player.id);
      if (revisionOf(row) === revision) continue;
      const current = row === undefined ? null : read(player.id, row);
      return { kind: 'conflict', id: player.id, current: current !== null && 'player' in current ? current : null };
    }
    const players: KeptPlayer[] = [];
    for (const { player, revision } of list) {
      const last = revision === 0 ? await rows.get('page', goneKey(player.id)) : revision;
      players.push({ player, revision: (typeof last === 'number' ? last : 0) + 1, changedAt: at });
    }
    for (const kept of players) {
      await rows.put('players', kept.player.id, rowOf(kept, writer));
      await rows.delete('unfinished', kept.player.id);
    }
    return { kind: 'imported', players };
  };
  const saveAll = async (list: readonly ToSave[]): Promise<Imported> => {
    const at = now();
    // Kept in this state, it could not be opened again: what is kept already stays instead.
    for (const { player } of list) {
      const fault = faultOfPlayer(player);
      if (fault !== null) return { kind: 'not-saved', message: unreadableWords(fault) };
    }
    const answer = await write((rows) => saveInside(rows, list, at));
    if (answer.kind === 'imported') for (const { player } of answer.players) left.forget(player.id, at);
    return answer;
  };
  return {
    lasting,
    message,
    all,
    list: async () => {
      const { players, ...rest } = await all();
      return { players: players.map(summaryOf), ...rest };
    },
    get: async (id): Promise<Got> => {
      try {
        const row = await store.transact('readonly', (rows) => rows.get('players', id));
        if (row === undefined) return { kind: 'none' };
        const kept = read(id, row);
        return 'player' in kept ? { kind: 'player', ...kept } : { kind: 'damaged', ...kept };
      } catch (error) {
        return { kind: 'not-read', message: wordsOf(error) };
      }
    },
    save: async (player, revision): Promise<Saved> => {
      const answer = await saveAll([{ player, revision }]);
      return answer.kind === 'imported' ? { kind: 'saved', revision: answer.players[0]!.revision } : answer;
    },
    leave: (player, revision) => {
      if (faultOfPlayer(player) !== null) return;
      const row = rowOf({ player, revision, changedAt: now() }, writer);
      left.put(player.id, row);
      store.putAtOnce('unfinished', player.id, row);
    },
    importPlayers: saveAll,
    remove: async (id): Promise<Removed> => {
      const at = now();
      const answer = await write<Removed>(async (rows) => {
        const row = await rows.get('players', id);
        if (row === undefined) return { kind: 'none' as const };
        // Whoever comes into its place goes on counting: else a tab that still shows the old one would take the new one for it.
        await rows.put('page', goneKey(id), revisionOf(row) || 0);
        await rows.delete('players', id);
        await rows.delete('unfinished', id);
        return { kind: 'removed' as const, removed: { id, row } };
      });
      if (answer.kind !== 'not-saved') left.forget(id, at);
      return answer;
    },
    restore: ({ id, row }): Promise<Saved> =>
      write(async (rows) => {
        const there = await rows.get('players', id);
        if (there !== undefined) {
          const before = readRow(id, row);
          if ('player' in before) {
            const kept = (await rows.all('players')).map(([other, one]) => read(other, one));
            const labels = new Set(kept.flatMap((one) => ('player' in one ? [one.player.label] : [])));
            const { player } = before;
            const copy = { ...player, id: idOf(), label: labels.has(player.label) ? numberedLabel(player.label, labels) : player.label };
            await rows.put('players', copy.id, rowOf({ player: copy, revision: 1, changedAt: now() }, writer));
            return { kind: 'saved' as const, revision: 1 };
          }
          const current = read(id, there);
          return { kind: 'conflict' as const, id, current: 'player' in current ? current : null };
        }
        await rows.put('players', id, row);
        return { kind: 'saved' as const, revision: revisionOf(row) };
      }),
    getPage: (key) => store.transact('readonly', (rows) => rows.get('page', key)).catch(() => undefined),
    setPage: (key, value) =>
      store.transact('readwrite', (rows) => rows.put('page', key, value)).then(
        () => true,
        () => false,
      ),
    close: () => store.close(),
  };
}

/**
 * What pages put down as they were left: kept as the next revision of what it grew from; beside it, as a copy, where that has gone on
 * since. What cannot be read is left where it is. One transaction.
 */
async function finishUnfinished(store: RowStore, left: LeftNotes, { now, idOf }: Rest): Promise<void> {
  const notes = left.all();
  await store.transact('readwrite', async (rows) => {
    for (const [id, note] of [...notes, ...(await rows.all('unfinished'))]) {
      const unfinished = readRow(id, note);
      if (!('player' in unfinished)) continue;
      const row = await rows.get('players', id);
      const kept = row === undefined ? null : readRow(id, row);
      const { player } = unfinished;
      const writer = writerOf(note);
      const isKept = kept !== null && 'player' in kept && sameValue(kept.player, player);
      const isNext = row === undefined || revisionOf(row) === unfinished.revision;
      const isOwn = kept !== null && 'player' in kept && writerOf(row) === writer;
      if (!isKept && (isNext || (isOwn && unfinished.changedAt >= kept.changedAt))) {
        const revision = Math.max(unfinished.revision, revisionOf(row)) + 1;
        await rows.put('players', id, rowOf({ ...unfinished, revision }, writer));
      } else if (!isKept && !isOwn) {
        const copy = copyFromThisTab(player, idOf);
        await rows.put('players', copy.id, rowOf({ player: copy, revision: 1, changedAt: now() }, writer));
      }
      await rows.delete('unfinished', id);
    }
  });
  for (const [id, note] of notes) if ('player' in readRow(id, note)) left.forget(id, now());
}

/** Under which the page remembers how far a removed player's revisions went. */
const goneKey = (id: string): string => `gone ${id}`;

function rowOf({ player, revision, changedAt }: KeptPlayer, writer: string): Row {
  return { file: playersFile([player]), revision, changedAt, writer };
}

function writerOf(row: unknown): string {
  const writer = typeof row === 'object' && row !== null ? (row as Partial<Row>).writer : undefined;
  // Rows without one were written by nobody who left anything.
  return typeof writer === 'string' ? writer : newId();
}

/** 0 for no row; NaN, which equals nothing, for one that cannot be read. */
function revisionOf(row: unknown): number {
  if (row === undefined) return 0;
  const revision = typeof row === 'object' && row !== null ? (row as Partial<Row>).revision : undefined;
  return typeof revision === 'number' && Number.isInteger(revision) && revision >= 0 ? revision : Number.NaN;
}

/** A row is read with the care given to a file: somebody else's program may have written it. */
function readRow(id: string, row: unknown): KeptPlayer | DamagedPlayer {
  const revision = revisionOf(row);
  if (Number.isNaN(revision)) return damaged(id, row, sayRecords('revisionUnreadable'));
  const { file, changedAt } = row as Row;
  // Rows of version 1 hold no id: theirs is the key they stand under.
  const parsed = parsePlayers(file, () => id);
  if (parsed.kind === 'refused') return damaged(id, row, parsed.message);
  const [player] = parsed.players;
  if (player === undefined || parsed.players.length > 1 || player.id !== id) return damaged(id, row, sayRecords('anotherPlayer', { id }));
  return { player, revision, changedAt: typeof changedAt === 'number' && Number.isFinite(changedAt) ? changedAt : 0 };
}

function damaged(id: string, row: unknown, message: string): DamagedPlayer {
  return { id, message: sayKeeping('damagedRow', { id, why: message }), text: textOf(row) };
}

function textOf(row: unknown): string {
  try {
    return JSON.stringify(row, null, 2);
  } catch {
    return String(row);
  }
}

function summaryOf({ player, revision, changedAt }: KeptPlayer): PlayerSummary {
  const dates = player.lessons.flatMap(({ date }) => (date === undefined ? [] : [date])).sort();
  const { id, label, instrument, lessons } = player;
  return { id, label, instrument, lessons: lessons.length, lastDate: dates.at(-1) ?? null, revision, changedAt };
}

async function within(ms: number, timers: Timers, work: Promise<void>): Promise<void> {
  let timer: unknown;
  await Promise.race([work, new Promise<void>((resolve) => (timer = timers.setTimeout(() => resolve(), ms)))]);
  timers.clearTimeout(timer as never);
}

function wordsOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}

function browserSurroundings(): ShelfSurroundings {
  return { factory: browserFactory(), timers: globalThis, notes: browserStorage(), now: () => Date.now(), idOf: newId };
}

/** Some browsers throw even when asked whether they have one. */
function browserFactory(): IDBFactory | undefined {
  try {
    return globalThis.indexedDB ?? undefined;
  } catch {
    return undefined;
  }
}
