/**
 * A picture as it is given to somebody else: one lesson of a player and how it was looked at. The same text stands compressed in a link
 * and as it is in one file, and is read with the care given to a file. Pure: no page, no storage.
 */
import * as z from 'zod/mini';
import { lessonOf } from '../core/lessons';
import type { ArchSpec, KeptMeasuring, LessonSpec, PlayerSpec, ReadingSpec } from '../core/specs';
import { sayRecords } from '../words/records';
import { saySharing } from '../words/sharing';
import { exactly, fields, oneOf, whole, yesOrNo } from './fields';
import { type Measuring, readMeasuring } from './measuringSchema';
import { MOST_READINGS } from './readingRanges';
import { type NewId, newId } from './newId';
import { oneLine, refusalWords, valueWords } from './refusal';
import { LARGEST_FILE_BYTES, parsePlayers, playersFile } from './schema';

const PICTURE_FORMAT = 'rimpath-picture';
export const PICTURE_VERSION = 1;

/** How the picture was looked at: camera, view of the angle, horn held or following, the chosen reading by its place in the lesson. */
export type PictureView = Readonly<z.infer<typeof viewSchema>>;

export interface SharedPicture {
  /** With the one lesson. */
  readonly player: PlayerSpec;
  readonly view: PictureView;
}

/** What a picture holds only where the giver ticked it. */
export interface ShareTicks {
  /** The label and the lesson's day. */
  readonly label: boolean;
  /** Every remark, and what the player is to try. */
  readonly remarks: boolean;
  /** What readings were measured from: marks and traces, never the films themselves, whose names go only with the label; and bite prints, as points. */
  readonly measurings: boolean;
}

export const NOTHING_TICKED: ShareTicks = { label: false, remarks: false, measurings: false };

/** How much of the lesson: all of it, all but the try-outs, or the chosen note and home. */
export type ShareExtent = 'lesson' | 'readings' | 'note';

export interface ShareChoice {
  readonly extent: ShareExtent;
  readonly ticks: ShareTicks;
}

export type ParsedPicture = { readonly kind: 'picture'; readonly picture: SharedPicture } | { readonly kind: 'refused'; readonly message: string };

const viewSchema = fields('How the picture was looked at', {
  camera: oneOf(['three-quarter', 'face', 'mirror', 'side', 'above'], 'From where'),
  angles: oneOf(['plate', 'sphere', 'normal', 'seated'], 'Which view of the angle'),
  horn: oneOf(['follow', 'held'], 'Whether the horn follows or is held'),
  selected: whole(0, MOST_READINGS - 1, '', 'The chosen reading’s place among the readings'),
  cutOpen: yesOrNo(),
  toothNumbers: yesOrNo(),
});

const pictureSchema = fields('A shared picture', {
  format: exactly(PICTURE_FORMAT),
  version: exactly(PICTURE_VERSION),
  view: viewSchema,
  record: z.optional(z.unknown()),
});

/** What is given away of a lesson: nothing that names anybody and no word anybody wrote, unless it was ticked. */
export function pictureOf(player: PlayerSpec, lessonId: string, view: PictureView, { extent, ticks }: ShareChoice): SharedPicture {
  const lesson = lessonOf(player, lessonId);
  const chosen = lesson.readings[view.selected];
  const readings = extent === 'note' ? lesson.readings.filter(({ note }) => note === chosen?.note || note === lesson.home?.note) : lesson.readings;
  const tryOuts = extent === 'lesson' ? lesson.tryOuts : [];
  const { date, remark, toTry, measurings } = lesson;
  const given: LessonSpec = {
    id: LESSON_ID,
    ...(ticks.label && date !== undefined && { date }),
    ...(ticks.remarks && remark !== undefined && { remark }),
    rim: lesson.rim,
    force: lesson.force,
    ...(lesson.home !== undefined && { home: lesson.home }),
    upperLipShare: lesson.upperLipShare,
    readings: readings.map((reading) => givenReading(reading, ticks)),
    tryOuts: tryOuts.map(({ change, readings: tried, remark: words }, index) => ({
      id: `${TRY_OUT_ID}${index + 1}`,
      change,
      readings: tried.map((reading) => givenReading(reading, ticks)),
      ...(ticks.remarks && words !== undefined && { remark: words }),
    })),
    ...(ticks.remarks && toTry !== undefined && { toTry }),
    ...(ticks.measurings && measurings !== undefined && { measurings: ticks.label ? measurings : measurings.map(withoutNames) }),
  };
  const { instrument, arch, lips } = player;
  const selected = chosen === undefined ? 0 : Math.max(0, readings.indexOf(chosen));
  return { player: { id: PLAYER_ID, label: ticks.label ? player.label : '', instrument, arch: ticks.measurings ? arch : withoutPrints(arch), lips, lessons: [given] }, view: { ...view, selected } };
}

