/**
 * The record file: its schema and the doors through which players come in and go out. Version 2 is written; 1 and 2 are read.
 * docs/record.schema.json is written from `fileSchema` (`npm run schema`).
 */
import * as z from 'zod/mini';
import type { LessonSpec, PlayerSpec } from '../core/specs';
import { exactly, fields, list } from './fields';
import { type NewId, newId } from './newId';
import { MOST_PLAYERS, idTwice, lessonSchema, mouthSchema, playerSchema } from './playerSchema';
import { migrateRecord1, record1Schema } from './record1';
import { oneLine, refusalWords, valueWords } from './refusal';

export const RECORD_FORMAT = 'rimpath-record';
export const RECORD_VERSION = 2;
/** A lesson of 15 readings with every field takes about 4 kB: this is more than ten thousand of them, many years of a full studio. */
export const LARGEST_FILE_BYTES = 50_000_000;

/** Longer than any list of the format: such a list is refused before anyone looks at what is in it. */
const LONGEST_LIST = 500;
/** Deeper than anything in the format; below this the schema refuses by itself. */
const DEEPEST = 12;

export type ParsedPlayers =
  | { readonly kind: 'players'; readonly players: readonly PlayerSpec[]; readonly fromVersion: 1 | 2 }
  | { readonly kind: 'refused'; readonly message: string };

export const fileSchema = fileWith(playerSchema);
/** The file with its players still unread. */
const shellSchema = fileWith(z.unknown());

/**
 * Reads a parsed JSON value. The message of a refusal is one line: field, value, what is allowed.
 * A file of version 1 holds no ids: its player and lesson get new ones.
 */
export function parsePlayers(value: unknown, idOf: NewId = newId): ParsedPlayers {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refused(`record: ${valueWords(value)}; allowed: an object with "format": "${RECORD_FORMAT}"`);
  }
  // First of all whether it is ours and of a version that is known: the rest of a newer file means nothing here.
  const { format, version } = value as { format?: unknown; version?: unknown };
  if (format !== RECORD_FORMAT) return refused(`format: ${valueWords(format)}; allowed: "${RECORD_FORMAT}"`);
  if (version !== 1 && version !== RECORD_VERSION) {
    const newer = Number.isInteger(version) && (version as number) > RECORD_VERSION ? ' is newer than this program reads' : '';
    return refused(`version: ${valueWords(version)}${newer}; allowed: 1 or ${RECORD_VERSION}`);
  }
  const tooLong = longList(value);
  if (tooLong !== null) return refused(refusalWords([tooLong], value));
  if (version === 1) {
    const result = z.safeParse(record1Schema, value);
    if (!result.success) return refused(refusalWords(result.error.issues, value));
    return { kind: 'players', players: [migrateRecord1(result.data, { player: idOf(), lesson: idOf() })], fromVersion: 1 };
  }
  const shell = z.safeParse(shellSchema, value);
  if (!shell.success) return refused(refusalWords(shell.error.issues, value));
  const players: PlayerSpec[] = [];
  for (const [index, unread] of shell.data.players.entries()) {
    const player = readPlayer(unread);
    if (Array.isArray(player)) return refused(refusalWords(underneath(['players', index], player), value));
    players.push(player);
  }
  const twice = players.findIndex(({ id }, index) => players.findIndex((other) => other.id === id) < index);
  if (twice >= 0) return refused(`players[${twice}].id: ${valueWords(players[twice]?.id)}; allowed: each player once`);
  return { kind: 'players', players, fromVersion: 2 };
}

/** Reads a record file's text. */
export function parsePlayersText(json: string, idOf: NewId = newId): ParsedPlayers {
  if (json.length > LARGEST_FILE_BYTES) {
    return refused(`file: ${json.length} characters; allowed: up to ${LARGEST_FILE_BYTES}`);
  }
  if (json.trim() === '') return refused('file: empty; allowed: a JSON object');
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch (error) {
    const detail = error instanceof Error ? oneLine(error.message) : 'unreadable';
    return refused(`file: not JSON (${detail}); allowed: a JSON object`);
  }
  return parsePlayers(value, idOf);
}

/**
 * Why this player, written to a file, could not be read again, in one line; null where it could. Lessons that were found right are
 * known again, so that only what was changed since is looked at.
 */
export function faultOfPlayer(player: PlayerSpec): string | null {
  const { lessons } = player;
  const shell = z.safeParse(mouthSchema, player);
  if (!shell.success) return refusalWords(shell.error.issues, player);
  for (const [index, lesson] of lessons.entries()) {
    if (foundRight.has(lesson)) continue;
    const read = z.safeParse(lessonSchema, lesson);
    if (!read.success) return refusalWords(underneath(['lessons', index], read.error.issues), player);
    foundRight.add(lesson);
  }
  const twice = idTwice(lessons);
  return twice === null ? null : `lessons: the same id twice; allowed: ${twice.allowed}`;
}

const foundRight = new WeakSet<LessonSpec>();

/** The file's value for these players, as it is exchanged and kept. */
export function playersFile(players: readonly PlayerSpec[]) {
  return { format: RECORD_FORMAT, version: RECORD_VERSION, players } as const;
}

/** The file's text: laid out for reading for one player; of many, which nobody reads, without the spaces that would more than double it. */
export function playersFileText(players: readonly PlayerSpec[]): string {
  return `${JSON.stringify(playersFile(players), null, players.length > 1 ? 0 : 2)}\n`;
}

type Issue = z.core.$ZodIssue;

function refused(message: string): ParsedPlayers {
  return { kind: 'refused', message };
}

function fileWith<T extends z.core.$ZodType>(player: T) {
  return fields('A record file, version 2', {
    format: exactly(RECORD_FORMAT),
    version: exactly(RECORD_VERSION),
    players: list(player, 1, MOST_PLAYERS, 'One player or many'),
  });
}

/** One player, or what is wrong with the first part that cannot be read: a hostile file is not to fill the memory with complaints. */
function readPlayer(unread: unknown): PlayerSpec | Issue[] {
  const mouth = z.safeParse(mouthSchema, unread);
  if (!mouth.success) return mouth.error.issues;
  const lessons: LessonSpec[] = [];
  for (const [index, one] of mouth.data.lessons.entries()) {
    const lesson = z.safeParse(lessonSchema, one);
    if (!lesson.success) return underneath(['lessons', index], lesson.error.issues);
    lessons.push(lesson.data);
  }
  const twice = idTwice(lessons);
  if (twice !== null) return [{ code: 'custom', input: unread, path: twice.path, message: twice.allowed }];
  return { ...mouth.data, lessons };
}

function underneath(path: readonly PropertyKey[], issues: readonly Issue[]): Issue[] {
  return issues.map((issue) => ({ ...issue, path: [...path, ...issue.path] }));
}

/** The first list that is longer than any in the format, as a complaint. */
function longList(root: unknown): Issue | null {
  const open: { readonly value: object; readonly path: readonly PropertyKey[] }[] = [{ value: root as object, path: [] }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { value, path } = next;
    if (Array.isArray(value) && value.length > LONGEST_LIST) {
      return { code: 'custom', input: value, path: [...path], message: `a list of up to ${LONGEST_LIST}` };
    }
    if (path.length >= DEEPEST) continue;
    const inside: [PropertyKey, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
    for (const [key, one] of inside) if (typeof one === 'object' && one !== null) open.push({ value: one, path: [...path, key] });
  }
  return null;
}
