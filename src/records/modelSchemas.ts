/**
 * What the JSON files under models/ hold. The types come from here; the files are checked against the schemas by
 * tests/unit/records/library.test.ts, so that the page need not do it at every start.
 */
import * as z from 'zod/mini';
import { archSchema } from './archSchema';
import { above, between, fields, list, note, oneOf, text, whole } from './fields';
import { playerSchema, rimSchema } from './playerSchema';

const id = (): z.ZodMiniString => text(60, 'kebab-case, the file’s own name', 1).check(z.regex(/^[a-z0-9]+(-[a-z0-9]+)*$/));
const name = (): z.ZodMiniString => text(60, 'Name for people', 1);
const source = (): z.ZodMiniString => text(3000, 'Where the values come from', 10);

const notationSchema = fields('One way in which parts are written', {
  clef: oneOf(['treble', 'tenor', 'bass'], 'Clef'),
  transpositionSemitones: whole(-36, 36, 'semitones', 'written − sounding'),
});

export const instrumentSchema = fields('An instrument', {
  id: id(),
  name: name(),
  notations: list(notationSchema, 1, 4, 'The usual one first'),
  fundamentalMidi: whole(0, 127, 'MIDI', 'partial 1 without valves or slide, sounding'),
  comfortableRange: fields('Sounding', { low: note('lowest'), high: note('highest') }),
  partials: list(whole(1, 32, '(no unit)', 'partial'), 2, 32, 'The partials that are played, rising'),
  held: oneOf(['horn', 'lap'], 'Held in the hands, so that the bell moves, or at rest on the lap, so that the head moves'),
  words: fields('What a player does so that the horn’s angle against the head changes this way', {
    raise: text(60, 'elevation up', 1),
    lower: text(60, 'elevation down', 1),
    right: text(60, 'to the player’s right', 1),
    left: text(60, 'to the player’s left', 1),
  }),
  defaultRim: id(),
  defaultNotes: list(note('Sounding'), 5, 12, 'Notes of a new player’s readings, low to high'),
  source: source(),
});

export const rimModelSchema = fields('A rim', { id: id(), name: name(), rim: rimSchema, source: source() });

export const archModelSchema = fields('An arch', { id: id(), name: name(), arch: archSchema, source: source() });

export const playerModelSchema = fields('An invented player', { id: id(), name: name(), player: playerSchema, source: source() });

const crownMm = (what: string): z.ZodMiniNumber => above(0, 20, 'mm', what);

const crownSchema = fields('One crown of the table', {
  id: text(2, 'U or L and the place from the midline', 2),
  name: name(),
  fdi: z.tuple([whole(11, 47, '(no unit)', 'on the player’s right'), whole(11, 47, '(no unit)', 'on the left')]),
  crownLengthMm: crownMm('crown length'),
  widthMm: crownMm('mesiodistal width'),
  neckWidthMm: crownMm('mesiodistal width at the neck'),
  depthMm: crownMm('faciolingual depth'),
  neckCurveMesialMm: between(0, 5, 'mm', 'curve of the neck line, mesial'),
  neckCurveDistalMm: between(0, 5, 'mm', 'the same, distal'),
  source: oneOf(['published', 'value from memory'], 'How far the row is known'),
});

export const teethSchema = fields('The crown table', { source: source(), teeth: list(crownSchema, 14, 14, 'U1 to U7, L1 to L7') });

export type Instrument = z.output<typeof instrumentSchema>;
export type Notation = z.output<typeof notationSchema>;
export type Crown = z.output<typeof crownSchema>;
