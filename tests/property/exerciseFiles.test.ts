/** Damaged exercise files: an exercise or a sentence, in good time, and never a note that is none. */
import { strToU8 } from 'fflate';
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { noteName, isNote } from '../../src/core/pitch';
import { notesToReadings, readExercise } from '../../src/records/exercise';
import { LARGEST_MIDI_BYTES } from '../../src/records/exerciseMidi';
import { LARGEST_EXERCISE_BYTES } from '../../src/records/exerciseParts';
import { MXL_CONTAINER, midiFile, midiTrack, musicXml, mxlFile, xmlNote } from '../support/exerciseFiles';
import { longer, propertySeed, seedWords } from '../support/seed';

const FILES = longer(2_000);
/** One file may take this long on a busy core. */
const PATIENCE_MS = 5_000;

const line = ['Bb3', 'C4', 'D4', 'Eb4', 'F4', 'Eb4', 'D4', 'C4', 'Bb3'];
const score = musicXml(`<attributes><transpose><chromatic>-2</chromatic></transpose></attributes>${line.map((note) => xmlNote(note, '<voice>1</voice>')).join('')}`);
const whole = {
  midi: midiFile(1, [midiTrack('Slow scale', []), midiTrack('Trumpet', [58, 60, 62, 63, 65, 63, 62, 60, 58])]),
  musicxml: strToU8(score),
  mxl: mxlFile({ 'META-INF/container.xml': MXL_CONTAINER, 'score.musicxml': score }),
};

type Hurt = { readonly at: number; readonly out: number; readonly put: Uint8Array };
const hurt: fc.Arbitrary<Hurt> = fc.record({
  at: fc.nat(),
  out: fc.nat(6),
  put: fc.oneof(fc.uint8Array({ maxLength: 6 }), fc.constantFrom(...['ff018fffffff78', '00ff01', '80', '3c', '26', '3e'].map((hex) => Uint8Array.from(Buffer.from(hex, 'hex'))))),
});

function damaged(bytes: Uint8Array, hurts: readonly Hurt[]): Uint8Array {
  return hurts.reduce((now, { at, out, put }) => {
    const place = now.length === 0 ? 0 : at % now.length;
    return Uint8Array.from([...now.subarray(0, place), ...put, ...now.subarray(place + out)]);
  }, bytes);
}

it.each(Object.entries(whole))(`${FILES} damaged files of the kind %s ${seedWords}`, async (_, bytes) => {
  expect((await readExercise(bytes, 'whole')).kind).toBe('exercise');
  let read = 0;
  await fc.assert(
    fc.asyncProperty(fc.array(hurt, { minLength: 1, maxLength: 8 }), async (hurts) => {
      const began = performance.now();
      const result = await readExercise(damaged(bytes, hurts), 'damaged');
      expect(performance.now() - began).toBeLessThan(PATIENCE_MS);
      if (result.kind === 'refused') {
        expect(result.message).toMatch(/^damaged: [^\n]+; allowed: [^\n]+$/);
        return;
      }
      read++;
      expect(result.parts.length).toBeGreaterThan(0);
      for (const { notes } of result.parts) {
        expect(notes.length).toBeGreaterThan(0);
        expect(notes.filter((note) => !isNote(note))).toEqual([]);
        expect(notesToReadings(notes).kind).toBe('readings');
      }
    }),
    { seed: propertySeed, numRuns: FILES },
  );
  // Else the half of the check that looks at notes would say nothing.
  expect(read).toBeGreaterThan(0);
});

it(`any line written into a file is read as it was played ${seedWords}`, async () => {
  const midis = fc.array(fc.integer({ min: 0, max: 127 }), { minLength: 1, maxLength: 40 });
  await fc.assert(
    fc.asyncProperty(midis, async (played) => {
      const names = played.map((midi) => noteName(midi));
      const fromMidi = await readExercise(midiFile(0, [midiTrack('x', played)]), 'x.mid');
      expect(fromMidi).toMatchObject({ kind: 'exercise', parts: [{ notes: names }] });
      // MusicXML's octaves begin at 0.
      const high = names.filter((name) => !name.endsWith('-1'));
      if (high.length === 0) return;
      const fromXml = await readExercise(strToU8(musicXml(high.map((name) => xmlNote(name)).join(''))), 'x.musicxml');
      expect(fromXml).toMatchObject({ kind: 'exercise', parts: [{ notes: high }] });
    }),
    { seed: propertySeed, numRuns: longer(200) },
  );
});

it('the largest files of the worst kinds take no more than some seconds', { timeout: 60_000 }, async () => {
  const events = Math.floor((LARGEST_MIDI_BYTES - 100) / 6);
  // Beginnings of one note and ends of another, which the library tries to pair.
  const unpaired = [0x00, 0x90, 60, 64, ...Array.from({ length: events }, () => [0, 60, 64]).flat(), 0x00, 0x80, 61, 64, ...Array.from({ length: events }, () => [0, 61, 64]).flat()];
  expect((await readExercise(midiFile(0, [unpaired]), 'x')).kind).toBe('refused');
  const large = (text: string): Uint8Array => strToU8(musicXml(text.repeat(Math.floor((LARGEST_EXERCISE_BYTES - 2000) / text.length))));
  for (const text of ['<', '<a/>', '<a>', '&amp;', '<note>', xmlNote('C4'), '<!--', '<![CDATA[', ' a="b"', "'"]) await readExercise(large(text), 'x');
});
