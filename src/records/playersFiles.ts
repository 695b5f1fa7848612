/** Files of players as a browser hands them over, and the names that such files are given. */
import { fileNamePart } from '../core/fileNames';
import type { PlayerSpec } from '../core/specs';
import { type NewId, newId } from './newId';
import { LARGEST_FILE_BYTES, type ParsedPlayers, parsePlayersText } from './schema';

/** Reads a chosen or dropped file. One that is too large is refused unread; the message of a refusal is one line. */
export async function readPlayersFile(file: Pick<Blob, 'size' | 'arrayBuffer'>, idOf: NewId = newId): Promise<ParsedPlayers> {
  if (file.size > LARGEST_FILE_BYTES) return { kind: 'refused', message: `file: ${file.size} bytes; allowed: up to ${LARGEST_FILE_BYTES}` };
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return { kind: 'refused', message: 'file: cannot be read; allowed: a readable JSON file' };
  }
  let text: string;
  try {
    // A byte order mark is skipped, as editors on Windows write it; any other encoding is refused.
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return { kind: 'refused', message: 'file: not UTF-8 text; allowed: a JSON file in UTF-8' };
  }
  return parsePlayersText(text, idOf);
}

/** `day` as in 2026-03-01. */
export function playersFileName(players: readonly PlayerSpec[], day: string): string {
  const [player] = players;
  const label = player === undefined || players.length > 1 ? 'players' : fileNamePart(player.label);
  return `rimpath-${label}-${day}.json`;
}
