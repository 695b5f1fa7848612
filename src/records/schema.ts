/**
 * The record file: its schema and the doors through which players come in and go out. Versions 1 to 5 are read; written is the lowest
 * from 2 on that knows everything in it (recordVersions.ts).
 * docs/record.schema.json is written from `fileSchema` (`npm run schema`).
 */
import * as z from 'zod/mini';
import type { KeptMeasuring, LessonSpec, PlayerSpec } from '../core/specs';
import { sayRecords } from '../words/records';
import { exactly, fields, identifier, list, oneOf, text } from './fields';
import { measuringSchema } from './measuringSchema';
import { type NewId, newId } from './newId';
import { MOST_PLAYERS, idTwice, lessonShellSchema, mouthSchema, playerSchema } from './playerSchema';
import { migrateRecord1, record1Schema } from './record1';
import { MEASURED_VERSION, PICTURE_VERSION, PLAIN_VERSION, RECORD_VERSION, WRITTEN_VERSIONS, type WrittenVersion, beyondVersion, versionFor, withPictureMethod } from './recordVersions';
import { oneLine, refusalWords, valueWords } from './refusal';
import { MOST_SCANS, MOST_SCAN_TEXT, type ScanInFile } from './scansInFile';

const RECORD_FORMAT = 'rimpath-record';
type ReadVersion = 1 | WrittenVersion;
/**
 * A lesson of 15 readings with every field takes about 4 kB, a measuring of 30 seconds filmed from two sides some 90 kB: this is
 * more than a thousand lessons with such a measuring each, years of a full studio.
 */
export const LARGEST_FILE_BYTES = 100_000_000;

/** Longer than any list of the format: such a list is refused before anyone looks at what is in it. */
const LONGEST_LIST = 2000;
/** Deeper than anything in the format; below this the schema refuses by itself. */
const DEEPEST = 14;

export type ParsedPlayers =
  | {
      readonly kind: 'players';
      readonly players: readonly PlayerSpec[];
      readonly fromVersion: ReadVersion;
      /** Scans that came with them; absent where there are none. */
      readonly scans?: readonly ScanInFile[];
    }
  | { readonly kind: 'refused'; readonly message: string };

const scanSchema = fields('A jaw’s scan', {
  id: identifier('The arch’s scanned.id'),
  jaw: oneOf(['upper', 'lower'], 'Which jaw'),
  packed: text(MOST_SCAN_TEXT, 'Its triangles packed, as Base64: src/scans/packMesh.ts'),
});

export const fileSchema = fileWith(playerSchema);
/** The file with its players still unread. */
const shellSchema = fileWith(z.unknown());

/**
 * Reads a parsed JSON value. The message of a refusal is one line: field, value, what is allowed.
 * A file of version 1 holds no ids: its player and lesson get new ones.
 */
export function parsePlayers(value: unknown, idOf: NewId = newId): ParsedPlayers {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return refused(sayRecords('refused', { place: sayRecords('record'), value: valueWords(value), allowed: sayRecords('recordObject', { format: RECORD_FORMAT }) }));
  }
  // First of all whether it is ours and of a version that is known: the rest of a newer file means nothing here.
  const { format, version } = value as { format?: unknown; version?: unknown };
  if (format !== RECORD_FORMAT) return refused(sayRecords('refused', { place: 'format', value: valueWords(format), allowed: `"${RECORD_FORMAT}"` }));
  if (version !== 1 && !isWritten(version)) {
    const isNewer = Number.isInteger(version) && (version as number) > RECORD_VERSION;
    const words = isNewer ? sayRecords('newer', { value: valueWords(version) }) : valueWords(version);
    return refused(sayRecords('refused', { place: 'version', value: words, allowed: sayRecords('versions', { newest: RECORD_VERSION }) }));
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
  if (twice >= 0) return refused(sayRecords('refused', { place: `players[${twice}].id`, value: valueWords(players[twice]?.id), allowed: sayRecords('playerOnce') }));
  const beyond = beyondVersion(players, version);
  if (beyond !== null) return refused(sayRecords('refused', { place: 'version', value: version, allowed: beyond }));
  const { scans } = shell.data;
  return {
    kind: 'players', players: version >= PICTURE_VERSION ? players : players.map(withPictureMethod), fromVersion: version, ...(scans === undefined ? {} : { scans }),
  };
}

/** Reads a record file's text. */
export function parsePlayersText(json: string, idOf: NewId = newId): ParsedPlayers {
  if (json.length > LARGEST_FILE_BYTES) {
    return refused(sayRecords('fileTooLong', { count: json.length, most: LARGEST_FILE_BYTES }));
  }
  if (json.trim() === '') return refused(sayRecords('fileEmpty'));
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch (error) {
    const detail = error instanceof Error ? oneLine(error.message) : sayRecords('unreadable');
    return refused(sayRecords('fileNotJson', { detail }));
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
    const read = readLesson(lesson);
    if (Array.isArray(read)) return refusalWords(underneath(['lessons', index], read), player);
    for (const one of [lesson, ...(lesson.measurings ?? [])]) foundRight.add(one);
  }
  const twice = idTwice(lessons);
  return twice === null ? null : sayRecords('lessonIdTwice', { allowed: twice.allowed });
}

