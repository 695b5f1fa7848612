/** A made film's scene: data only, so that it can be sent to a page and stand for the film in a store. */
import type { Vec3 } from '../../../src/core/vector';
import type { ViewFrom } from '../../../src/measure/marks';
import type { HeadLandmarks } from './face';
import type { FilmCamera } from './filmCamera';
import type { HeadMotion } from './headMotion';
import type { NotePlayed } from './notesPlayed';

export interface Scene {
  readonly seed: number;
  readonly view: ViewFrom;
  readonly durationS: number;
  readonly framesPerS: number;
  readonly startS: number;
  readonly camera: FilmCamera;
  readonly landmarks: HeadLandmarks;
  /** Ends of the line that is level in the player's frame, on the skin on the camera's side (or on top), mm. */
  readonly level: { readonly back: Vec3; readonly front: Vec3 };
  readonly headMotion: HeadMotion;
  /** In the film's own time; what was before its beginning has negative times. */
  readonly notes: readonly NotePlayed[];
  /** The place in `notes` that travel is told from. */
  readonly home: number;
  readonly rim: RimMade;
  readonly horn: HornMade;
  readonly picture: { readonly noiseSd: number; readonly skinContrast: number; readonly exposureS: number; readonly flicker: number; readonly blinksS: readonly number[] };
  readonly look: Look;
  readonly sound: { readonly tuningCents: number; readonly noiseDb: number; readonly vibratoCents: number; readonly vibratoHz: number; readonly slope: number };
}

/** Brightness before the light falls on it, grey levels; strengths of texture, 1 being the usual. */
export interface Look {
  readonly skinLuma: number;
  /** Of the dabs at nose bridge, cheekbones and ears, where a face by itself has little to hold on to. */
  readonly dabs: number;
  readonly rimLuma: number;
  readonly rimGrain: number;
  readonly tubeLuma: number;
  readonly tubeGrain: number;
}

export interface RimMade {
  readonly outerDiameterMm: number;
  readonly innerDiameterMm: number;
  /** Depth of the rim's centre on the midline at the incisors' height, and the radii along which it goes back sideways and up or down, mm. */
  readonly depthMm: number;
  readonly acrossRadiusMm: number;
  readonly upRadiusMm: number;
}

export interface HornMade {
  readonly tubeRadiusMm: number;
  readonly lengthMm: number;
  /** Beads round the tube, their middles on its axis: how far in front of the rim's plane, mm. */
  readonly nearMm: number;
  readonly farMm: number;
  readonly beadRadiusMm: number;
}
