/** Marks on one frame as a careful person would make them: only what is seen, each with the unsteadiness of a hand. */
import { createRandom } from '../../../src/core/random';
import { type Vec3, length, normalize, scale, subtract } from '../../../src/core/vector';
import { LANDMARK_NAMES, type LandmarkName, type LineMark, type PictureMarks } from '../../../src/measure/marks';
import type { Point } from '../../../src/measure/picture';
import { HEAD_MIDDLE, headSurface } from './face';
import { hornHit, hornPieces, hornPlaceOf } from './hornShape';
import type { Scene } from './sceneTypes';
import { type Truth, rimEdgePoint, seenAt, towardCamera, truthAt } from './truth';

export interface Unsteadiness {
  /** Deviation of each mark in each direction, px; default 0. */
  readonly jitterPx?: number;
  readonly seed?: number;
  /** How many points round the rim are tried (those under the tube are left out); default 12. */
  readonly rimPoints?: number;
}

/**
 * Rim points from the front only: from elsewhere the rim is seen on its edge. The level line from the sides and from above. The horn's
 * line runs from bead to bead; `hornMarkMm` is the far bead's distance, as one would measure it with a ruler.
 */
export function marksAt(scene: Scene, timeS: number, { jitterPx = 0, seed = 1, rimPoints = 12 }: Unsteadiness = {}): PictureMarks {
  const random = createRandom(seed, 50);
  const truth = truthAt(scene, timeS);
  const shaken = ({ x, y }: Point): Point => ({ x: x + jitterPx * random.normal(), y: y + jitterPx * random.normal() });
  const shakenLine = ({ from, to }: LineMark): LineMark => ({ from: shaken(from), to: shaken(to) });
  const landmarks: Partial<Record<LandmarkName, Point>> = {};
  for (const name of visibleLandmarks(scene, timeS)) landmarks[name] = shaken(truth.px.landmarks[name]);
  const shared = { landmarks, horn: shakenLine(truth.px.horn) };
  if (scene.view !== 'front') return { ...shared, level: shakenLine(truth.px.level) };
  const rim = Array.from({ length: rimPoints }, (_, at) => seenAt(scene, truth, rimEdgePoint(scene, truth.rim, (2 * Math.PI * (at + 0.3)) / rimPoints)));
  return {
    ...shared,
    rim: rim.filter((point) => inPicture(scene, point) && !underHorn(scene, truth, point)).map(shaken),
    hornMarkMm: { value: scene.horn.farMm, sd: 0.5 },
  };
}

/** Landmarks that are in the picture and hidden neither by the head itself nor by the horn. */
export function visibleLandmarks(scene: Scene, timeS: number): LandmarkName[] {
  const truth = truthAt(scene, timeS);
  const skin = headSurface(scene.landmarks);
  return LANDMARK_NAMES.filter((name) => {
    const point = scene.landmarks[name];
    const seen = truth.px.landmarks[name];
    if (!inPicture(scene, seen) || underHorn(scene, truth, seen)) return false;
    const toCamera = normalize(towardCamera(truth, point));
    for (let mm = FIRST_STEP_MM; mm < 160; mm += 2) {
      const away = subtract([point[0] + mm * toCamera[0], point[1] + mm * toCamera[1], point[2] + mm * toCamera[2]], HEAD_MIDDLE);
      if (length(away) < skin.radiusMm(unit(away)) - SKIN_SLACK_MM) return false;
    }
    return true;
  });
}

const unit = (vector: Vec3): Vec3 => scale(vector, 1 / length(vector));

/** The ray must stand 0.8 mm off the skin after 3 mm (a slant of 15°): flatter than that nobody would mark. Points nearer than 3 mm are skin themselves. */
const FIRST_STEP_MM = 3;
const SKIN_SLACK_MM = -0.8;

function inPicture({ camera: { width, height } }: Scene, { x, y }: Point): boolean {
  return x >= EDGE_PX && y >= EDGE_PX && x <= width - 1 - EDGE_PX && y <= height - 1 - EDGE_PX;
}
/** A mark this near the picture's edge has nothing to be followed by, px. */
const EDGE_PX = 12;

function underHorn(scene: Scene, truth: Truth, { x, y }: Point): boolean {
  const { width, height, focalPx } = scene.camera;
  // The hollow of the cup lies within the rim; only what stands out of it can hide the edge.
  return hornHit(hornPieces(scene), hornPlaceOf(truth), (x - (width - 1) / 2) / focalPx, (y - (height - 1) / 2) / focalPx) !== null;
}
