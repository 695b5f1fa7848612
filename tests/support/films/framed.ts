/** Aims a scene's camera as a careful person would: what is to be measured lies in the picture's middle over the whole film. */
import { type Vec3, add, scale } from '../../../src/core/vector';
import type { Point } from '../../../src/measure/picture';
import type { Scene } from './sceneTypes';
import { type Truth, truthAt } from './truth';

/** The camera is moved sideways and up or down (not turned). Where even that leaves too little room, the edge cuts what it cuts. */
export function framed(scene: Scene): Scene {
  let aimed = scene;
  for (let round = 0; round < 2; round++) {
    const { camera } = aimed;
    const points = Array.from({ length: MOMENTS }, (_, at) => wanted(aimed, truthAt(aimed, (aimed.durationS * at) / (MOMENTS - 1)))).flat();
    const offX = middleOf(points.map((point) => point.x)) - (camera.width - 1) / 2;
    const offY = middleOf(points.map((point) => point.y)) - (camera.height - 1) / 2;
    const mmPerPx = truthAt(aimed, 0).headInCamera.shiftMm[2] / camera.focalPx;
    const [right, down]: [Vec3, Vec3] = [[camera.rotation[0], camera.rotation[1], camera.rotation[2]], [camera.rotation[3], camera.rotation[4], camera.rotation[5]]];
    const position = add(camera.position, add(scale(right, offX * mmPerPx), scale(down, offY * mmPerPx)));
    aimed = { ...aimed, camera: { ...camera, position } };
  }
  return aimed;
}
const MOMENTS = 60;

const middleOf = (values: readonly number[]): number => (Math.min(...values) + Math.max(...values)) / 2;

function wanted({ view, rim: { outerDiameterMm }, camera }: Scene, { px, headInCamera }: Truth): Point[] {
  // Not the ellipse: seen on its edge it has no middle that could be computed.
  const { x, y } = px.rimCentre;
  const radiusPx = (camera.focalPx * outerDiameterMm) / 2 / headInCamera.shiftMm[2];
  const rim = [-radiusPx, radiusPx].flatMap((off) => [{ x: x + off, y }, { x, y: y + off }]);
  const { landmarks, level, horn } = px;
  switch (view) {
    case 'front':
      return [...rim, horn.to, landmarks['nose-bridge'], landmarks['outer-eye-right'], landmarks['outer-eye-left']];
    case 'right':
    case 'left':
      return [...rim, horn.to, level.from, level.to, landmarks[`ear-${view}`], landmarks[`outer-eye-${view}`]];
    case 'above':
      return [...rim, horn.to, level.from, level.to];
  }
}
