import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { createLive, samplePath } from '../../../src/core/live';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import { anglesFromAxis, rimDirections, toRadians } from '../../../src/core/frame';
import { arrowSide, pointUnder } from '../../../src/stage/dragPlane';
import { fanOf, tubeThrough } from '../../../src/stage/fanShape';
import { pressureScaleKPa } from '../../../src/stage/pressureScale';
import { createStand, standMatrix, writeStand } from '../../../src/stage/stand';
import { expectWithin } from '../../support/expectWithin';
import { demoRecord } from './drawnMouth';
import { volumeOf } from './solid';

const WIDTH = 860;
const HEIGHT = 560;

function cameraAt(azimuthDeg: number, elevationDeg: number): PerspectiveCamera {
  const camera = new PerspectiveCamera(14, WIDTH / HEIGHT, 10, 2000);
  const [azimuth, elevation] = [toRadians(azimuthDeg), toRadians(elevationDeg)];
  camera.position.set(-Math.sin(azimuth) * Math.cos(elevation) * 300, Math.sin(elevation) * 300, 20 + Math.cos(azimuth) * Math.cos(elevation) * 300);
  camera.lookAt(0, 0, 20);
  camera.updateMatrixWorld();
  return camera;
}

describe.each([
  { name: 'face to face', azimuth: 0, elevation: 4, mirrored: false },
  { name: 'in a mirror', azimuth: 0, elevation: 4, mirrored: true },
  { name: 'three-quarter', azimuth: 34, elevation: 15, mirrored: false },
])('dragging seen $name', ({ azimuth, elevation, mirrored }) => {
  it('brings the rim to where the pointer is', () => {
    const camera = cameraAt(azimuth, elevation);
    const wanted = new Vector3(-2.5, 3.25, 9);
    const seen = wanted.clone().project(camera);
    const x = ((mirrored ? -seen.x : seen.x) + 1) * 0.5 * WIDTH;
    const y = (1 - seen.y) * 0.5 * HEIGHT;
    const found = pointUnder({ camera, width: WIDTH, height: HEIGHT, mirrored }, x, y, [0, 0, 9])!;
    expectWithin(found.x, wanted.x, { abs: 1e-9 }, 'x');
    expectWithin(found.y, wanted.y, { abs: 1e-9 }, 'y');
  });
});

it('dragging seen from the side moves the rim up and down only', () => {
  const camera = cameraAt(90, 0);
  const picture = { camera, width: WIDTH, height: HEIGHT, mirrored: false };
  const low = pointUnder(picture, 300, 300, [0, 0, 9])!;
  const high = pointUnder(picture, 340, 250, [0, 0, 9])!;
  expect(high.y - low.y).toBeGreaterThan(1);
  expectWithin(high.x, low.x, { abs: 1e-9 }, 'x');
});

it.each([
  { seen: 'face to face', azimuth: 0, mirrored: false, right: -1 },
  { seen: 'as in a mirror', azimuth: 0, mirrored: true, right: 1 },
  { seen: 'from behind', azimuth: 180, mirrored: false, right: 1 },
  { seen: 'from the side', azimuth: 90, mirrored: false, right: 1 },
])('the right arrow goes right in the picture, seen $seen', ({ azimuth, mirrored, right }) => {
  expect(arrowSide({ camera: cameraAt(azimuth, 4), width: WIDTH, height: HEIGHT, mirrored })).toBe(right);
});

it('stands the instrument in the rim’s own directions', () => {
  for (const [elevation, lateral] of [[0.1, -0.2], [-0.3, 0.15], [0, 0]] as const) {
    const { across, up, axis } = rimDirections(elevation, lateral);
    const stand = createStand();
    writeStand({ rimCentreMm: [1, 2, 3], axis, ...anglesFromAxis(axis) }, stand);
    const elements = new Array<number>(16).fill(NaN);
    standMatrix(stand, elements);
    const wanted = [...across, 0, ...up, 0, ...axis, 0, 1, 2, 3, 1];
    elements.forEach((value, index) => expectWithin(value, wanted[index]!, { abs: 1e-12 }, `element ${index}`));
  }
});

