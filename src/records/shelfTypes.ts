/** What the shelf keeps and answers. Types only; nothing here throws: what went wrong is an answer with words for the reader. */
import type { PlayerSpec } from '../core/specs';

export interface KeptPlayer {
  readonly player: PlayerSpec;
  /** Counted from 1 and one more with every save; 0 stands for a player that is not kept yet. */
  readonly revision: number;
  /** When it was last saved, milliseconds since 1970. */
  readonly changedAt: number;
}

export interface PlayerSummary {
  readonly id: string;
  readonly label: string;
  readonly instrument: string;
  readonly lessons: number;
  /** The latest day of its lessons; null where no day was written down. */
  readonly lastDate: string | null;
  readonly revision: number;
  readonly changedAt: number;
}

/** Something kept that cannot be read. It is left where it is; `text` is all of it, so that it can be saved as a file. */
export interface DamagedPlayer {
  readonly id: string;
  readonly message: string;
  readonly text: string;
}

/** `message` says why nothing could be read; null: everything that is there was read. */
export interface Listing {
  readonly players: readonly PlayerSummary[];
  readonly damaged: readonly DamagedPlayer[];
  readonly message: string | null;
}

export interface Everything {
  readonly players: readonly KeptPlayer[];
  readonly damaged: readonly DamagedPlayer[];
  readonly message: string | null;
}

export interface NotSaved {
  readonly kind: 'not-saved';
  readonly message: string;
}

/** Somebody saved or removed it since: nothing was changed. `current` is what is kept now; null: nothing, or nothing that can be read. */
export interface Conflict {
  readonly kind: 'conflict';
  readonly id: string;
  readonly current: KeptPlayer | null;
}

export type Got =
  | ({ readonly kind: 'player' } & KeptPlayer)
  | { readonly kind: 'none' }
  | ({ readonly kind: 'damaged' } & DamagedPlayer)
  | { readonly kind: 'not-read'; readonly message: string };

export type Saved = { readonly kind: 'saved'; readonly revision: number } | Conflict | NotSaved;

export interface RemovedPlayer {
  readonly id: string;
  /** As it was kept, for `restore`; nobody else reads it. */
  readonly row: unknown;
}

export type Removed = { readonly kind: 'removed'; readonly removed: RemovedPlayer } | { readonly kind: 'none' } | NotSaved;

export type Imported = { readonly kind: 'imported'; readonly players: readonly KeptPlayer[] } | Conflict | NotSaved;

/** What is to be kept, and the revision it grew from: 0 for a new player. */
export interface ToSave {
  readonly player: PlayerSpec;
  readonly revision: number;
}

export interface Shelf {
  /** False where everything is gone when the page is closed. */
  readonly lasting: boolean;
  /** What the reader should know about it, such as why nothing lasts and what to do; null: nothing. */
  readonly message: string | null;
  list(): Promise<Listing>;
  /** Every player whole, for a file of everything. */
  all(): Promise<Everything>;
  get(id: string): Promise<Got>;
  /** Keeps the player if nobody else has saved it since `revision`. One transaction. */
  save(player: PlayerSpec, revision: number): Promise<Saved>;
  /**
   * For a page that is being left and may not live to see an answer: what is put down here is saved when the shelf is next opened,
   * unless a `save` of the same player came through after all.
   */
  leave(player: PlayerSpec, revision: number): void;
  /** All of them or, where one was changed by somebody else since, none. One transaction. */
  importPlayers(players: readonly ToSave[]): Promise<Imported>;
  remove(id: string): Promise<Removed>;
  /** Beside the one that has come into its place meanwhile, under an id of its own; a conflict only where it cannot be read. */
  restore(removed: RemovedPlayer): Promise<Saved>;
  /** A small value of the page's own, such as which player was open; undefined where there is none. */
  getPage(key: string): Promise<unknown>;
  /** False where it was not kept, which is no loss to speak of. */
  setPage(key: string, value: unknown): Promise<boolean>;
  close(): void;
}
