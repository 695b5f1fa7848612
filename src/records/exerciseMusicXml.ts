/**
 * A MusicXML score (score-partwise), plain or compressed (.mxl), to the notes of an exercise, by fast-xml-parser and fflate.
 * Elements and their meaning: MusicXML 4.0, W3C Community Group report (note, pitch, transpose, backup, container file).
 */
import { XMLParser } from 'fast-xml-parser';
import { unzipSync } from 'fflate';
import { movedNote } from '../core/noteNaming';
import { isNote, midiOf } from '../core/pitch';
import { sayExercises } from '../words/exercises';
import { LARGEST_EXERCISE_BYTES, type ExercisePart, type ParsedExercise } from './exerciseParts';
import { type XmlElement, attributeOf, childrenNamed, elementNamed, numberOf, textIn } from './xmlElements';

/**
 * Of each part the first staff and the voice that begins it; of a chord the highest note; grace and cue notes and rests are left
 * out, tied notes count once; written signs of repetition are not followed. Sounding, by the part's transpose element. Never throws.
 */
export function exerciseFromMusicXml(bytes: Uint8Array): ParsedExercise {
  try {
    const text = bytes[0] === 0x50 && bytes[1] === 0x4b ? scoreInZip(bytes) : decoded(bytes);
    return exerciseOf(parser.parse(text) as XmlElement[]);
  } catch (error) {
    return refused(error instanceof ScoreError ? error.message : sayExercises('xmlDamaged'));
  }
}

/** What is said of a file that cannot be used. */
class ScoreError extends Error {}

const refused = (message: string): ParsedExercise => ({ kind: 'refused', message });

/** Entities stay as they are: a file can make them grow without end. */
const parser = new XMLParser({
  preserveOrder: true,
  ignoreAttributes: false,
  attributeNamePrefix: '',
  processEntities: false,
  parseTagValue: false,
  ignorePiTags: true,
});

function exerciseOf(roots: readonly XmlElement[]): ParsedExercise {
  if (elementNamed(roots, 'score-timewise') !== null) {
    return refused(sayExercises('xmlByMeasures'));
  }
  const score = elementNamed(roots, 'score-partwise');
  if (score === null) return refused(sayExercises('xmlNoScore'));
  const names = new Map(
    childrenNamed(elementNamed(score, 'part-list') ?? [], 'score-part').map((part) => [attributeOf(part, 'id'), textIn(childrenOf(part, 'score-part'), 'part-name')]),
  );
  const parts = childrenNamed(score, 'part').flatMap((part, index): ExercisePart[] => {
    const notes = notesOf(childrenOf(part, 'part'));
    return notes.length === 0 ? [] : [{ name: names.get(attributeOf(part, 'id')) ?? sayExercises('part', { number: index + 1 }), notes }];
  });
  if (parts.length === 0) return refused(sayExercises('xmlEmpty'));
  const title = textIn(elementNamed(score, 'work') ?? [], 'work-title') ?? textIn(score, 'movement-title');
  return { kind: 'exercise', title, parts, source: sayExercises('xmlFile') };
}

const childrenOf = (element: XmlElement, name: string): readonly XmlElement[] => elementNamed([element], name) ?? [];

function notesOf(part: readonly XmlElement[]): string[] {
  const notes: string[] = [];
  let transposition = 0;
  let voice: string | null = null;
  /** A note of the chord that is being read was taken: those tied over are not. */
  let chordIsBegun = false;
  for (const measure of childrenNamed(part, 'measure')) {
    for (const element of childrenOf(measure, 'measure')) {
      const attributes = elementNamed([element], 'attributes');
      if (attributes !== null) transposition = transpositionOf(attributes) ?? transposition;
      const note = elementNamed([element], 'note');
      if (note === null || (textIn(note, 'staff') ?? '1') !== '1') continue;
      const inChord = elementNamed(note, 'chord') !== null;
      if (!inChord) chordIsBegun = false;
      const written = writtenPitch(note);
      voice ??= written === null ? null : (textIn(note, 'voice') ?? '1');
      if (written === null || (textIn(note, 'voice') ?? '1') !== voice) continue;
      const sounding = movedNote(written, transposition);
      if (sounding === null) throw new ScoreError(sayExercises('xmlOutOfRange', { note: written, semitones: transposition }));
      notes.push(inChord && chordIsBegun ? higher(notes.pop() ?? sounding, sounding) : sounding);
      chordIsBegun = true;
    }
  }
  return notes;
}

