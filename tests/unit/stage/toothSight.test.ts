import { DoubleSide, Mesh, MeshBasicMaterial, Raycaster, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { buildArch } from '../../../src/core/arch';
import { toRadians } from '../../../src/core/frame';
import { contourHeight } from '../../../src/core/rim';
import { crownShell } from '../../../src/stage/crownShape';
import { geometryOf } from '../../../src/stage/geometryOf';
import { gumShell } from '../../../src/stage/gumShape';
import { instrumentProfiles, turn } from '../../../src/stage/rimShape';
import { createStand, standMatrix, writeStand } from '../../../src/stage/stand';
import { type ToothSight, seesTooth } from '../../../src/stage/toothSight';
import { demoRecord, drawnFaces } from './drawnMouth';

const { rim, arch } = demoRecord;
const profiles = instrumentProfiles(rim, (radiusMm) => contourHeight(rim, radiusMm));
const faces = drawnFaces(buildArch(arch));
const stand = createStand();
writeStand(analyse(demoRecord).home.follow.pose, stand);
const material = new MeshBasicMaterial({ side: DoubleSide });

/** Where a number stands: a little under the middle of the crown's free height. */
const spots = faces.flatMap(({ face, teeth }) =>
  teeth.map((tooth) => {
    const height = tooth.edgeMm + (tooth.marginMm - tooth.edgeMm) * 0.45;
    return { fdi: tooth.fdi, at: new Vector3(...face.pointAt(tooth.arcMm, height)), facing: new Vector3(...face.normalAt(tooth.arcMm, height)) };
  }));

function eyeAt(azimuthDeg: number, elevationDeg: number): Vector3 {
  const [azimuth, elevation] = [toRadians(azimuthDeg), toRadians(elevationDeg)];
  return new Vector3(-Math.sin(azimuth) * Math.cos(elevation), Math.sin(elevation), Math.cos(azimuth) * Math.cos(elevation)).multiplyScalar(420);
}

const numbersSeen = (sight: ToothSight, eye: Vector3): number[] =>
  spots.filter(({ at, facing }) => seesTooth(sight, eye, at, facing, stand)).map(({ fdi }) => fdi);

/** Teeth whose spot a ray from the eye meets first, among all the crowns, gums and brass that are drawn. */
function metFirst(eye: Vector3, halved: boolean): number[] {
  const mouth = faces.flatMap(({ face, teeth }) => [gumShell(face, teeth), ...teeth.map(crownShell)]);
  const brass = [profiles.rim, profiles.body].map((profile) => turn(profile, 96, halved ? -Math.PI / 2 : 0, halved ? Math.PI / 2 : 2 * Math.PI));
  const meshes = [...mouth, ...brass].map(({ positions, index }, place) => {
    const mesh = new Mesh(geometryOf(positions, index), material);
    if (place >= mouth.length) standMatrix(stand, mesh.matrixWorld.elements);
    return mesh;
  });
  return spots.flatMap(({ fdi, at }) => {
    const away = at.distanceTo(eye);
    const [first] = new Raycaster(eye, at.clone().sub(eye).normalize()).intersectObjects(meshes);
    return first !== undefined && first.distance > away - 0.5 ? [fdi] : [];
  });
}

describe.each([
  { seen: 'three-quarter', azimuth: 34, elevation: 15, halved: false },
  { seen: 'three-quarter, cut open', azimuth: 34, elevation: 15, halved: true },
  { seen: 'from the other side', azimuth: -50, elevation: 5, halved: false },
  { seen: 'from below', azimuth: 20, elevation: -25, halved: false },
])('$seen', ({ azimuth, elevation, halved }) => {
  const eye = eyeAt(azimuth, elevation);
  const shown = numbersSeen({ cutting: false, instrument: halved ? 'halved' : 'whole', profiles }, eye);
  const met = metFirst(eye, halved);

  it('shows no number of a tooth that something stands before', () => {
    expect(shown.filter((fdi) => !met.includes(fdi))).toEqual([]);
  });

  it('keeps the others back only where a tooth is seen too much from its side', () => {
    const keptBack = spots.filter(({ fdi }) => met.includes(fdi) && !shown.includes(fdi));
    for (const { fdi, at, facing } of keptBack) expect(eye.clone().sub(at).normalize().dot(facing), String(fdi)).toBeLessThan(0.25);
    expect(shown.length).toBeGreaterThan(5);
  });
});

it('shows numbers of the half that is left in the side view, seen from within', () => {
  const shown = numbersSeen({ cutting: true, instrument: 'halved', profiles }, eyeAt(90, 0));
  expect(shown.length).toBeGreaterThan(1);
  for (const fdi of shown) expect([2, 3]).toContain(Math.floor(fdi / 10));
});

it('through a rim of glass every front tooth keeps its number', () => {
  const shown = numbersSeen({ cutting: false, instrument: 'glass', profiles }, eyeAt(0, 4));
  for (const fdi of [11, 12, 13, 21, 22, 23, 31, 32, 33, 41, 42, 43]) expect(shown).toContain(fdi);
});
