/** Everything that is true of a scene at one time: the head's place, the rim and the horn in the head's frame, and where they are seen. */
import { axisFromAngles, frontalPosition, rimDirections, toRadians } from '../../../src/core/frame';
import { type Vec3, add, dot, scale, subtract } from '../../../src/core/vector';
import { LANDMARK_NAMES, type LandmarkName, type LineMark } from '../../../src/measure/marks';
import type { Point } from '../../../src/measure/picture';
import type { RimEllipse } from '../../../src/measure/traces';
import { inCamera, pixelOf } from './filmCamera';
import { product, rotate, transposed } from './geometry';
import { type HeadPlace, headPlaceAt } from './headMotion';
import { moveBetween, rimStateAt } from './notesPlayed';
import type { RimMade, Scene } from './sceneTypes';

export interface Truth {
  readonly timeS: number;
  /** room = rotation · head + shift, mm; the room is the head's frame at rest. */
  readonly head: HeadPlace;
  /** camera (x right, y down, z forward) = rotation · head + shift, mm. */
  readonly headInCamera: HeadPlace;
  /** In the head's frame; travel is of the rim's centre over the incisors, people's signs (subtract the home note's for travel from home). */
  readonly rim: { readonly centre: Vec3; readonly axis: Vec3; readonly upMm: number; readonly rightMm: number; readonly elevationDeg: number; readonly lateralDeg: number };
  readonly px: {
    readonly landmarks: Readonly<Record<LandmarkName, Point>>;
    readonly level: LineMark;
    readonly rimCentre: Point;
    /** The outer edge, exact; its centre is not where the rim's centre is seen. From the front only: seen on its edge it is a line, and this may be anything. */
    readonly rimEllipse: RimEllipse;
    /** The beads' middles, on the horn's axis. */
    readonly horn: LineMark;
  };
}

/** What a reading of one note should say: means over its steady part. */
export interface NoteTruth {
  readonly midi: number;
  readonly startS: number;
  readonly endS: number;
  /** From the home note's, people's signs. */
  readonly travelUpMm: number;
  readonly travelRightMm: number;
  readonly elevationDeg: number;
  readonly lateralDeg: number;
}

export function truthAt(scene: Scene, timeS: number): Truth {
  const head = headPlaceAt(scene.headMotion, timeS);
  const headInCamera = placeInCamera(scene, head);
  const rim = rimAt(scene, timeS);
  const px = (point: Vec3): Point => pixelOf(scene.camera, add(rotate(headInCamera.rotation, point), headInCamera.shiftMm));
  const along = (mm: number): Point => px(add(rim.centre, scale(rim.axis, mm)));
  return {
    timeS,
    head,
    headInCamera,
    rim,
    px: {
      landmarks: Object.fromEntries(LANDMARK_NAMES.map((name) => [name, px(scene.landmarks[name])])) as Record<LandmarkName, Point>,
      level: { from: px(scene.level.back), to: px(scene.level.front) },
      rimCentre: px(rim.centre),
      rimEllipse: circleSeen(scene, headInCamera, rim),
      horn: { from: along(scene.horn.nearMm), to: along(scene.horn.farMm) },
    },
  };
}

export function noteTruths(scene: Scene): NoteTruth[] {
  const home = scene.notes[scene.home]!;
  return scene.notes.map((note) => ({
    midi: note.midi,
    startS: note.startS,
    endS: note.endS,
    travelUpMm: note.upMm - home.upMm,
    travelRightMm: note.rightMm - home.rightMm,
    elevationDeg: note.elevationDeg,
    lateralDeg: note.lateralDeg,
  }));
}

/** The note that is steady at a time, or null while rim and pitch are on the way to another (or before the first, or after the last). */
export function steadyNoteAt(scene: Scene, timeS: number): number | null {
  const at = scene.notes.findIndex((note, place) => {
    const before = scene.notes[place - 1];
    const after = scene.notes[place + 1];
    const from = before ? moveBetween(before, note)[1] : note.startS;
    const to = after ? moveBetween(note, after)[0] : note.endS;
    return timeS >= from && timeS <= to;
  });
  return at < 0 ? null : at;
}