/** The points of a bite print are the player's own teeth: the forms stay, as numbers that say nothing of where they come from. */
function withoutPrints(arch: ArchSpec): ArchSpec {
  if ('single' in arch || arch.measured?.prints === undefined) return arch;
  const { measured: _measured, ...forms } = arch;
  return forms;
}

/**
 * The picture as text, every field in the format's own order, so that like pictures give like texts. Throws RangeError for a player that
 * could not be read again.
 */
export function pictureText({ player, view }: SharedPicture): string {
  const parsed = parsePlayers(playersFile([player]));
  if (parsed.kind === 'refused') throw new RangeError(parsed.message);
  return JSON.stringify({ format: PICTURE_FORMAT, version: PICTURE_VERSION, view: viewSchema.parse(view), record: playersFile(parsed.players) });
}

/** Reads such a text; player and lesson get names of their own, so that nobody who is kept is met by it. */
export function parsePictureText(json: string, idOf: NewId = newId): ParsedPicture {
  if (json.length > LARGEST_FILE_BYTES) return refused(saySharing('pictureTooLong', { count: json.length, most: LARGEST_FILE_BYTES }));
  let value: unknown;
  try {
    value = JSON.parse(json);
  } catch (error) {
    return refused(saySharing('pictureNotJson', { detail: error instanceof Error ? oneLine(error.message) : sayRecords('unreadable') }));
  }
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return refused(saySharing('notAnObject', { value: valueWords(value) }));
  const { format, version } = value as { format?: unknown; version?: unknown };
  if (format !== PICTURE_FORMAT) return refused(sayRecords('refused', { place: 'format', value: valueWords(format), allowed: `"${PICTURE_FORMAT}"` }));
  if (version !== PICTURE_VERSION) {
    const isNewer = Number.isInteger(version) && (version as number) > PICTURE_VERSION;
    const words = isNewer ? sayRecords('newer', { value: valueWords(version) }) : valueWords(version);
    return refused(sayRecords('refused', { place: 'version', value: words, allowed: String(PICTURE_VERSION) }));
  }
  const shell = z.safeParse(pictureSchema, value);
  if (!shell.success) return refused(refusalWords(shell.error.issues, value));
  const record = parsePlayers(shell.data.record, idOf);
  if (record.kind === 'refused') return refused(record.message);
  const [player] = record.players;
  const [lesson] = player?.lessons ?? [];
  if (player === undefined || lesson === undefined || record.players.length > 1 || player.lessons.length > 1) {
    return refused(saySharing('manyLessons'));
  }
  const selected = Math.min(shell.data.view.selected, Math.max(0, lesson.readings.length - 1));
  const named: PlayerSpec = { ...player, id: idOf(), lessons: [{ ...lesson, id: idOf() }] };
  return { kind: 'picture', picture: { player: named, view: { ...shell.data.view, selected } } };
}

/** The same in every picture: who was kept under which name is nobody's business, and it takes no room in a link. */
const PLAYER_ID = 'shared';
const LESSON_ID = 'lesson';
const TRY_OUT_ID = 'try-out-';

function givenReading(reading: ReadingSpec, ticks: ShareTicks): ReadingSpec {
  const { remark, from, ...seen } = reading;
  return { ...seen, ...(ticks.remarks && remark !== undefined && { remark }), ...(ticks.measurings && from !== undefined && { from }) };
}

/** Films are often called after whom they show. Each is known again by its bytes. */
function withoutNames(kept: KeptMeasuring): KeptMeasuring {
  const read = readMeasuring(kept);
  // What cannot be read is refused as the picture's text is made.
  if (read.kind === 'refused') return kept;
  const { measuring } = read;
  const what = measuring.kind === 'film' ? 'film' : 'picture';
  const unnamed: Measuring = { ...measuring, sources: measuring.sources.map((source, index) => ({ ...source, name: `${what}-${index + 1}` })) };
  return unnamed;
}

function refused(message: string): ParsedPicture {
  return { kind: 'refused', message };
}
