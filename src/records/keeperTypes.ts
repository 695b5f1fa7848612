/** What the keeper is given, says and does. Types only. */
import type { PlayerSpec } from '../core/specs';
import type { Timers } from './connection';
import type { NewId } from './newId';
import type { Locks } from './playerLock';

export type KeeperState =
  /** `message`: something that the reader should know although all is kept; null: nothing. */
  | { readonly kind: 'saved'; readonly message: string | null }
  | { readonly kind: 'saving' }
  | { readonly kind: 'not-kept'; readonly message: string }
  /** Another tab has the player: here it is only to be looked at. */
  | { readonly kind: 'elsewhere'; readonly message: string };

/** The page's own player. */
export interface KeptSource {
  current(): PlayerSpec;
  /** True while a hand drags: then saving waits for it to let go. */
  isDragging(): boolean;
  /** Called after every change of the player and when a drag ends. */
  subscribe(listener: () => void): () => void;
  /** The page's player becomes another: what is kept is newer, or what was changed here goes on as a copy. */
  replace(edit: (player: PlayerSpec) => PlayerSpec): void;
}

export interface KeeperStart {
  /** The revision that the source's player was read at; 0: it is not kept before its first change. */
  readonly revision: number;
  /** False for invented players: nothing is asked of the browser for their sake. */
  readonly own: boolean;
}

export interface Keeper {
  state(): KeeperState;
  /** True while something of the player is not kept. */
  isChanged(): boolean;
  subscribe(listener: () => void): () => void;
  /** Asks the other tab to save and let go, then shows the newest. Where it does not answer, the state says so. */
  takeOver(): Promise<void>;
  /** Saves what is not saved yet; resolves when that is done. */
  flush(): Promise<void>;
  /** The same, and lets the player go. */
  close(): Promise<void>;
}

/** The part of a BroadcastChannel that is used. */
export interface Channel {
  onmessage: ((event: MessageEvent) => void) | null;
  postMessage(message: unknown): void;
  close(): void;
}

export interface KeeperSurroundings {
  readonly timers: Timers;
  readonly locks: Locks | undefined;
  readonly channel: (() => Channel) | undefined;
  readonly storage: Pick<StorageManager, 'persist' | 'persisted'> | undefined;
  /** Calls the listener when the page is hidden or left. */
  readonly onHide: (listener: () => void) => () => void;
  readonly idOf: NewId;
}
