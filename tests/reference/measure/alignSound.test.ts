/** Two microphones on one take: another room, a fifth of the loudness, noise 20 and 14 dB below, one begun later. */
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../../src/core/random';
import { LEAST_SD_S, alignSounds, type Sound } from '../../../src/measure/alignSound';
import { type PhraseOptions, inRoom, phrase, withPinkNoise } from '../../support/brassTones';
import { expectWithin } from '../../support/expectWithin';
import { sceneOf } from '../../support/films/scene';
import { soundOf } from '../../support/films/tone';

/** Asked for, seconds. */
const OFFSET_S = 0.01;
const sampleRate = 48_000;
const SCALE = [60, 62, 64, 65, 67, 69, 71, 72, 71, 69, 67, 65, 64, 62, 60];
/** Of one playing, seconds: a twentieth to a tenth to either side of the middle. */
const LENGTHS = [[0.45, 0.5], [0.5, 0.61], [0.3, 0.36]] as const;
const sound = (samples: Float32Array, timeS = 0): Sound => ({ timeS, samples, sampleRate });

const pairsOf = <T>(all: readonly T[]): (readonly [T, T])[] => all.flatMap((one, at) => all.slice(at + 1).map((other) => [one, other] as const));

/** Sounds of made films, each made once: the front film, and the one from the right that began so much later. */
const FILM_SEEDS = [11, 12, 13, 14, 15, 16, 17, 18, 19, 20];
const startsOf = (seed: number): readonly [number, number] => (seed % 2 === 0 ? [0.4, -0.7] : [1.5, 4.2]);
const madeSounds = new Map<string, Sound>();
function filmSound(seed: number, startS?: number): Sound {
  const name = `${seed} ${startS}`;
  const made = madeSounds.get(name) ?? sound(soundOf(sceneOf({ seed, durationS: 8, ...(startS !== undefined && { view: 'right', startS }) })));
  madeSounds.set(name, made);
  return made;
}

/** Making a minute of sound takes longer than aligning it, milliseconds. */
const TIME_MS = 300_000;

