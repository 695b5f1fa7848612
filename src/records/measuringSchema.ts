/**
 * A measuring as a record keeps it: which files, what was marked and followed in them, which notes were heard, and what was accepted
 * as readings. Not the films themselves. Places are px of the upright picture (y down), times seconds.
 *
 * The shapes are those of `measure`, which this layer does not import; tests/unit/records/measuringSchema.test.ts holds the two together.
 */
import * as z from 'zod/mini';
import type { KeptMeasuring } from '../core/specs';
import { sayRecords } from '../words/records';
import { above, between, condition, day, fields, identifier, list, note, oneOf, share, shortList, stretchInOrder, text, whole } from './fields';
import { HORN_DEG, HORN_SD_DEG_RANGE, MOST_READINGS, TAKE, TRAVEL_MM, TRAVEL_SD_MM_RANGE } from './readingRanges';
import { refusalWords } from './refusal';

export const MOST_SOURCES = 40;
/** A film marked anew every few seconds where it was lost. */
export const MOST_ANCHORS = 100;
const MOST_MARKED_POINTS = 100;
/** Six notes a second for five minutes, and some. */
const MOST_NOTES_HEARD = 2000;
/** As `measure/packedTrace.ts` packs them; the same numbers stand there. */
export const MOST_KEPT_FRAMES = 72_000;
export const LONGEST_KEPT_SERIES = 3_000_000;
export const LONGEST_KEPT_NAME = 200;

/** Time stamps may begin before 0: sound is sometimes cut in a frame early. The longest is six hours. */
export const FILM_S = [-60, 21_600] as const;
const PLACE_PX = [-100_000, 100_000] as const;
const PICTURE_PX = [1, 30_000] as const;
/** A terabyte. */
const FILE_BYTES = [1, 1e12] as const;
const OFF_TUNE_CENTS = [-1200, 1200] as const;
const LARGEST_CRC32 = 2 ** 32 - 1;

const seconds = (what: string): z.ZodMiniNumber => between(...FILM_S, 's', what);

const pointSchema = fields('A place in the picture', {
  x: between(...PLACE_PX, 'px', 'to the right of the first pixel'),
  y: between(...PLACE_PX, 'px', 'below the first pixel'),
});
const lineSchema = (what: string) => fields(what, { from: pointSchema, to: pointSchema });
const pointsSchema = (fewest: number, what: string) => shortList(pointSchema, fewest, MOST_MARKED_POINTS, what);

const landmark = z.exactOptional(pointSchema);
const landmarksSchema = fields('Points of the skull; what was not marked is absent', {
  'nose-bridge': landmark,
  'inner-eye-right': landmark,
  'inner-eye-left': landmark,
  'outer-eye-right': landmark,
  'outer-eye-left': landmark,
  'cheekbone-right': landmark,
  'cheekbone-left': landmark,
  'ear-right': landmark,
  'ear-left': landmark,
});

export const marksSchema = fields('What a person marked in one frame or picture', {
  rim: z.optional(pointsSchema(0, 'On the rim’s outer edge, in any order')),
  landmarks: landmarksSchema,
  level: z.optional(lineSchema('The head’s level line, from back to front')),
  horn: z.optional(lineSchema('Along the horn, from near the rim toward the bell')),
  hornMarkMm: z.optional(
    fields('How far in front of the rim’s plane the horn’s far mark lies', {
      // Nothing can be worked out from a mark in the rim's own plane, nor from one that is known exactly.
      value: above(0, 5000, 'mm', 'along the horn'),
      sd: above(0, 5000, 'mm', 'standard deviation'),
    }),
  ),
  lipLine: z.optional(pointsSchema(0, 'Where the lips meet inside a clear rim')),
});

const series = (what: string): z.ZodMiniString => text(LONGEST_KEPT_SERIES, `${what}, packed`);
const tracedPoint = z.exactOptional(series('Place and deviation in each frame'));

const packedTraceSchema = fields('What was followed, packed; deviations, whole steps and a check sum are part of it', {
  frames: whole(0, MOST_KEPT_FRAMES, '', 'How many frames'),
  times: series('The time of each frame'),
  rim: z.optional(series('The rim’s ellipse and its deviations in each frame')),
  points: fields('Each point that was followed', {
    'nose-bridge': tracedPoint,
    'inner-eye-right': tracedPoint,
    'inner-eye-left': tracedPoint,
    'outer-eye-right': tracedPoint,
    'outer-eye-left': tracedPoint,
    'cheekbone-right': tracedPoint,
    'cheekbone-left': tracedPoint,
    'ear-right': tracedPoint,
    'ear-left': tracedPoint,
    'level-back': tracedPoint,
    'level-front': tracedPoint,
    'horn-near': tracedPoint,
    'horn-far': tracedPoint,
  }),
  check: whole(0, LARGEST_CRC32, '', 'Check sum of the trace'),
});

const sourceSchema = fields('One film or picture', {
  name: text(LONGEST_KEPT_NAME, 'Name of the file, without folders', 1),
  bytes: whole(...FILE_BYTES, 'bytes', 'size of the file'),
  digest: digest('By which the same file is known again'),
  view: oneOf(['front', 'right', 'left', 'above'], 'Where the camera stood: before the player, at the player’s own right or left, over the head'),
  width: whole(...PICTURE_PX, 'px', 'width of the upright picture'),
  height: whole(...PICTURE_PX, 'px', 'height of the upright picture'),
  durationS: z.optional(between(0, FILM_S[1], 's', 'length of a film; absent for a picture')),
  focalPx: above(0, 1e6, 'px', 'focal length that was reckoned with'),
  focalRelativeSd: between(0, 10, '(no unit)', 'its standard deviation as a part of it'),
  offsetS: z.optional(seconds('to be added to its times to give the first film’s; absent, 0')),
  anchors: shortList(
    fields('One frame with its marks', { timeS: seconds('the frame’s own time; 0 for a picture'), marks: marksSchema }),
    0,
    MOST_ANCHORS,
    'The frames in which a person marked something',
  ),
  trace: z.optional(packedTraceSchema),
});