/** Semitones from written to sounding; null where the attributes say nothing of it for the first staff. */
function transpositionOf(attributes: readonly XmlElement[]): number | null {
  const element = childrenNamed(attributes, 'transpose').find((one) => (attributeOf(one, 'number') ?? '1') === '1');
  if (element === undefined) return null;
  const transpose = childrenOf(element, 'transpose');
  const semitones = Math.round(numberOf(transpose, 'chromatic') ?? 0) + 12 * Math.round(numberOf(transpose, 'octave-change') ?? 0);
  if (Math.abs(semitones) > MOST_SEMITONES) throw new ScoreError(sayExercises('xmlTransposition', { semitones, most: MOST_SEMITONES }));
  return semitones;
}

/** More than ten octaves lead out of what a note can be. */
const MOST_SEMITONES = 128;
const ACCIDENTALS = ['bb', 'b', '', '#', '##'] as const;

/** Null for rests, unpitched, grace and cue notes, and for the later notes of a tie. */
function writtenPitch(note: readonly XmlElement[]): string | null {
  const pitch = elementNamed(note, 'pitch');
  const isLeftOut = ['grace', 'cue'].some((name) => elementNamed(note, name) !== null);
  const isTied = childrenNamed(note, 'tie').some((tie) => attributeOf(tie, 'type') === 'stop');
  if (pitch === null || isLeftOut || isTied) return null;
  // Quarter tones go to the nearest semitone.
  const accidental = ACCIDENTALS[Math.round(numberOf(pitch, 'alter') ?? 0) + 2];
  const written = `${textIn(pitch, 'step') ?? ''}${accidental ?? '?'}${textIn(pitch, 'octave') ?? ''}`;
  if (!isNote(written)) throw new ScoreError(sayExercises('xmlNoPitch', { pitch: JSON.stringify(written.slice(0, 20)) }));
  return written;
}

function higher(a: string, b: string): string {
  return midiOf(a) >= midiOf(b) ? a : b;
}

/** Compressed MusicXML: META-INF/container.xml names the score among the zip's files. */
function scoreInZip(bytes: Uint8Array): string {
  const container = fileInZip(bytes, 'META-INF/container.xml');
  const roots = parser.parse(decoded(container)) as XmlElement[];
  const files = elementNamed(elementNamed(roots, 'container') ?? [], 'rootfiles') ?? [];
  const [first] = childrenNamed(files, 'rootfile');
  const path = first === undefined ? null : attributeOf(first, 'full-path');
  if (path === null) throw new ScoreError(sayExercises('mxlNoScore'));
  return decoded(fileInZip(bytes, path));
}

function fileInZip(bytes: Uint8Array, path: string): Uint8Array {
  const found = unzipSync(bytes, {
    filter: ({ name, originalSize }) => {
      if (name !== path) return false;
      if (originalSize > LARGEST_EXERCISE_BYTES) {
        throw new ScoreError(sayExercises('mxlTooLarge', { count: originalSize, most: LARGEST_EXERCISE_BYTES }));
      }
      return true;
    },
  })[path];
  if (found === undefined) throw new ScoreError(sayExercises('mxlWithout'));
  return found;
}

/** UTF-16 with its byte order mark, else UTF-8. */
function decoded(bytes: Uint8Array): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  return new TextDecoder().decode(bytes);
}
