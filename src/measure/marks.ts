/** What a person marks in a picture. All points in the picture's frame, px (picture.ts); sides are the player's own. */
import type { Point } from './picture';

/** Where the camera stands: before the player, at the player's right or left side, or over the head. */
export type ViewFrom = 'front' | 'right' | 'left' | 'above';

/** Points of the skull that do not move with the lips or the jaw. */
export const LANDMARK_NAMES = [
  'nose-bridge',
  'inner-eye-right',
  'inner-eye-left',
  'outer-eye-right',
  'outer-eye-left',
  'cheekbone-right',
  'cheekbone-left',
  'ear-right',
  'ear-left',
] as const;
export type LandmarkName = (typeof LANDMARK_NAMES)[number];

export type Landmarks = Readonly<Partial<Record<LandmarkName, Point>>>;

export interface LineMark {
  readonly from: Point;
  readonly to: Point;
}

export interface PictureMarks {
  /** On the outer edge of the rim, in any order; five at least for an ellipse. */
  readonly rim?: readonly Point[] | undefined;
  readonly landmarks: Landmarks;
  /** The head's level line, seen from a side or from above: from the back of the head to the front. */
  readonly level?: LineMark | undefined;
  /** Along the middle of the horn: from near the rim toward the bell. */
  readonly horn?: LineMark | undefined;
  /** How far in front of the rim's plane the horn's far mark (`horn.to`) lies, along the horn; only a view from the front uses it. */
  readonly hornMarkMm?: { readonly value: number; readonly sd: number } | undefined;
  /** Where the lips meet, inside a clear rim: two points or more. */
  readonly lipLine?: readonly Point[] | undefined;
}

/** A pinhole camera: focal length in px with its relative deviation; the optical axis goes through the picture's middle. */
export interface CameraSpec {
  readonly width: number;
  readonly height: number;
  readonly focalPx: number;
  readonly focalRelativeSd: number;
}
