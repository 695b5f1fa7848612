/** Invented players for the tests of the findings: travel along a line as a function of the note, seen with normal errors. */
import type { PlacedNote, WayReadings } from '../../src/core/findings/readingsOfWay';
import { noteName } from '../../src/core/pitch';
import type { Random } from '../../src/core/random';

const LOWEST_MIDI = 52;

/** Notes evenly over so many semitones from E3. */
export const midisOver = (notes: number, semitones: number): number[] =>
  Array.from({ length: notes }, (_, i) => LOWEST_MIDI + Math.round((i * semitones) / (notes - 1)));

/** One reading of each note: true places along a direction (degrees from straight up, + right), with errors of `sdMm` in up and of `rightSdMm` in right. */
export function seenWay(midis: readonly number[], alongMm: readonly number[], fromUpDeg: number, sdMm: number, random: Random, rightSdMm = sdMm): WayReadings {
  const angle = (fromUpDeg * Math.PI) / 180;
  const notes = midis.map(
    (midi, i): PlacedNote => ({
      note: noteName(midi),
      midi,
      upMm: alongMm[i]! * Math.cos(angle) + sdMm * random.normal(),
      rightMm: alongMm[i]! * Math.sin(angle) + rightSdMm * random.normal(),
      sdMm,
      rightSdMm,
      readings: 1,
    }),
  );
  return { direction: null, notes };
}
