/**
 * Notes of known pitch and length in pink noise 20 dB below, with vibrato, a room and a tuning of its own. The truth is what was
 * synthesised (tests/support/brassTones.ts); real instruments are not in it.
 */
import { describe, expect, it } from 'vitest';
import { hertz, midiOf } from '../../../src/core/pitch';
import { createRandom } from '../../../src/core/random';
import { findNotes, type NotesFound } from '../../../src/measure/noteFinder';
import { createPitchTracker } from '../../../src/measure/pitchTrack';
import { instrumentById } from '../../../src/records/library';
import { phrase, type PhraseOptions, pinkNoise } from '../../support/brassTones';
import { expectWithin } from '../../support/expectWithin';
import { matched } from '../../support/notesMatched';

/** Asked for: cents, and seconds. */
const MEDIAN_CENTS = 5;
const BOUNDARY_S = 0.05;
const RIGHT = 0.99;

const median = (list: readonly number[]): number => [...list].sort((a, b) => a - b)[list.length >> 1]!;

function heardIn(options: PhraseOptions) {
  const made = phrase(options);
  const frames = createPitchTracker({ sampleRate: made.sampleRate, lowestHz: hertz(options.lowMidi) }).feed({ timeS: 0, samples: made.samples });
  return { made, found: findNotes(frames, options) };
}

/** Signed differences over many phrases. */
function tally(all: readonly { made: ReturnType<typeof phrase>; found: NotesFound }[]) {
  const sums = { played: 0, right: 0, missing: 0, extra: 0, cents: [] as number[], edges: [] as number[] };
  for (const { made, found } of all) {
    const { pairs, missing, extra } = matched(made.notes, found.notes);
    const tuning = found.tuning.kind === 'told' ? found.tuning.cents : NaN;
    sums.played += made.notes.length;
    sums.missing += missing;
    sums.extra += extra;
    for (const { played, heard } of pairs) {
      if (heard.midi === played.midi) sums.right++;
      sums.cents.push(Math.abs(heard.cents! + tuning - made.tuningCents));
      sums.edges.push(Math.abs(heard.startS - played.startS), Math.abs(heard.endS - played.endS));
    }
  }
  return sums;
}

const instruments = ['trumpet', 'french-horn', 'tenor-trombone', 'tuba'].map((id) => {
  const instrument = instrumentById(id);
  if (!instrument) throw new Error(id);
  const { low, high } = instrument.comfortableRange;
  return { id, lowMidi: midiOf(low), highMidi: midiOf(high) };
});

describe.each(instruments)('$id', ({ id, lowMidi, highMidi }) => {
  const seed = 1000 * (1 + instruments.findIndex((each) => each.id === id));
  const cases = (['slurred', 'tongued'] as const).flatMap((way) =>
    [
      { tuningCents: 0, vibratoCents: 0 },
      { tuningCents: 30, vibratoCents: 25 },
      { tuningCents: -30, vibratoCents: 0, roomS: 0.4 },
      { tuningCents: 12, vibratoCents: 15, roomS: 0.3 },
    ].map((how, at) => ({ ...how, way, seed: seed + at + (way === 'slurred' ? 0 : 10), lowMidi, highMidi, notes: 8 })),
  );

  it(`64 notes, slurred and tongued: names, pitch and boundaries (seeds from ${seed})`, () => {
    const { played, right, missing, extra, cents, edges } = tally(cases.map((each) => heardIn(each)));
    expect(played).toBe(64);
    expect({ missing, extra, wrong: played - missing - right }).toEqual({ missing: 0, extra: 0, wrong: 0 });
    expect(right / played).toBeGreaterThanOrEqual(RIGHT);
    expect(median(cents)).toBeLessThanOrEqual(MEDIAN_CENTS);
    expect(edges.filter((each) => each <= BOUNDARY_S).length / edges.length).toBeGreaterThanOrEqual(RIGHT);
  }, 120_000);
});

describe('one pitch again and again', () => {
  it.each([48, 58, 70])('tongued, MIDI %i, is as many notes as were played (seed 61)', (midi) => {
    const { made, found } = heardIn({ seed: 61, lowMidi: midi - 12, highMidi: midi + 12, notes: 8, way: 'tongued', pitches: Array<number>(8).fill(midi), lengths: [0.2, 0.4] });
    expect(found.notes.length).toBe(8);
    expect(matched(made.notes, found.notes).missing).toBe(0);
  });

  it('held with a wide vibrato is one note (seed 62)', () => {
    const { found } = heardIn({ seed: 62, lowMidi: 52, highMidi: 82, notes: 1, way: 'slurred', pitches: [70], lengths: [4, 4], vibratoCents: 45 });
    expect(found.notes.map(({ midi }) => midi)).toEqual([70]);
  });
});

describe('the whole compass', () => {
  it.each([34, 46, 58, 70, 82, 94])('MIDI %i (58 to 1,865 Hz) at 44.1, 48 and 96 kHz', (midi) => {
    for (const sampleRate of [44_100, 48_000, 96_000]) {
      const { found } = heardIn({ seed: midi, sampleRate, lowMidi: midi - 8, highMidi: midi + 8, notes: 1, way: 'tongued', pitches: [midi], tuningCents: -21, lengths: [0.6, 0.6] });
      expect(found.notes.map((note) => note.midi)).toEqual([midi]);
      if (found.tuning.kind !== 'told') throw new Error('the tuning is told');
      expectWithin(found.tuning.cents, -21, { abs: MEDIAN_CENTS }, `${sampleRate} a second`);
    }
  });
});

describe('what is no note', () => {
  it('noise and breath have none (seed 63)', () => {
    const random = createRandom(63);
    const samples = pinkNoise(5 * 48_000, random).map((each, at) => each * (0.05 + 0.2 * Math.abs(Math.sin(at / 48_000))));
    const frames = createPitchTracker({ sampleRate: 48_000, lowestHz: 165 }).feed({ timeS: 0, samples });
    const found = findNotes(frames, { lowMidi: 52, highMidi: 82 });
    expect(found).toEqual({ notes: [], tuning: { kind: 'unclear', reason: 'too-little' } });
  });

  it('silence has none', () => {
    const frames = createPitchTracker({ sampleRate: 48_000, lowestHz: 165 }).feed({ timeS: 0, samples: new Float32Array(48_000) });
    expect(findNotes(frames, { lowMidi: 52, highMidi: 82 }).notes).toEqual([]);
  });
});
