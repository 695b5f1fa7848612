import { PerspectiveCamera, Vector3 } from 'three';
import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { buildArch, moveJaw } from '../../../src/core/arch';
import type { JawSpec, PlayerRecord } from '../../../src/core/specs';
import { add, scale } from '../../../src/core/vector';
import { teeth } from '../../../src/records/library';
import { demoPlayers } from '../../support/demos';
import { placeTeeth } from '../../../src/stage/dentition';
import { outgrows, scenePoints, spreadOf } from '../../../src/stage/framing';
import { gumEnd } from '../../../src/stage/gumShape';
import { jawFaces } from '../../../src/stage/jawFaces';
import { FIELD_OF_VIEW_DEG, MARGIN, directionsOf, fitView, viewOf } from '../../../src/stage/views';
import { expectWithin } from '../../support/expectWithin';

const CAMERAS = ['three-quarter', 'face', 'mirror', 'side', 'above'] as const;
/** The stage at 1440 × 900, at 1920 × 1080, at 390 × 844 and upright. */
const ASPECTS = [805 / 437, 1075 / 560, 390 / 338, 360 / 640];
const LENGTH_MM = 74;

function pointsOf(record: PlayerRecord) {
  const analysis = analyse(record);
  const arch = buildArch(record.arch);
  const jaws = jawFaces(arch).map((face) => ({ face, teeth: placeTeeth(face, teeth) }));
  const elsewhere = analysis.readings.flatMap((reading) => reading.jaw ?? []);
  const scene = { jaws, own: arch.jaw, elsewhere, lips: record.lips, rim: record.rim, lengthMm: LENGTH_MM };
  return { analysis, arch, points: scenePoints(scene, spreadOf(analysis)) };
}

/** Where three's own camera, placed as the fit says, shows a point: −1 to 1 across and upright. */
function shownBy(name: (typeof CAMERAS)[number], points: ReturnType<typeof pointsOf>['points'], aspect: number) {
  const view = viewOf(name, points);
  const fit = fitView(view, aspect);
  const camera = new PerspectiveCamera(FIELD_OF_VIEW_DEG, aspect, 1, 5000);
  camera.position.set(...add(fit.target, scale(directionsOf(fit).toward, fit.distance)));
  camera.lookAt(...fit.target);
  camera.updateMatrixWorld();
  return (point: readonly [number, number, number]) => new Vector3(...point).project(camera);
}

describe.each(demoPlayers.map(({ id, record }) => ({ id, record })))('the named views of $id', ({ record }) => {
  const { analysis, arch, points } = pointsOf(record);

  it('hold everything with a margin, and are no farther than that asks', () => {
    for (const name of CAMERAS) {
      for (const aspect of ASPECTS) {
        const show = shownBy(name, points, aspect);
        const places = points.map(show);
        const outmost = Math.max(...places.flatMap(({ x, y }) => [Math.abs(x), Math.abs(y)]));
        expectWithin(outmost, 1 - 2 * MARGIN, { abs: 1e-6 }, `${name} at ${aspect}`);
        // Centred in the direction that is tight.
        const along = (['x', 'y'] as const).find((axis) => Math.max(...places.map((at) => Math.abs(at[axis]))) > outmost - 1e-6)!;
        expectWithin(Math.min(...places.map((at) => at[along])), -outmost, { abs: 1e-6 }, `${name} at ${aspect}, other side`);
      }
    }
  });

  it('hold the gums’ ends, every rim and every tip of the fan', () => {
    const faces = jawFaces(arch);
    const wanted = [
      ...faces.flatMap((face) => [-30, 30].map((arc) => face.pointAt(arc, gumEnd(face)))),
      ...analysis.readings.flatMap(({ follow: { pose } }) => [pose.rimCentreMm, add(pose.rimCentreMm, scale(pose.axis, LENGTH_MM))]),
    ];
    for (const name of CAMERAS) {
      for (const aspect of ASPECTS) {
        const show = shownBy(name, points, aspect);
        for (const point of wanted) {
          const { x, y } = show(point);
          expect(Math.max(Math.abs(x), Math.abs(y)), `${name} at ${aspect}: ${point.join(', ')}`).toBeLessThan(1);
        }
      }
    }
  });
});

it('from above the horn lies along the longer side of the picture', () => {
  const view = viewOf('above', pointsOf(demoPlayers[0]!.record).points);
  expect(fitView(view, 805 / 437).azimuthDeg).toBe(90);
  expect(fitView(view, 360 / 640).azimuthDeg).toBe(0);
});

it('a small change of travel leaves the camera where it is', () => {
  const { record } = demoPlayers[0]!;
  const moved = { ...record, readings: record.readings.map((one, index) => (index === 5 ? { ...one, travel: { ...one.travel, upMm: one.travel.upMm + 0.1 } } : one)) };
  expect(spreadOf(analyse(moved))).toEqual(spreadOf(analyse(record)));
});

it('the picture is framed anew only when a note goes well beyond it, and then it held all until then', () => {
  const { record } = demoPlayers[0]!;
  const first = pointsOf(record);
  const kept = spreadOf(first.analysis);
  const withTop = (upMm: number): PlayerRecord => ({
    ...record,
    readings: record.readings.map((one, index) => (index === record.readings.length - 1 ? { ...one, travel: { ...one.travel, upMm } } : one)),
  });
  const top = record.readings.at(-1)!.travel.upMm;
  let upMm = top;
  while (!outgrows(spreadOf(analyse(withTop(upMm + 0.25))), kept)) upMm += 0.25;
  expect(upMm - top).toBeGreaterThan(1);
  expect(upMm - top).toBeLessThan(6);
  const pose = analyse(withTop(upMm)).readings.at(-1)!.follow.pose;
  for (const name of CAMERAS) {
    for (const aspect of ASPECTS) {
      const { x, y } = shownBy(name, first.points, aspect)(add(pose.rimCentreMm, scale(pose.axis, LENGTH_MM)));
      expect(Math.max(Math.abs(x), Math.abs(y)), `${name} at ${aspect}`).toBeLessThan(1);
    }
  }
});

it('a jaw that opens wide at one note is held too', () => {
  const { record } = demoPlayers[0]!;
  const jaw: JawSpec = { ...('single' in record.arch ? { forwardMm: 0, hingeDeg: 0 } : record.arch.jaw), openingMm: 9 };
  const readings = record.readings.map((one, index) => (index === 0 ? { ...one, jaw } : one));
  const { arch, points } = pointsOf({ ...record, readings });
  const lowest = moveJaw(arch, jaw).lower!.pointAt(0, 16);
  expect(Math.min(...points.map(([, y]) => y))).toBeLessThanOrEqual(lowest[1] + 0.5);
});
