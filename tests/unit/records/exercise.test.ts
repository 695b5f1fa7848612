import { strToU8 } from 'fflate';
import { describe, expect, it } from 'vitest';
import { noteName } from '../../../src/core/pitch';
import { type ParsedExercise, notesToReadings, readExercise } from '../../../src/records/exercise';
import { LARGEST_MIDI_BYTES } from '../../../src/records/exerciseMidi';
import { LARGEST_EXERCISE_BYTES } from '../../../src/records/exerciseParts';
import { MXL_CONTAINER, midiFile, midiTrack, musicXml, mxlFile, xmlNote } from '../../support/exerciseFiles';

type Exercise = Extract<ParsedExercise, { kind: 'exercise' }>;

async function exercise(bytes: Uint8Array): Promise<Exercise> {
  const result = await readExercise(bytes, 'slow.file');
  if (result.kind === 'refused') throw new Error(result.message);
  return result;
}
const notesIn = async (bytes: Uint8Array): Promise<readonly string[]> => (await exercise(bytes)).parts[0]!.notes;
const notesOf = (measure: string): Promise<readonly string[]> => notesIn(strToU8(musicXml(measure)));
async function refusal(bytes: Uint8Array): Promise<string> {
  const result = await readExercise(bytes, 'slow.file');
  return result.kind === 'refused' ? result.message : 'taken';
}

const hex = (text: string): number[] => text.trim().split(/\s+/).map((byte) => Number.parseInt(byte, 16));

/**
 * The example that ends the Standard MIDI Files 1.0 specification (value from memory): channel 1 plays E5, channel 2 G4, channel 3
 * C3 and C4 together; once in format 0, with running status, once in format 1.
 */
describe('the example of the Standard MIDI File', () => {
  const partsOf = async (bytes: Uint8Array) => (await exercise(bytes)).parts.map(({ notes }) => notes);

  it('format 0', async () => {
    const track = `00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20  00 C0 05  00 C1 2E  00 C2 46  00 92 30 60  00 3C 60  60 91 43 40  60 90 4C 20
      81 40 82 30 40  00 3C 40  00 81 43 40  00 80 4C 40  00 FF 2F 00`;
    expect(hex(track)).toHaveLength(0x3b);
    const parts = await partsOf(midiFile(0, [hex(track)]));
    expect(new Set(parts)).toEqual(new Set([['E5'], ['G4'], ['C4']]));
  });

  it('format 1', async () => {
    const tracks = [
      '00 FF 58 04 04 02 18 08  00 FF 51 03 07 A1 20  83 00 FF 2F 00',
      '00 C0 05  81 40 90 4C 20  81 40 4C 00  00 FF 2F 00',
      '00 C1 2E  60 91 43 40  82 20 43 00  00 FF 2F 00',
      '00 C2 46  00 92 30 60  00 3C 60  83 00 30 00  00 3C 00  00 FF 2F 00',
    ].map(hex);
    expect(tracks.map(({ length }) => length)).toEqual([0x14, 0x10, 0x0f, 0x15]);
    expect(await partsOf(midiFile(1, tracks))).toEqual([['E5'], ['G4'], ['C4']]);
  });
});

describe('a MIDI file', () => {
  it('gives its tracks with notes as parts, with their names, in the order played', async () => {
    const bytes = midiFile(1, [midiTrack('Slow scale', []), midiTrack('Trumpet', [58, 60, 62, 60, 58]), midiTrack('', [60])]);
    expect(await exercise(bytes)).toEqual({
      kind: 'exercise',
      title: 'Slow scale',
      source: 'MIDI file',
      parts: [
        { name: 'Trumpet', notes: ['Bb3', 'C4', 'D4', 'C4', 'Bb3'] },
        { name: 'Track 2', notes: ['C4'] },
      ],
    });
  });

  it('refuses what it cannot be', async () => {
    expect(await refusal(midiFile(0, [midiTrack('', [])]))).toBe('slow.file: a MIDI file without notes; allowed: at least one');
    expect(await refusal(midiFile(0, []))).toMatch(/^slow\.file: damaged or no MIDI file/);
    const large = midiFile(0, [Array.from({ length: LARGEST_MIDI_BYTES }, () => 0)]);
    expect(await refusal(large)).toBe(`slow.file: ${large.length} bytes; allowed for a MIDI file: up to ${LARGEST_MIDI_BYTES}`);
  });

  it('a length that leads backwards does not go round for ever', async () => {
    // A text event whose length, over 2^31, is −8 as a 32-bit number: back to the event’s own beginning.
    const backwards = [0x00, 0xff, 0x01, 0x8f, 0xff, 0xff, 0xff, 0x78];
    expect(await refusal(midiFile(0, [[...backwards, 0x00, 0xff, 0x2f, 0x00]]))).toMatch(/damaged/);
  });
});

