/** A head that sways and turns: sums of slow waves, set to the largest shift and the deviation of turning that were asked for. */
import type { Random } from '../../../src/core/random';
import { toRadians } from '../../../src/core/frame';
import type { Vec3 } from '../../../src/core/vector';
import { type Mat3, turnOf } from './geometry';

interface Wave {
  readonly amplitude: number;
  readonly hertz: number;
  readonly phase: number;
}

interface Sway {
  readonly offset: number;
  readonly waves: readonly Wave[];
}

export interface HeadMotion {
  /** The performance's second at the film's beginning. */
  readonly startS: number;
  /** Along x, y, z of the player's frame at rest, mm. */
  readonly shiftMm: readonly [Sway, Sway, Sway];
  /** Rotation vector about the incisors, degrees. */
  readonly turnDeg: readonly [Sway, Sway, Sway];
}

/** From the head's frame to the room's (the head's frame at rest): room = rotation · head + shift. */
export interface HeadPlace {
  readonly rotation: Mat3;
  readonly shiftMm: Vec3;
}

/** Over the performance's seconds `startS` to `startS + durationS`. */
export function headMotionOf(random: Random, largestShiftMm: number, turnSdDeg: number, startS: number, durationS: number): HeadMotion {
  if (!(largestShiftMm >= 0 && turnSdDeg >= 0)) {
    throw new RangeError(`headMotionOf: shift ${largestShiftMm} mm, turn ${turnSdDeg} degrees; allowed: 0 or more`);
  }
  const three = (measure: (values: readonly number[]) => number, wished: number): readonly [Sway, Sway, Sway] => {
    const one = (): Sway => sized(random, startS, durationS, measure, wished);
    return [one(), one(), one()];
  };
  return { startS, shiftMm: three(largest, largestShiftMm), turnDeg: three(deviation, turnSdDeg) };
}

export function headPlaceAt(motion: HeadMotion, timeS: number): HeadPlace {
  const at = timeS + motion.startS;
  const [x, y, z] = motion.turnDeg;
  return {
    rotation: turnOf([toRadians(valueAt(x, at)), toRadians(valueAt(y, at)), toRadians(valueAt(z, at))]),
    shiftMm: [valueAt(motion.shiftMm[0], at), valueAt(motion.shiftMm[1], at), valueAt(motion.shiftMm[2], at)],
  };
}

const SAMPLES = 400;

function sized(random: Random, startS: number, durationS: number, measure: (values: readonly number[]) => number, wished: number): Sway {
  const waves = WAVE_HERTZ.map(([low, high], at) => ({
    amplitude: (1 + random.uniform()) / (1 + at),
    hertz: low + (high - low) * random.uniform(),
    phase: 2 * Math.PI * random.uniform(),
  }));
  const raw = Array.from({ length: SAMPLES }, (_, at) => valueAt({ offset: 0, waves }, startS + (durationS * at) / (SAMPLES - 1)));
  const mean = raw.reduce((sum, value) => sum + value, 0) / SAMPLES;
  const factor = wished / measure(raw.map((value) => value - mean));
  return { offset: -mean * factor, waves: waves.map((wave) => ({ ...wave, amplitude: wave.amplitude * factor })) };
}

/** Slow sway, nodding with the phrase, and some of the beat. */
const WAVE_HERTZ = [[0.1, 0.3], [0.3, 0.7], [0.7, 1.3]] as const;

const valueAt = ({ offset, waves }: Sway, timeS: number): number =>
  waves.reduce((sum, { amplitude, hertz, phase }) => sum + amplitude * Math.sin(2 * Math.PI * hertz * timeS + phase), offset);

const largest = (values: readonly number[]): number => Math.max(...values.map(Math.abs));
const deviation = (values: readonly number[]): number => Math.hypot(...values) / Math.sqrt(values.length);