/** Depth over the arch: how far forward the rim's centre stands when it is moved in front, mm. */
export function rimDepthMm({ depthMm, acrossRadiusMm, upRadiusMm }: RimMade, upMm: number, rightMm: number): number {
  const back = (radius: number, off: number): number => radius - Math.sqrt(radius * radius - off * off);
  return depthMm - back(acrossRadiusMm, rightMm) - back(upRadiusMm, upMm);
}

function rimAt(scene: Scene, timeS: number): Truth['rim'] {
  const { upMm, rightMm, elevationDeg, lateralDeg } = rimStateAt(scene.notes, timeS);
  const { x, y } = frontalPosition(upMm, rightMm);
  return {
    centre: [x, y, rimDepthMm(scene.rim, upMm, rightMm)],
    axis: axisFromAngles({ elevationDeg, lateralDeg }),
    upMm,
    rightMm,
    elevationDeg,
    lateralDeg,
  };
}

function placeInCamera(scene: Scene, head: HeadPlace): HeadPlace {
  return { rotation: product(scene.camera.rotation, head.rotation), shiftMm: inCamera(scene.camera, head.shiftMm) };
}

/**
 * The circle's outline as an ellipse: a ray d meets the rim's plane at distance h along the axis a, and lies on the cone over the
 * circle where |(h d − (a·d) c)|² = r² (a·d)²; in pixels that is a conic.
 */
function circleSeen(scene: Scene, place: HeadPlace, rim: Truth['rim']): RimEllipse {
  const c = add(rotate(place.rotation, rim.centre), place.shiftMm);
  const a = rotate(place.rotation, rim.axis);
  const h = dot(a, c);
  const r = scene.rim.outerDiameterMm / 2;
  const q = (row: number, column: number): number =>
    (row === column ? h * h : 0) - h * (c[row]! * a[column]! + a[row]! * c[column]!) + (dot(c, c) - r * r) * a[row]! * a[column]!;
  return ellipseOfConic(q, scene);
}

/** Ellipse of dᵀ Q d = 0 with d = ((x − cx) / f, (y − cy) / f, 1). */
function ellipseOfConic(q: (row: number, column: number) => number, { camera }: Scene): RimEllipse {
  const [A, B, C, D, E, F] = [q(0, 0), q(0, 1), q(1, 1), q(0, 2), q(1, 2), q(2, 2)];
  const determinant = A * C - B * B;
  const x = (B * E - C * D) / determinant;
  const y = (B * D - A * E) / determinant;
  const level = -(D * x + E * y + F);
  const middle = (A + C) / 2;
  const spread = Math.hypot((A - C) / 2, B);
  const small = level > 0 ? middle - spread : middle + spread;
  const large = level > 0 ? middle + spread : middle - spread;
  // The major axis is the eigenvector of the smaller curvature.
  let angleRad = Math.atan2(small - A, B);
  if (B === 0) angleRad = Math.abs(A - small) <= Math.abs(C - small) ? 0 : Math.PI / 2;
  if (angleRad <= -Math.PI / 2) angleRad += Math.PI;
  if (angleRad > Math.PI / 2) angleRad -= Math.PI;
  const f = camera.focalPx;
  return {
    centre: { x: (camera.width - 1) / 2 + f * x, y: (camera.height - 1) / 2 + f * y },
    semiMajorPx: f * Math.sqrt(level / small),
    semiMinorPx: f * Math.sqrt(level / large),
    angleRad,
  };
}

/** Points of the rim's outer edge, in the head's frame, mm; `angleRad` from across (the player's left) toward up. */
export function rimEdgePoint(scene: Scene, rim: Truth['rim'], angleRad: number): Vec3 {
  const { across, up } = rimDirections(toRadians(rim.elevationDeg), toRadians(rim.lateralDeg));
  const r = scene.rim.outerDiameterMm / 2;
  return add(rim.centre, add(scale(across, r * Math.cos(angleRad)), scale(up, r * Math.sin(angleRad))));
}

/** Where a point of the head's frame is seen. */
export function seenAt(scene: Scene, truth: Truth, point: Vec3): Point {
  return pixelOf(scene.camera, add(rotate(truth.headInCamera.rotation, point), truth.headInCamera.shiftMm));
}

/** From a point of the head's frame to the camera, in the head's frame, mm. */
export function towardCamera(truth: Truth, point: Vec3): Vec3 {
  const { rotation, shiftMm } = truth.headInCamera;
  const camera = rotate(transposed(rotation), scale(shiftMm, -1));
  return subtract(camera, point);
}