describe('MusicXML', () => {
  it('gives the part’s name, the title and the notes', async () => {
    const bytes = strToU8(musicXml(['Bb3', 'C4', 'F#4'].map((note) => xmlNote(note)).join('')));
    expect(await exercise(bytes)).toEqual({
      kind: 'exercise',
      title: 'Slow & even',
      source: 'MusicXML file',
      parts: [{ name: 'Trumpet', notes: ['Bb3', 'C4', 'F#4'] }],
    });
  });

  it.each([
    ['a trumpet in B flat', '<diatonic>-1</diatonic><chromatic>-2</chromatic>', ['C4', 'G#4'], ['Bb3', 'F#4']],
    ['a horn in F', '<diatonic>-4</diatonic><chromatic>-7</chromatic>', ['C5'], ['F4']],
    ['an octave down besides', '<chromatic>-2</chromatic><octave-change>-1</octave-change>', ['C5'], ['Bb3']],
  ])('sounds as its transpose element says: %s', async (_, transpose, written, sounding) => {
    const measure = `<attributes><transpose>${transpose}</transpose></attributes>${written.map((note) => xmlNote(note)).join('')}`;
    expect(await notesOf(measure)).toEqual(sounding);
  });

  it('takes the highest of a chord, the first voice and staff, a tie once, and no rests, grace or cue notes', async () => {
    expect(await notesOf(xmlNote('C4') + xmlNote('G4', '<chord/>') + xmlNote('E4', '<chord/>') + xmlNote('A4'))).toEqual(['G4', 'A4']);
    expect(await notesOf(`${xmlNote('C4', '<voice>2</voice>')}<backup><duration>1</duration></backup>${xmlNote('E3', '<voice>1</voice>')}`)).toEqual(['C4']);
    expect(await notesOf(xmlNote('E2', '<staff>2</staff>') + xmlNote('C4', '<staff>1</staff>'))).toEqual(['C4']);
    expect(await notesOf(xmlNote('C4', '<tie type="start"/>') + xmlNote('C4', '<tie type="stop"/><tie type="start"/>') + xmlNote('D4'))).toEqual(['C4', 'D4']);
    expect(await notesOf(xmlNote('C4') + xmlNote('D4', '<tie type="stop"/>') + xmlNote('B3', '<chord/>'))).toEqual(['C4', 'B3']);
    expect(await notesOf(`<note><rest/></note>${xmlNote('C4', '<grace/>')}${xmlNote('D4', '<cue/>')}${xmlNote('E4')}`)).toEqual(['E4']);
  });

  it('reads the compressed form, and UTF-16', async () => {
    const score = musicXml(xmlNote('C4'));
    expect(await notesIn(mxlFile({ 'META-INF/container.xml': MXL_CONTAINER, 'score.musicxml': score }))).toEqual(['C4']);
    const wide = new Uint8Array(Uint16Array.from([0xfeff, ...[...score].map((letter) => letter.charCodeAt(0))]).buffer);
    expect(await notesIn(wide)).toEqual(['C4']);
  });

  it.each([
    ['<score-timewise/>', /score ordered by measures/],
    ['<html/>', /no MusicXML score/],
    [musicXml('<note><rest/></note>'), /without notes/],
    [musicXml(xmlNote('C4').replace('>C<', '>H<')), /a pitch that is none, "H4"/],
    [musicXml(`<attributes><transpose><chromatic>999</chromatic></transpose></attributes>${xmlNote('C4')}`), /transposition of 999 semitones/],
    [musicXml(`<attributes><transpose><octave-change>9</octave-change></transpose></attributes>${xmlNote('C4')}`), /out of range/],
    [`${'<a>'.repeat(5000)}${'</a>'.repeat(5000)}`, /damaged or no MusicXML/],
  ])('refuses %#', async (text, words) => expect(await refusal(strToU8(text))).toMatch(words));

  it('refuses a zip that is none, has no score, or grows too large', async () => {
    expect(await refusal(strToU8('PK\x03\x04 and no more'))).toMatch(/damaged|zip without a score/);
    expect(await refusal(mxlFile({ 'other.txt': 'x' }))).toMatch(/a zip without a score/);
    expect(await refusal(mxlFile({ 'META-INF/container.xml': '<container/>' }))).toMatch(/names no score/);
    const bomb = mxlFile({ 'META-INF/container.xml': MXL_CONTAINER, 'score.musicxml': ' '.repeat(LARGEST_EXERCISE_BYTES + 1) });
    expect(bomb.length).toBeLessThan(LARGEST_EXERCISE_BYTES / 100);
    expect(await refusal(bomb)).toBe(`slow.file: ${LARGEST_EXERCISE_BYTES + 1} bytes when unpacked; allowed: up to ${LARGEST_EXERCISE_BYTES}`);
  });

  it('does not let entities grow', async () => {
    const levels = Array.from({ length: 12 }, (_, level) => `<!ENTITY e${level + 1} "${`&e${level};`.repeat(10)}">`).join('');
    const text = musicXml(xmlNote('C4'), '<work><work-title>&e12;</work-title></work>').replace(/<!DOCTYPE [^>]*>/, `<!DOCTYPE score-partwise [<!ENTITY e0 "ha">${levels}]>`);
    const result = await readExercise(strToU8(text), 'slow.file');
    expect(JSON.stringify(result).length).toBeLessThan(500);
  });
});

