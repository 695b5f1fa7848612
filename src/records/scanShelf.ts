/**
 * Scans, kept only in this browser: in a database of their own, so that forgetting them touches no player. Nothing here throws: what went wrong is
 * an answer with words for the reader.
 */
import type { IDBPDatabase } from 'idb';
import { sayScans } from '../words/scans';
import { type DatabasePlan, NotOpenedError, type Timers, type WhyNotOpened } from './connection';
import { NoStoreError, createLateDatabase } from './lateDatabase';

export type ScannedJawName = 'upper' | 'lower';

/** One jaw of a scan, by the arch's `scanned.id`. Its file's name is not kept: it may be a person's. */
export interface KeptScan {
  readonly id: string;
  readonly jaw: ScannedJawName;
  readonly bytes: number;
  /** The player whose mouth it is, by whom it was taken in; absent where it was kept before this was written down. */
  readonly of?: string | undefined;
}

export interface ScanStoreFailed {
  readonly kind: 'failed';
  readonly message: string;
}

export type ScanGot = (KeptScan & { readonly kind: 'scan'; readonly packed: Uint8Array<ArrayBuffer> }) | { readonly kind: 'none' } | ScanStoreFailed;
export type ScanList = { readonly kind: 'scans'; readonly scans: readonly KeptScan[] } | ScanStoreFailed;

export interface ScanShelf {
  /** In the place of what is kept of the same jaw. */
  put(scan: Omit<KeptScan, 'bytes'>, packed: Uint8Array<ArrayBuffer>): Promise<{ readonly kind: 'kept' } | ScanStoreFailed>;
  get(id: string, jaw: ScannedJawName): Promise<ScanGot>;
  /** Without the triangles. */
  list(): Promise<ScanList>;
  /** Both jaws of a scan; without `id`, all there are. */
  forget(id?: string): Promise<{ readonly kind: 'forgotten'; readonly count: number } | ScanStoreFailed>;
}

const SCANS_DATABASE_NAME = 'rimpath-scans';
const STORE = 'scans';
const PLAN: DatabasePlan = { name: SCANS_DATABASE_NAME, upgrades: [(database) => void database.createObjectStore(STORE)], stores: [STORE] };

export function createScanShelf(factory: IDBFactory | undefined = browserFactory(), timers: Timers = globalThis): ScanShelf {
  const database = createLateDatabase(factory, timers, PLAN);
  const answered = async <T>(work: (database: IDBPDatabase) => Promise<T>): Promise<T | ScanStoreFailed> => {
    try {
      return await database.within(work);
    } catch (error) {
      return { kind: 'failed', message: wordsOf(error) };
    }
  };
  return {
    put: ({ id, jaw, of }, packed) =>
      answered(async (database) => {
        await database.put(STORE, { id, jaw, of, bytes: packed.length, packed }, [id, jaw]);
        return { kind: 'kept' };
      }),
    get: (id, jaw) =>
      answered(async (database): Promise<ScanGot> => {
        const row: unknown = await database.get(STORE, [id, jaw]);
        return isRow(row) ? { kind: 'scan', ...row } : { kind: 'none' };
      }),
    list: () =>
      answered(async (database): Promise<ScanList> => {
        const scans: KeptScan[] = [];
        // One row at a time: all of them together may be more than a small machine holds.
        for (let cursor = await database.transaction(STORE).store.openCursor(); cursor !== null; cursor = await cursor.continue()) {
          const row: unknown = cursor.value;
          if (isRow(row)) scans.push({ id: row.id, jaw: row.jaw, bytes: row.bytes, of: row.of });
        }
        return { kind: 'scans', scans };
      }),
    forget: (wanted) =>
      answered(async (database) => {
        const keys = (await database.getAllKeys(STORE)).filter((key) => wanted === undefined || (Array.isArray(key) && key[0] === wanted));
        for (const key of keys) await database.delete(STORE, key);
        return { kind: 'forgotten', count: keys.length };
      }),
  };
}

type ScanRow = KeptScan & { readonly packed: Uint8Array<ArrayBuffer> };

function isRow(row: unknown): row is ScanRow {
  const { id, jaw, bytes, of, packed } = (typeof row === 'object' && row !== null ? row : {}) as Partial<Record<keyof ScanRow, unknown>>;
  return typeof id === 'string' && (jaw === 'upper' || jaw === 'lower') && typeof bytes === 'number' && (of === undefined || typeof of === 'string') && packed instanceof Uint8Array;
}

function wordsOf(error: unknown): string {
  if (error instanceof NoStoreError) return sayScans('noStore');
  if (error instanceof NotOpenedError) return sayScans(NOT_OPENED[error.why]);
  const name = error instanceof Error ? error.name : '';
  return /quota/i.test(name) ? sayScans('storeFull') : sayScans('storeFailed', { named: name === '' ? 'no' : 'yes', name });
}

const NOT_OPENED = { refused: 'storeRefused', full: 'storeFull', newer: 'storeNewer', silent: 'storeSilent', 'other-tab': 'storeOtherTab' } as const satisfies Record<WhyNotOpened, string>;

/** Some browsers throw even when asked whether they have one. */
function browserFactory(): IDBFactory | undefined {
  try {
    return globalThis.indexedDB ?? undefined;
  } catch {
    return undefined;
  }
}