describe('the offset of two films', { timeout: TIME_MS }, () => {
  const errors: { by: number; sdS: number }[] = [];

  it.each([1, 2, 3, 4, 5, 6])('of one take is found within 10 ms (seed %i)', (seed) => {
    const random = createRandom(seed);
    const way = seed % 2 === 0 ? 'tongued' : 'slurred';
    const { samples } = phrase({ seed, lowMidi: 52, highMidi: 80, notes: 10, way, vibratoCents: seed % 3 === 0 ? 0 : 20, noiseDb: 60 });
    const cut = Math.round(1.5 * random.uniform() * sampleRate);
    const first = sound(withPinkNoise(samples, 20, random));
    const second = sound(withPinkNoise(inRoom(samples, sampleRate, 0.3 + 0.4 * random.uniform(), random).slice(cut).map((each) => 0.2 * each), 14, random), 0.021);
    const found = alignSounds(first, second);
    if (found.kind !== 'aligned') throw new Error(found.reason);
    expectWithin(found.offsetS, cut / sampleRate - 0.021, { abs: OFFSET_S });
    errors.push({ by: found.offsetS - cut / sampleRate + 0.021, sdS: found.sdS });
  });

  it('says how far it may be off: no error above three of its deviations', () => {
    expect(errors.length).toBe(6);
    expect(errors.filter(({ by, sdS }) => Math.abs(by) > 3 * sdS)).toEqual([]);
  });

  it.each([1, 2, 3])('of a film and its copy is sure to what microphones hear apart, and no more (seed %i)', (seed) => {
    const { samples } = phrase({ seed, lowMidi: 52, highMidi: 80, notes: 6, way: 'tongued' });
    const found = alignSounds(sound(samples), sound(samples.slice(), 0.5));
    if (found.kind !== 'aligned') throw new Error(found.reason);
    expectWithin(found.offsetS, -0.5, { abs: 1e-6 }, 'offset');
    expectWithin(found.sdS, LEAST_SD_S, { rel: 1e-3 }, 'deviation');
    expect(found.quality).toBeLessThanOrEqual(1);
  });

  it.each(FILM_SEEDS)('of two films made of one take is found within 10 ms (seed %i)', (seed) => {
    for (const startS of startsOf(seed)) {
      const found = alignSounds(filmSound(seed), filmSound(seed, startS));
      if (found.kind !== 'aligned') throw new Error(`${found.reason} from ${startS}`);
      expectWithin(found.offsetS, startS, { abs: OFFSET_S }, `offset ${startS}`);
    }
  });

  it.each([21, 22, 23, 24, 25, 26])('is found where the second clips, in more echo and noise 10 dB below, at another rate that runs 50 ppm off (seed %i)', (seed) => {
    const random = createRandom(seed);
    const played = { seed, lowMidi: 52, highMidi: 80, notes: 10, noiseDb: 60, way: seed % 2 === 0 ? 'tongued' : 'slurred' } as const;
    const [near, far] = [48_000, 44_100 * (1 + 50e-6)].map((rate) => phrase({ ...played, sampleRate: rate }).samples);
    const cut = Math.round(1.5 * random.uniform() * 44_100);
    const heard = withPinkNoise(inRoom(far!, 44_100, 0.3 + 0.9 * random.uniform(), random).slice(cut), 10, random);
    const most = 0.3 * heard.reduce((high, each) => Math.max(high, Math.abs(each)), 0);
    const found = alignSounds(sound(withPinkNoise(inRoom(near!, 48_000, 0.25, random), 20, random)), { timeS: 0, samples: heard.map((each) => Math.max(-most, Math.min(most, each))), sampleRate: 44_100 });
    if (found.kind !== 'aligned') throw new Error(found.reason);
    expectWithin(found.offsetS, cut / 44_100, { abs: OFFSET_S });
  });

  it.each([31, 32, 33, 34, 35, 36])('is found where the second begins 2.1 seconds before the first ends (seed %i)', (seed) => {
    const random = createRandom(seed);
    const { samples, notes } = phrase({ seed, lowMidi: 52, highMidi: 80, notes: 14, noiseDb: 60, way: seed % 2 === 0 ? 'tongued' : 'slurred' });
    const middle = notes[8]!.startS;
    const [ends, begins] = [Math.round(middle * sampleRate), Math.round((middle - 2.1) * sampleRate)];
    const found = alignSounds(sound(withPinkNoise(samples.slice(0, ends), 20, random)), sound(withPinkNoise(inRoom(samples, sampleRate, 0.4, random).slice(begins), 20, random)));
    if (found.kind !== 'aligned') throw new Error(found.reason);
    expectWithin(found.offsetS, begins / sampleRate, { abs: OFFSET_S });
  });

  const rate = 24_000;
  const heard = (options: Omit<PhraseOptions, 'lowMidi' | 'highMidi' | 'sampleRate'>): Sound => {
    const { samples } = phrase({ ...options, lowMidi: 52, highMidi: 80, sampleRate: rate });
    return { timeS: 0, samples, sampleRate: rate };
  };
  const unclear = { kind: 'not-aligned', reason: 'unclear' };

  it('of two takes with other notes is refused: 20 pairs', () => {
    // Every one with every other of its way.
    const takes = (['tongued', 'slurred'] as const).map((way, at) => [0, 1, 2, 3, 4].map((which) => heard({ seed: 300 + 10 * at + which, notes: 10, way })));
    const answers = takes.flatMap(pairsOf).map(([first, second]) => alignSounds(first, second));
    expect(answers.length).toBe(20);
    for (const answer of answers) expect(answer).toMatchObject(unclear);
  });

  it.each(FILM_SEEDS)('of two films made of other takes is refused (seed %i and the next two)', (seed) => {
    for (const further of [1, 2]) {
      const other = FILM_SEEDS[(FILM_SEEDS.indexOf(seed) + further) % FILM_SEEDS.length]!;
      expect(alignSounds(filmSound(seed), filmSound(other, startsOf(other)[0]))).toMatchObject(unclear);
    }
  });

  it.each(LENGTHS.map((lengths, at) => ({ lengths, way: at % 2 === 0 ? 'tongued' : 'slurred', seed: 700 + 10 * at } as const)))(
    'of one exercise played again, every note longer or shorter by up to a tenth, is refused: six pairs ($way, $lengths s, seed $seed)',
    ({ lengths, way, seed }) => {
      const playings = [0, 1, 2, 3].map((which) => heard({ seed: seed + which, notes: SCALE.length, pitches: SCALE, way, lengths, gaps: [0.04, 0.06] }));
      for (const [first, again] of pairsOf(playings)) expect(alignSounds(first, again)).toMatchObject(unclear);
    },
  );

  it('of silence, or of too little, is refused', () => {
    const { samples } = phrase({ seed: 1, lowMidi: 52, highMidi: 80, notes: 4, way: 'tongued' });
    expect(alignSounds(sound(samples), sound(new Float32Array(samples.length)))).toMatchObject({ kind: 'not-aligned', reason: 'silent' });
    expect(alignSounds(sound(samples), sound(samples.slice(0, sampleRate)))).toMatchObject({ kind: 'not-aligned', reason: 'too-short' });
  });
});
