/**
 * A made film's scene as plain data: who sits there, what is played, where the camera stands. The same seed gives the same player,
 * the same notes and the same moving head; the view gives only the camera, so that two views of one seed are two films of one take.
 */
import { type Random, createRandom } from '../../../src/core/random';
import type { ViewFrom } from '../../../src/measure/marks';
import { type HeadLandmarks, headSurface, personsLandmarks } from './face';
import { cameraOf } from './filmCamera';
import { framed } from './framed';
import { headMotionOf } from './headMotion';
import { type NotePlayed, inventedNotes } from './notesPlayed';
import type { HornMade, Look, Scene } from './sceneTypes';

export type { HornMade, RimMade, Scene } from './sceneTypes';

export interface SceneOptions {
  readonly seed: number;
  /** Default: 'front'. */
  readonly view?: ViewFrom;
  /** Seconds; default 10. */
  readonly durationS?: number;
  /** Default 30. */
  readonly framesPerS?: number;
  readonly width?: number;
  readonly height?: number;
  /** Largest shift of the head along an axis, mm; default 10. */
  readonly headShiftMm?: number;
  /** Deviation of the head's turning about each axis over the film, degrees; default 2. */
  readonly headTurnSdDeg?: number;
  /** In the performance's time; default: invented from the seed. */
  readonly notes?: readonly NotePlayed[];
  /** The performance's second at which this film begins; default 0. */
  readonly startS?: number;
  /** Camera to rim, mm; default 650, from above 900. */
  readonly distanceMm?: number;
  /** The rim's width in the picture, px; default 150, from the sides 115, from above 80. */
  readonly rimWidthPx?: number;
  /** From the front: how far the camera stands from the horn's axis, toward the player's right and upward, degrees; defaults 11, 13. */
  readonly besideDeg?: number;
  readonly aboveDeg?: number;
  /** Deviation of the camera's own tilt, each axis, degrees; default 2. */
  readonly cameraTiltSdDeg?: number;
  /** From a side or from above: how far the camera is off square, in a direction drawn from the seed, degrees, drawn evenly between the two; default [2, 5]. */
  readonly cameraOffDeg?: readonly [number, number];
  readonly outerDiameterMm?: number;
  readonly innerDiameterMm?: number;
  /** Noise of each pixel, grey levels; default 2. */
  readonly noiseSd?: number;
  /** Strength of the skin's texture; default 1 (about 6 grey levels). */
  readonly skinContrast?: number;
  /** What differs from `USUAL_LOOK`. */
  readonly look?: Partial<Look>;
  /** How long the shutter is open, seconds; default 0 (no blur). */
  readonly exposureS?: number;
  /** Exposure flicker, part of the brightness; default 0. */
  readonly flicker?: number;
  /** Off 440 Hz, cents; default: seeded, SD 12. */
  readonly tuningCents?: number;
  /** Tone over pink noise, dB; default 20. */
  readonly soundNoiseDb?: number;
}