const noteHeardSchema = fields('A stretch of one note', {
  startS: seconds('beginning, first film’s time'),
  endS: seconds('end, first film’s time'),
  midi: z.nullable(between(0, 127, 'MIDI', 'sounding pitch')).check(z.describe('Sounding pitch, MIDI; null: nobody knows')),
  cents: z.nullable(between(...OFF_TUNE_CENTS, 'cents', 'off the take’s own tuning')).check(z.describe('Off the take’s own tuning, cents; null where it was tapped')),
}).check(condition((heard) => stretchInOrder(heard)));

const soundSchema = fields('What was heard in the take, or tapped', {
  tuningCents: z.nullable(between(...OFF_TUNE_CENTS, 'cents', 'the take’s tuning')).check(z.describe('The take’s tuning off A4 = 440 Hz, cents; null where the notes were tapped')),
  notes: list(noteHeardSchema, 0, MOST_NOTES_HEARD, 'The notes, in the order of time'),
});

const angleSchema = (what: string) =>
  fields(what, { deg: between(...HORN_DEG, 'degrees', what), sdDeg: between(...HORN_SD_DEG_RANGE, 'degrees', 'standard deviation') });

const acceptedSchema = fields('What was accepted as one reading, as it was measured', {
  note: note('Sounding note'),
  source: z.optional(whole(0, MOST_SOURCES - 1, '', 'Which film or picture shows it, from 0; absent, the first')),
  startS: z.optional(seconds('beginning of the stretch that was averaged, first film’s time')),
  endS: z.optional(seconds('its end')),
  travel: z.optional(
    fields('Travel from home', {
      upMm: between(...TRAVEL_MM, 'mm', 'up (+) or down (−)'),
      rightMm: between(...TRAVEL_MM, 'mm', 'to the player’s right (+) or left (−)'),
      sdMm: between(...TRAVEL_SD_MM_RANGE, 'mm', 'standard deviation of up, and of either where the other is not given'),
      rightSdMm: z.optional(between(...TRAVEL_SD_MM_RANGE, 'mm', 'standard deviation of right; from version 5')),
    }),
  ),
  elevation: z.optional(angleSchema('Bell up (+) or down (−), relative to the head')),
  lateral: z.optional(angleSchema('Bell to the player’s right (+) or left (−), relative to the head')),
  upperLipShare: z.optional(share('Upper lip’s share of the rim')),
  frames: whole(0, MOST_KEPT_FRAMES, '', 'How many frames it is made from'),
}).check(condition((accepted) => stretchInOrder(accepted)));

export const measuringSchema = fields('A measuring of films or pictures', {
  id: identifier('Its own name within the player'),
  kind: oneOf(['pictures', 'film'], 'Single pictures, or one take filmed from one or more sides'),
  date: day('The day of measuring'),
  take: z.optional(whole(...TAKE, '', 'The take that the readings were accepted as; absent, 1')),
  home: z.optional(note('Sounding note that travel counts from, as it was chosen where the lesson names none; from version 4')),
  sources: shortList(sourceSchema, 1, MOST_SOURCES, 'The pictures, or the films of one take'),
  sound: z.optional(soundSchema),
  accepted: list(acceptedSchema, 0, MOST_READINGS, 'What was accepted, in the order of the readings'),
}).check(condition((measuring) => pointsToSources(measuring)));

/** For a lesson, which sees no more of it than core does. */
export const keptMeasuringSchema: z.ZodMiniType<KeptMeasuring> = measuringSchema;

export type Measuring = z.output<typeof measuringSchema>;
export type MeasuringSource = z.output<typeof sourceSchema>;
export type AcceptedReading = z.output<typeof acceptedSchema>;

export type ReadMeasuring =
  | { readonly kind: 'measuring'; readonly measuring: Measuring }
  /** One line: field, value, what is allowed. */
  | { readonly kind: 'refused'; readonly message: string };

/** A lesson's measuring with all that it holds. Also for one that is about to be put into a lesson: refused here, the player could not be kept. */
export function readMeasuring(kept: KeptMeasuring): ReadMeasuring {
  const known = read.get(kept);
  if (known !== undefined) return { kind: 'measuring', measuring: known };
  const result = z.safeParse(measuringSchema, kept);
  if (!result.success) return { kind: 'refused', message: refusalWords(result.error.issues, kept) };
  read.set(kept, result.data);
  return { kind: 'measuring', measuring: result.data };
}

const read = new WeakMap<KeptMeasuring, Measuring>();

function digest(what: string): z.ZodMiniString {
  const error = (): string => sayRecords('digest');
  return z.string({ error }).check(z.regex(/^[0-9a-f]{16}$/, { error }), z.describe(what));
}

function pointsToSources({ accepted, sources }: { readonly accepted: readonly { readonly source?: number | undefined }[]; readonly sources: readonly unknown[] }) {
  const astray = accepted.findIndex(({ source = 0 }) => source >= sources.length);
  return astray < 0 ? null : { path: ['accepted', astray, 'source'], allowed: sayRecords('whole', { low: 0, high: sources.length - 1, bare: 'yes', unit: '' }) };
}
