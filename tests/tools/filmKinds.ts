/** The films of the long run: plain ones as the accuracy is promised for, and varied ones, all drawn from a seed. */
import { createRandom } from '../../src/core/random';
import type { CarefulMarks } from '../support/films/measureFilms';
import { type Scene, type SceneOptions, sceneOf } from '../support/films/scene';

export const FILM_KINDS = ['front2', 'front5', 'right', 'above'] as const;
/** From the front with the head turning 2 or 5 degrees (deviation, each axis), from the player's right, from above. */
export type FilmKind = (typeof FILM_KINDS)[number];

export interface FilmWished {
  readonly scene: Scene;
  readonly marks: CarefulMarks;
  readonly words: string;
}

const PLAIN: Readonly<Record<FilmKind, Partial<SceneOptions>>> = {
  front2: { view: 'front', headTurnSdDeg: 2 },
  front5: { view: 'front', headTurnSdDeg: 5 },
  right: { view: 'right', headTurnSdDeg: 2 },
  above: { view: 'above', headTurnSdDeg: 2 },
};
const DURATION_S = 8;

export function filmOfKind(kind: FilmKind, seed: number, isVaried: boolean): FilmWished {
  const plain = { seed, durationS: DURATION_S, framesPerS: 25, ...PLAIN[kind] };
  if (!isVaried) return { scene: sceneOf(plain), marks: { jitterPx: 1, focalRelativeSd: 0.05 }, words: '' };
  const random = createRandom(seed, 60);
  const pick = <T>(...all: readonly T[]): T => all[random.integer(0, all.length - 1)]!;
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  const lensMm = between(24, 110);
  const isFront = kind.startsWith('front');
  const rimWidthPx = isFront ? between(120, 180) : undefined;
  const distanceMm = isFront ? ((lensMm / Math.hypot(36, 24)) * Math.hypot(1280, 720) * 27) / rimWidthPx! : undefined;
  const look = {
    skinLuma: pick(70, 110, 168, 205),
    dabs: pick(0, 0.3, 1),
    rimLuma: pick(120, 206, 225),
    rimGrain: pick(0.1, 0.5, 1),
    tubeLuma: pick(110, 190),
    tubeGrain: pick(0.2, 1),
  };
  const options = {
    ...plain,
    ...(isFront && { rimWidthPx: rimWidthPx!, distanceMm: distanceMm!, besideDeg: pick(-15, 8, 11, 20), aboveDeg: pick(-16, 8, 13, 22) }),
    framesPerS: pick(24, 25, 30, 50),
    noiseSd: between(1, 5),
    skinContrast: pick(0.3, 0.6, 1),
    exposureS: pick(0, 1 / 100, 1 / 50),
    flicker: pick(0, 0.04),
    look,
  };
  const jitterPx = pick(0.7, 1, 1.5);
  const scene = sceneOf(options);
  const words = `${isFront ? `${lensMm.toFixed(0)} mm, beside ${options.besideDeg} above ${options.aboveDeg}, ` : ''}skin ${look.skinLuma}×${options.skinContrast} dabs ${look.dabs}, rim ${look.rimLuma}×${look.rimGrain}, tube ${look.tubeLuma}×${look.tubeGrain}, noise ${options.noiseSd.toFixed(1)}, 1/${options.exposureS && Math.round(1 / options.exposureS)} s, ${options.framesPerS} fps, jitter ${jitterPx}`;
  return { scene, marks: { jitterPx, focalRelativeSd: 0.05, focalOff: 0.05 * random.normal() }, words };
}