describe('the fan', () => {
  const record = {
    ...demoRecord,
    readings: demoRecord.readings.map((reading) =>
      reading.note === (demoRecord.home?.note ?? '') || reading.note === demoRecord.readings[0]!.note
        ? { ...reading, horn: { elevationDeg: reading.note === demoRecord.readings[0]!.note ? -9 : -6, lateralDeg: 1, sdDeg: 1 } }
        : { ...reading, horn: undefined },
    ),
  };
  const analysis = analyse(record);
  const live = createLive(analysis);
  const path = samplePath(analysis, live, 20, { horn: 'follow', view: 'seated' });
  const fan = fanOf(analysis, [path], 'follow');

  it('lays measured angles on the model’s home, so that what is compared is the change', () => {
    expect(analysis.home.measured).not.toBeNull();
    const atHome = fan.measured.find((line) => line.note === analysis.home.note)!;
    const home = analysis.home.follow.pose;
    expectWithin(anglesFromAxis(atHome.axis).elevationDeg, home.elevationDeg, { abs: 1e-9 }, 'elevation at home');
    expectWithin(anglesFromAxis(atHome.axis).lateralDeg, home.lateralDeg, { abs: 1e-9 }, 'lateral at home');
    const lowest = fan.measured.find((line) => line.note === record.readings[0]!.note)!;
    expectWithin(anglesFromAxis(lowest.axis).elevationDeg, home.elevationDeg - 3, { abs: 1e-9 }, 'three degrees lower');
  });

  it.each([
    ['sideways, at home', { lateralSdDeg: UNSEEN_HORN_SD_DEG }, true],
    ['up and down, at home', { sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 1 }, true],
    ['sideways, at the note', { lateralSdDeg: UNSEEN_HORN_SD_DEG }, false],
    ['up and down, at the note', { sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 1 }, false],
  ])('draws no measured axis where one angle was not seen: %s', (_, sds, atHome) => {
    const readings = record.readings.map((reading) =>
      reading.horn && (reading.note === analysis.home.note) === atHome ? { ...reading, horn: { ...reading.horn, ...sds } } : reading,
    );
    const { measured } = fanOf(analyse({ ...record, readings }), [], 'follow');
    expect(measured.map(({ note }) => note)).toEqual(atHome ? [] : [analysis.home.note]);
  });

  it('has a line for every reading and a pose for every sample', () => {
    expect(fan.predicted.map((line) => line.note)).toEqual(analysis.readings.map((reading) => reading.note));
    expect(fan.sheets.map((way) => way.length)).toEqual([path.length]);
  });

  it('draws the path as a tube round it, and nothing for a single place', () => {
    const radius = 0.3;
    const tube = tubeThrough([[0, 0, 0], [0, 5, 0], [0, 5, 0], [0, 10, 0]], radius);
    // Eight sides: the area of the octagon, not of the circle.
    expectWithin(Math.abs(volumeOf(tube.positions, tube.index)), 10 * 2 * Math.SQRT2 * radius * radius, { rel: 0.35 }, 'volume');
    expect(tubeThrough([[1, 2, 3], [1, 2, 3]], radius).index.length).toBe(0);
  });

  it('scales the pressure to a round number that no follow seat passes', () => {
    const scale = pressureScaleKPa(analysis);
    for (const reading of analysis.readings) expect(Math.max(...reading.follow.load.ringPressureKPa)).toBeLessThanOrEqual(scale);
    expect(String(scale)).toMatch(/^(1|1\.5|2|3|4|5|6|8|10|15|20|30|40|50|60|80|100|150|200|300|400|500|600|800|1000)$/);
  });
});