const isWritten = (version: unknown): version is WrittenVersion => (WRITTEN_VERSIONS as readonly unknown[]).includes(version);

const foundRight = new WeakSet<LessonSpec | KeptMeasuring>();

/** The file's value for these players, as it is exchanged and kept. */
export function playersFile(players: readonly PlayerSpec[]) {
  return { format: RECORD_FORMAT, version: versionFor(players), players } as const;
}

/** The file's text: laid out for reading for one player; of many, which nobody reads, without the spaces that would more than double it. */
export function playersFileText(players: readonly PlayerSpec[], scans: readonly ScanInFile[] = []): string {
  return `${JSON.stringify({ ...playersFile(players), ...(scans.length === 0 ? {} : { scans }) }, null, players.length > 1 ? 0 : 2)}\n`;
}

type Issue = z.core.$ZodIssue;

function refused(message: string): ParsedPlayers {
  return { kind: 'refused', message };
}

function fileWith<T extends z.core.$ZodType>(player: T) {
  return fields('A record file, versions 2 to 5', {
    format: exactly(RECORD_FORMAT),
    version: z
      .literal([...WRITTEN_VERSIONS], { error: () => sayRecords('writtenVersions', { first: PLAIN_VERSION, newest: RECORD_VERSION }) })
      .check(
        z.describe(
          `${PLAIN_VERSION}; ${MEASURED_VERSION} where there are measurings, or readings with from; ${PICTURE_VERSION} where pictures were measured, a method is "picture", or a measuring has home; ${RECORD_VERSION} where a travel has rightSdMm, or an arch has measured or scanned`,
        ),
      ),
    players: list(player, 1, MOST_PLAYERS, 'One player or many'),
    scans: z.optional(list(scanSchema, 1, MOST_SCANS, 'Scans of the jaws, only where a person asked for them; from version 5')),
  });
}

/** One player, or what is wrong with the first part that cannot be read: a hostile file is not to fill the memory with complaints. */
function readPlayer(unread: unknown): PlayerSpec | Issue[] {
  const mouth = z.safeParse(mouthSchema, unread);
  if (!mouth.success) return mouth.error.issues;
  const lessons: LessonSpec[] = [];
  for (const [index, one] of mouth.data.lessons.entries()) {
    const lesson = readLesson(one);
    if (Array.isArray(lesson)) return underneath(['lessons', index], lesson);
    lessons.push(lesson);
  }
  const twice = idTwice(lessons);
  if (twice !== null) return [{ code: 'custom', input: unread, path: twice.path, message: twice.allowed }];
  return { ...mouth.data, lessons };
}

/** The same for one lesson; a measuring of a kept player that was found right is not looked into again. */
function readLesson(unread: unknown): LessonSpec | Issue[] {
  const shell = z.safeParse(lessonShellSchema, unread);
  if (!shell.success) return shell.error.issues;
  const { measurings: listed, ...lesson } = shell.data;
  if (listed === undefined) return lesson;
  const measurings: KeptMeasuring[] = [];
  for (const [index, one] of listed.entries()) {
    if (isFoundRight(one)) {
      measurings.push(one);
      continue;
    }
    const measuring = z.safeParse(measuringSchema, one);
    if (!measuring.success) return underneath(['measurings', index], measuring.error.issues);
    measurings.push(measuring.data);
  }
  return { ...lesson, measurings };
}

const isFoundRight = (one: unknown): one is KeptMeasuring => typeof one === 'object' && one !== null && foundRight.has(one as KeptMeasuring);

function underneath(path: readonly PropertyKey[], issues: readonly Issue[]): Issue[] {
  return issues.map((issue) => ({ ...issue, path: [...path, ...issue.path] }));
}

/** The first list that is longer than any in the format, as a complaint. */
function longList(root: unknown): Issue | null {
  const open: { readonly value: object; readonly path: readonly PropertyKey[] }[] = [{ value: root as object, path: [] }];
  for (let next = open.pop(); next !== undefined; next = open.pop()) {
    const { value, path } = next;
    if (Array.isArray(value) && value.length > LONGEST_LIST) {
      return { code: 'custom', input: value, path: [...path], message: sayRecords('listUpTo', { most: LONGEST_LIST }) };
    }
    if (path.length >= DEEPEST) continue;
    const inside: [PropertyKey, unknown][] = Array.isArray(value) ? [...value.entries()] : Object.entries(value);
    for (const [key, one] of inside) if (typeof one === 'object' && one !== null) open.push({ value: one, path: [...path, key] });
  }
  return null;
}
