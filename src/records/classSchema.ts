/**
 * A class as data: steps with whose mouth is shown, from where, how the horn is drawn, what moves, the words, and a question asked before
 * the answer is shown. The answer itself is never written here: it is read off what was computed. And a teacher's own version of a class.
 */
import * as z from 'zod/mini';
import { LANGUAGES } from '../words/language';
import { sayRecords } from '../words/records';
import { archSchema } from './archSchema';
import { between, condition, exactly, fields, identifier, list, note, oneOf, text, yesOrNo } from './fields';
import { rimSchema } from './playerSchema';
import { TRAVEL_MM } from './readingRanges';

export const MOST_STEPS = 60;
export const LONGEST_TITLE = 60;
export const LONGEST_WORDS = 240;
export const LONGEST_TO_SAY = 400;
const LONGEST_CAPTION = 40;

/** The player on the page, whoever that is. */
export const THIS_PLAYER = 'this';
/** What a step may leave out of its picture. */
const PARTS = ['horn', 'lips', 'fan', 'note names', 'angle', 'pressure'] as const;
/** What a question asks about; its answers are the two ways and "neither". */
const ASKED = ['bell up or down', 'bell to the side', 'upper or lower half', 'right or left half'] as const;

const title = () => text(LONGEST_TITLE, 'The step’s heading, read from the back of the room', 1);
const words = () => text(LONGEST_WORDS, 'One or two sentences for the room');
const toSay = () => text(LONGEST_TO_SAY, 'For the speaker, shown on request');

const whoSchema = fields('Whose mouth', {
  player: text(60, 'The id of an invented player, or "this": the player on the page', 1),
  caption: z.optional(text(LONGEST_CAPTION, 'Stands over the picture where two are shown', 1)),
  arch: z.optional(archSchema).check(z.describe('Teeth that take the place of the player’s')),
  rim: z.optional(rimSchema),
});

const place = (what: string) => between(...TRAVEL_MM, 'mm', what);

const playsSchema = z.discriminatedUnion(
  'kind',
  [
    fields('Nothing moves: the rim stands at home', { kind: exactly('home') }),
    fields('Nothing moves: the rim stands at a note', { kind: exactly('note'), note: note('Sounding') }),
    fields('The rim goes from home straight to a place', { kind: exactly('line'), upMm: place('up (+) or down (−)'), rightMm: place('to the player’s right (+) or left (−)') }),
    fields('The player’s own path, from the lowest note to the highest', { kind: exactly('path') }),
    fields('Numbers called out in the room: a travel or a note', { kind: exactly('room') }),
  ],
  { error: () => sayRecords('objectWithKind', { kinds: '"home", "note", "line", "path", "room"' }) },
);

const questionSchema = fields('Asked before anything moves; the next key shows what happens', {
  words: text(LONGEST_WORDS, 'The question', 1),
  about: oneOf(ASKED, 'What the answer is read off: the horn’s angle, or which half of the rim carries more of the force while the horn is held'),
});

const stepSchema = fields('A step', {
  id: identifier('Name in the address'),
  title: title(),
  words: words(),
  toSay: toSay(),
  who: list(whoSchema, 1, 2, 'One player, or two beside each other, in step by note'),
  camera: oneOf(['three-quarter', 'face', 'mirror', 'side', 'above'], 'From where it is seen'),
  horn: oneOf(['follow', 'held'], 'Whether the horn follows the teeth or is held as at home'),
  view: oneOf(['plate', 'sphere', 'normal', 'seated'], 'How the horn’s angle is found'),
  shows: fields('What else is drawn', {
    heldGhost: yesOrNo().check(z.describe('The horn as it would stand if it were held')),
    toothNumbers: yesOrNo(),
    cutOpen: yesOrNo(),
    without: list(oneOf(PARTS, 'A part'), 0, PARTS.length, 'What is left out'),
  }),
  plays: playsSchema,
  question: z.optional(questionSchema),
  off: z.optional(exactlyTrue()).check(z.describe('Comes switched off: for those who want it')),
}).check(condition(({ plays, question }) => (question !== undefined && plays.kind !== 'line' && plays.kind !== 'path' ? { path: ['plays', 'kind'], allowed: sayRecords('movesForQuestion', { kinds: sayRecords('or', { all: '"line"', last: '"path"' }) }) } : null)));

export const classSchema = fields('A class', {
  id: text(60, 'kebab-case, the file’s own name', 1).check(z.regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)),
  name: text(60, 'Name for people', 1),
  steps: list(stepSchema, 1, MOST_STEPS, 'The steps, in order').check(
    condition((steps) => (new Set(steps.map(({ id }) => id)).size === steps.length ? null : { path: [], allowed: sayRecords('stepOnce') })),
  ),
  source: text(3000, 'Where the values come from', 10),
});

/** The words of a class in another language than its own; all else is as in the class. */
export const classWordsSchema = fields('The words of a class in another language', {
  classId: text(60, 'Of which class', 1),
  language: oneOf(LANGUAGES, 'Of the words'),
  name: text(60, 'Name for people', 1),
  steps: list(
    fields('A step', {
      id: identifier('Of the step'),
      title: title(),
      words: words(),
      toSay: toSay(),
      captions: z.optional(list(text(LONGEST_CAPTION, 'Over the picture', 1), 1, 2, 'One for each of those who are seen')),
      question: z.optional(text(LONGEST_WORDS, 'The question', 1)),
    }),
    1,
    MOST_STEPS,
    'By step',
  ),
});

/** How a teacher has made a class their own. What is not named is as it came. */
export const classPlanSchema = fields('A teacher’s own version of a class', {
  classId: text(60, 'Of which class', 1),
  order: list(identifier('A step'), 0, MOST_STEPS, 'All steps, in the teacher’s order'),
  shown: z.record(z.string(), z.boolean()).check(z.describe('Steps switched on or off')),
  words: z
    .record(z.string(), fields('Words of the teacher’s own', { title: z.optional(title()), words: z.optional(words()), toSay: z.optional(toSay()) }))
    .check(z.describe('By step')),
});

export type ClassSpec = Immutable<z.output<typeof classSchema>>;
export type ClassWords = Immutable<z.output<typeof classWordsSchema>>;
export type ClassStep = ClassSpec['steps'][number];
export type ClassWho = ClassStep['who'][number];
export type ClassPlan = Immutable<z.output<typeof classPlanSchema>>;
export type StepWords = ClassPlan['words'][string];
export type AskedAbout = NonNullable<ClassStep['question']>['about'];

type Immutable<T> = T extends readonly [number, number]
  ? Readonly<T>
  : T extends readonly (infer Item)[]
    ? readonly Immutable<Item>[]
    : T extends object
      ? { readonly [Key in keyof T]: Immutable<T[Key]> }
      : T;

function exactlyTrue() {
  return z.literal(true, { error: () => sayRecords('trueOrAbsent') });
}