/** Throws RangeError for a duration, a size or a deviation that makes no film. */
export function sceneOf(options: SceneOptions): Scene {
  const { seed, view = 'front', durationS = 10, framesPerS = 30, startS = 0, outerDiameterMm = 27, innerDiameterMm = 16.5 } = options;
  if (!(durationS > 0 && durationS <= 600)) throw new RangeError(`sceneOf: durationS ${durationS}; allowed: over 0, at most 600`);
  if (!(framesPerS > 0 && framesPerS <= 240)) throw new RangeError(`sceneOf: framesPerS ${framesPerS}; allowed: over 0, at most 240`);
  if (!(outerDiameterMm > innerDiameterMm && innerDiameterMm > 0)) {
    throw new RangeError(`sceneOf: rim ${innerDiameterMm} to ${outerDiameterMm} mm; allowed: 0 < inner < outer`);
  }
  const draw = (stream: number): Random => createRandom(seed, stream);
  const landmarks = personsLandmarks(draw(STREAMS.person));
  const performed = options.notes ?? inventedNotes(draw(STREAMS.notes), durationS + startS);
  if (performed.length === 0) throw new RangeError('sceneOf: notes is empty; allowed: one note or more');
  const horn = hornFor(view);
  const camera = cameraOf(draw(STREAMS.camera + VIEWS.indexOf(view)), {
    view,
    width: options.width ?? 1280,
    height: options.height ?? 720,
    distanceMm: options.distanceMm ?? (view === 'above' ? 900 : 650),
    rimWidthPx: options.rimWidthPx ?? RIM_WIDTH_PX[view],
    outerDiameterMm,
    besideDeg: options.besideDeg ?? 11,
    aboveDeg: options.aboveDeg ?? 13,
    tiltSdDeg: options.cameraTiltSdDeg ?? 2,
    offDeg: view === 'front' ? null : (options.cameraOffDeg ?? SET_UP_BY_EYE_DEG),
    hornDeg: { elevation: mean(performed.map((note) => note.elevationDeg)), lateral: mean(performed.map((note) => note.lateralDeg)) },
    bridgeHeightMm: landmarks['nose-bridge'][1],
  });
  const sound = draw(STREAMS.sound);
  return framed({
    seed,
    view,
    durationS,
    framesPerS,
    startS,
    camera,
    landmarks,
    level: levelFor(view, landmarks, draw(STREAMS.level)),
    headMotion: headMotionOf(draw(STREAMS.motion), options.headShiftMm ?? 10, options.headTurnSdDeg ?? 2, startS, durationS),
    notes: performed.map((note) => ({ ...note, startS: note.startS - startS, endS: note.endS - startS })),
    home: 0,
    rim: { outerDiameterMm, innerDiameterMm, depthMm: 11, acrossRadiusMm: 25, upRadiusMm: 40 },
    horn,
    picture: {
      noiseSd: options.noiseSd ?? 2,
      skinContrast: options.skinContrast ?? 1,
      exposureS: options.exposureS ?? 0,
      flicker: options.flicker ?? 0,
      blinksS: blinks(draw(STREAMS.blinks), durationS + startS).map((at) => at - startS),
    },
    look: { ...USUAL_LOOK, ...options.look },
    sound: {
      tuningCents: options.tuningCents ?? 12 * sound.normal(),
      noiseDb: options.soundNoiseDb ?? 20,
      vibratoCents: 6 * sound.uniform(),
      vibratoHz: 4.5 + 1.5 * sound.uniform(),
      slope: 0.75 + 0.5 * sound.uniform(),
    },
  });
}

export const USUAL_LOOK: Look = { skinLuma: 168, dabs: 1, rimLuma: 206, rimGrain: 1, tubeLuma: 190, tubeGrain: 1 };
const RIM_WIDTH_PX: Readonly<Record<ViewFrom, number>> = { front: 150, right: 115, left: 115, above: 80 };
/** As measuring from films is promised for: a camera that somebody set up by eye. */
const SET_UP_BY_EYE_DEG = [2, 5] as const;
const STREAMS = { person: 0, motion: 1, notes: 2, blinks: 3, sound: 4, camera: 5, level: 9 } as const;
const VIEWS: readonly ViewFrom[] = ['front', 'right', 'left', 'above'];

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** From the front the tube ends in its far bead, or it would hide the face; so the bead is all that is seen there. */
function hornFor(view: ViewFrom): HornMade {
  const shared = { tubeRadiusMm: 3.6, beadRadiusMm: 5.4, nearMm: 24 };
  switch (view) {
    case 'front':
      return { ...shared, farMm: 42, lengthMm: 43 };
    case 'right':
    case 'left':
      return { ...shared, farMm: 72, lengthMm: 260 };
    case 'above':
      return { ...shared, nearMm: 45, farMm: 150, lengthMm: 320 };
  }
}

/** Over the crown, or somewhere along the cheek: one puts it more toward the ear, another more toward the eye. */
function levelFor(view: ViewFrom, landmarks: HeadLandmarks, random: Random): Scene['level'] {
  const skin = headSurface(landmarks);
  if (view === 'above') return { back: skin.atHeight(Math.PI, 168), front: skin.atHeight(0, 168) };
  const sign = view === 'left' ? 1 : -1;
  const height = landmarks[view === 'left' ? 'outer-eye-left' : 'outer-eye-right'][1] - BELOW_EYE_MM;
  const [back, front] = [1.3 + 0.24 * random.uniform(), 0.64 + 0.32 * random.uniform()];
  return { back: skin.atHeight(sign * back, height), front: skin.atHeight(sign * front, height) };
}
const BELOW_EYE_MM = 15;

/** A blink every 2 to 5 seconds. */
function blinks(random: Random, untilS: number): number[] {
  const times: number[] = [];
  for (let at = 1 + 2 * random.uniform(); at < untilS; at += 2 + 3 * random.uniform()) times.push(at);
  return times;
}
