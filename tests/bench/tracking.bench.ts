/** What following a 720p film costs a frame beside its decoding (5 to 8 ms, and 5 to copy the brightness): 30 frames a second leave it 15 ms. */
import type { Random } from '../../src/core/random';
import { createFilmTracker } from '../../src/measure/filmTracker';
import type { ViewFrom } from '../../src/measure/marks';
import type { GreyPicture } from '../../src/measure/picture';
import { createPyramid, fillPyramid } from '../../src/measure/pyramid';
import { marksAt } from '../support/films/marksAt';
import { renderFrame } from '../support/films/renderFrame';
import { sceneOf } from '../support/films/scene';
import type { BenchGroup, Work } from './harness';

const FRAMES = 24;

function drawn(view: ViewFrom, random: Random): { scene: ReturnType<typeof sceneOf>; frames: GreyPicture[] } {
  const scene = sceneOf({ seed: random.integer(1, 1000), view, durationS: 2 });
  return { scene, frames: Array.from({ length: FRAMES }, (_, frame) => renderFrame(scene, frame / 30)) };
}

/** The film forth and back, over and over, so that every step is one between neighbours. */
function following(view: ViewFrom) {
  return (random: Random): Work => {
    const { scene, frames } = drawn(view, random);
    const tracker = createFilmTracker({ view, anchors: [{ timeS: 0, marks: marksAt(scene, 0) }], rim: scene.rim });
    let at = 0;
    return () => {
      const turn = at % (2 * FRAMES - 2);
      const traced = tracker.followForward(frames[turn < FRAMES ? turn : 2 * FRAMES - 2 - turn]!, at / 30);
      at += 1;
      return traced ? Object.keys(traced.points).length : 0;
    };
  };
}

export const groups: readonly BenchGroup[] = [
  {
    title: 'Following one frame of a film, 1280 × 720',
    seed: 3,
    cases: [
      {
        name: 'sizes of the whole picture only',
        prepare: (random) => {
          const { frames } = drawn('front', random);
          const pyramid = createPyramid(4);
          let at = 0;
          return () => {
            fillPyramid(pyramid, frames[at++ % FRAMES]!, { left: 0, top: 0, right: 1280, bottom: 720 });
            return pyramid.levels[3]!.values[0]!;
          };
        },
      },
      { name: 'from the front: landmarks, rim, horn', prepare: following('front') },
      { name: 'from the right: landmarks, level line, horn', prepare: following('right') },
    ],
  },
];