it('refuses other and too large files, with the name on one line', async () => {
  expect(await refusal(strToU8('hello'))).toBe('slow.file: neither MIDI nor MusicXML; allowed: a file ending in .mid, .midi, .musicxml, .xml, .mxl');
  expect(await refusal(new Uint8Array(0))).toMatch(/neither MIDI nor MusicXML/);
  expect(await readExercise(new Uint8Array(LARGEST_EXERCISE_BYTES + 1), `a\n${'b'.repeat(90)}`)).toEqual({
    kind: 'refused',
    message: `a ${'b'.repeat(58)}: ${LARGEST_EXERCISE_BYTES + 1} bytes; allowed: up to ${LARGEST_EXERCISE_BYTES}`,
  });
});

describe('readings of an exercise', () => {
  const readingsOf = (...notes: string[]) => {
    const result = notesToReadings(notes);
    return result.kind === 'readings' ? result.readings : result.message;
  };

  it('one for each note of a line that only rises or falls', () => {
    expect(readingsOf('C4', 'C4', 'D4', 'E4', 'E4')).toEqual([{ note: 'C4' }, { note: 'D4' }, { note: 'E4' }]);
    expect(readingsOf('E4', 'Eb4', 'D#4', 'D4')).toEqual([{ note: 'E4' }, { note: 'Eb4' }, { note: 'D4' }]);
    expect(readingsOf('C4')).toEqual([{ note: 'C4' }]);
  });

  it('by the way each note is reached where the line turns', () => {
    expect(readingsOf('C4', 'D4', 'D4', 'E4', 'D4', 'C4')).toEqual([
      { note: 'C4', direction: 'up' },
      { note: 'D4', direction: 'up' },
      { note: 'E4', direction: 'up' },
      { note: 'D4', direction: 'down' },
      { note: 'C4', direction: 'down' },
    ]);
    expect(readingsOf('C4', 'B3', 'C4', 'B3')).toEqual([
      { note: 'C4', direction: 'down' },
      { note: 'B3', direction: 'down' },
      { note: 'C4', direction: 'up' },
    ]);
  });

  it('refuses more than a record holds', () => {
    const up = Array.from({ length: 120 }, (_, midi) => noteName(midi));
    expect(readingsOf(...up, ...up.toReversed())).toBe('exercise: 239 readings; allowed: up to 200');
  });
});
