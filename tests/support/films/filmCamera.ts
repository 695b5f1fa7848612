/** The pinhole camera of a made film: where it stands for each view, and the projection. */
import { axisFromAngles, toRadians } from '../../../src/core/frame';
import type { Random } from '../../../src/core/random';
import { type Vec3, cross, normalize, scale, subtract } from '../../../src/core/vector';
import type { ViewFrom } from '../../../src/measure/marks';
import type { Point } from '../../../src/measure/picture';
import { type Mat3, product, rotate, turnOf } from './geometry';

/** A point of the room projects through `rotation · (point − position)`: x right, y down, z forward, mm. */
export interface FilmCamera {
  readonly width: number;
  readonly height: number;
  /** The optical axis meets the picture at its middle, ((width − 1) / 2, (height − 1) / 2). */
  readonly focalPx: number;
  readonly position: Vec3;
  readonly rotation: Mat3;
}

export interface CameraWishes {
  readonly view: ViewFrom;
  readonly width: number;
  readonly height: number;
  readonly distanceMm: number;
  readonly rimWidthPx: number;
  readonly outerDiameterMm: number;
  readonly besideDeg: number;
  readonly aboveDeg: number;
  readonly tiltSdDeg: number;
  /** From a side or from above: how far off square, drawn evenly between the two, degrees; null: by `tiltSdDeg`. */
  readonly offDeg: readonly [number, number] | null;
  readonly hornDeg: { readonly elevation: number; readonly lateral: number };
  readonly bridgeHeightMm: number;
}

/** Looks at the middle between rim and nose bridge (front), at the cheek (sides), at the mouth's front (above), then tilts a little. */
export function cameraOf(random: Random, wishes: CameraWishes): FilmCamera {
  const { view, width, height, distanceMm } = wishes;
  const middle = (wishes.bridgeHeightMm + 8 - wishes.outerDiameterMm / 2) / 2;
  const { target, away, up } = standOf(wishes, middle);
  const focalPx = (wishes.rimWidthPx * distanceMm) / wishes.outerDiameterMm;
  const tilt: Vec3 = [wishes.tiltSdDeg * random.normal(), wishes.tiltSdDeg * random.normal(), wishes.tiltSdDeg * random.normal()];
  // A turn about the line of sight itself would leave the camera where it is: from a side it looks up or down by one about the line forward.
  const isSide = view === 'right' || view === 'left';
  // The camera goes round the target by the first two tilts, so that what it films stays in the picture, and rolls by the third.
  const [first, second] = wishes.offDeg === null ? [toRadians(tilt[0]), toRadians(tilt[1])] : drawnOff(random, wishes.offDeg);
  const around = product(turnOf(isSide ? [0, 0, first] : [first, 0, 0]), turnOf(view === 'above' ? [0, 0, second] : [0, second, 0]));
  const forward = normalize(scale(rotate(around, away), -1));
  const right = normalize(cross(forward, up));
  const down = cross(forward, right);
  const level: Mat3 = [...right, ...down, ...forward];
  return {
    width,
    height,
    focalPx,
    position: subtract(target, scale(forward, distanceMm)),
    rotation: product(turnOf([0, 0, toRadians(tilt[2])]), level),
  };
}

/** Pixels of a point in the camera's own frame (z > 0). */
export function pixelOf({ width, height, focalPx }: FilmCamera, [x, y, z]: Vec3): Point {
  return { x: (width - 1) / 2 + (focalPx * x) / z, y: (height - 1) / 2 + (focalPx * y) / z };
}

export const inCamera = (camera: FilmCamera, room: Vec3): Vec3 => rotate(camera.rotation, subtract(room, camera.position));

/** Two small turns at right angles that together make one of so many degrees, any way. */
function drawnOff(random: Random, [low, high]: readonly [number, number]): readonly [number, number] {
  const off = toRadians(low + (high - low) * random.uniform());
  const way = 2 * Math.PI * random.uniform();
  return [off * Math.cos(way), off * Math.sin(way)];
}

function standOf({ view, besideDeg, aboveDeg, hornDeg }: CameraWishes, middle: number): { target: Vec3; away: Vec3; up: Vec3 } {
  switch (view) {
    case 'front':
      return {
        target: [0, middle, 0],
        away: axisFromAngles({ elevationDeg: hornDeg.elevation + aboveDeg, lateralDeg: hornDeg.lateral + besideDeg }),
        up: [0, 1, 0],
      };
    case 'right':
      return { target: [0, middle, -14], away: [-1, 0, 0], up: [0, 1, 0] };
    case 'left':
      return { target: [0, middle, -14], away: [1, 0, 0], up: [0, 1, 0] };
    case 'above':
      // The player looks to the picture's right; the player's left is up.
      return { target: [0, 0, 5], away: [0, 1, 0], up: [1, 0, 0] };
  }
}
