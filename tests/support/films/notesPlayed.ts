/** What is played in a made film, and how rim and horn go from note to note. */
import type { Random } from '../../../src/core/random';

export interface NotePlayed {
  /** Sounding pitch, MIDI. */
  readonly midi: number;
  readonly startS: number;
  readonly endS: number;
  /** The rim's centre over the incisors, people's signs, mm. */
  readonly upMm: number;
  readonly rightMm: number;
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

/** Where rim and horn are at one time, people's signs. */
export interface RimState {
  readonly upMm: number;
  readonly rightMm: number;
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

/** Half the time of a slur's move, seconds: rim and pitch are gliding this long before and after the boundary. */
export const GLIDE_HALF_S = 0.04;
/** A shorter pause than this between two notes is a slur. */
export const SLUR_BELOW_S = 0.005;

/** Still within a note, smooth between two: over the glide of a slur, or over the whole pause. */
export function rimStateAt(notes: readonly NotePlayed[], timeS: number): RimState {
  for (let at = 0; at + 1 < notes.length; at++) {
    const [from, to] = [notes[at]!, notes[at + 1]!];
    const [begin, end] = moveBetween(from, to);
    if (timeS < begin) return from;
    if (timeS < end) return between(from, to, (timeS - begin) / (end - begin));
  }
  return notes.at(-1)!;
}

/** When the move from one note to the next begins and ends, seconds. */
export function moveBetween(from: NotePlayed, to: NotePlayed): readonly [number, number] {
  const slurred = to.startS - from.endS < SLUR_BELOW_S;
  return slurred ? [from.endS - GLIDE_HALF_S, to.startS + GLIDE_HALF_S] : [from.endS, to.startS];
}

/** A wandering phrase: the higher the note, the further one way; some steps slurred, some with a pause. */
export function inventedNotes(random: Random, durationS: number): NotePlayed[] {
  const way = random.uniform() < 0.5 ? -1 : 1;
  const slope = { upMm: way * (0.12 + 0.1 * random.uniform()), rightMm: 0.06 * random.normal(), elevationDeg: way * (0.25 + 0.2 * random.uniform()), lateralDeg: 0.12 * random.normal() };
  const home = { upMm: 1.2 * random.normal(), rightMm: 1 * random.normal(), elevationDeg: -14 + 3 * random.normal(), lateralDeg: 2 * random.normal() };
  const notes: NotePlayed[] = [];
  let midi = HOME_MIDI;
  let startS = 0.4;
  while (startS < durationS - 0.5) {
    const endS = Math.min(startS + 0.45 + 0.35 * random.uniform(), durationS - 0.15);
    const off = midi - HOME_MIDI;
    notes.push({
      midi,
      startS,
      endS,
      upMm: home.upMm + slope.upMm * off + 0.3 * random.normal(),
      rightMm: home.rightMm + slope.rightMm * off + 0.3 * random.normal(),
      elevationDeg: home.elevationDeg + slope.elevationDeg * off + 0.7 * random.normal(),
      lateralDeg: home.lateralDeg + slope.lateralDeg * off + 0.7 * random.normal(),
    });
    startS = endS + (random.uniform() < 0.5 ? 0 : 0.08 + 0.12 * random.uniform());
    const step = STEPS[random.integer(0, STEPS.length - 1)]!;
    midi += midi + step > HIGHEST_MIDI || midi + step < LOWEST_MIDI ? -step : step;
  }
  return notes;
}

/** Sounding B flat 4 on a trumpet's middle, and a range of two octaves and a half round it. */
const HOME_MIDI = 70;
const LOWEST_MIDI = 54;
const HIGHEST_MIDI = 84;
const STEPS = [-7, -5, -4, -3, -2, -1, 1, 2, 3, 4, 5, 7];

function between(from: RimState, to: RimState, part: number): RimState {
  const smooth = part * part * (3 - 2 * part);
  const mix = (a: number, b: number): number => a + (b - a) * smooth;
  return {
    upMm: mix(from.upMm, to.upMm),
    rightMm: mix(from.rightMm, to.rightMm),
    elevationDeg: mix(from.elevationDeg, to.elevationDeg),
    lateralDeg: mix(from.lateralDeg, to.lateralDeg),
  };
}
