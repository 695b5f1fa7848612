/** Files of players as a browser hands them over, and the names that such files are given. */
import { fileNamePart } from '../core/fileNames';
import type { PlayerSpec } from '../core/specs';
import { sayRecords } from '../words/records';
import { type NewId, newId } from './newId';
import { LARGEST_FILE_BYTES, type ParsedPlayers, parsePlayersText } from './schema';

/** Reads a chosen or dropped file. One that is too large is refused unread; the message of a refusal is one line. */
export async function readPlayersFile(file: Pick<Blob, 'size' | 'arrayBuffer'>, idOf: NewId = newId): Promise<ParsedPlayers> {
  if (file.size > LARGEST_FILE_BYTES) return { kind: 'refused', message: sayRecords('fileTooLarge', { count: file.size, most: LARGEST_FILE_BYTES }) };
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return { kind: 'refused', message: sayRecords('fileUnread') };
  }
  let text: string;
  try {
    // A byte order mark is skipped, as editors on Windows write it; any other encoding is refused.
    text = new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return { kind: 'refused', message: sayRecords('fileNotText') };
  }
  return parsePlayersText(text, idOf);
}

/** `day` as in 2026-03-01. */
export function playersFileName(players: readonly PlayerSpec[], day: string): string {
  const [player] = players;
  const label = player === undefined || players.length > 1 ? sayRecords('manyPlayersFile') : fileNamePart(player.label);
  return `rimpath-${label}-${day}.json`;
}
