/**
 * The horn's angle by two lines from the side and from above, over whole takes of the made films' scenes, at the level of marks: exact places, each line's end
 * off by 1 px all through the film and by 0.2 px more from frame to frame. Camera 2 to 5° off square, as is told, and 0 to 2°, head turning 2 and 5°.
 */
import { describe, expect, it } from 'vitest';
import { type Random, createRandom } from '../../../src/core/random';
import { measureTake } from '../../../src/measure/takeMeasured';
import { type NoteHeard, type FilmTrace, type TracedFrame } from '../../../src/measure/traces';
import { type Off, summaryOf, takeOff } from '../../support/films/measureFilms';
import { type Scene, sceneOf } from '../../support/films/scene';
import { noteTruths, truthAt } from '../../support/films/truth';

/** Readings of one take share its camera, its marks and its line on the cheek: 200 takes leave the share uncertain by 1.5 %. */
const TAKES = 200;
const FIRST_SEED = 3000;
const MARK_SD_PX = 1;
const FOLLOWED_SD_PX = 0.2;

function traceOf(scene: Scene, random: Random): FilmTrace {
  const marks = Array.from({ length: 8 }, () => MARK_SD_PX * random.normal());
  const frames = Array.from({ length: Math.round(scene.durationS * scene.framesPerS) }, (_, frame): TracedFrame => {
    const timeS = frame / scene.framesPerS;
    const { horn, level } = truthAt(scene, timeS).px;
    const end = ({ x, y }: { readonly x: number; readonly y: number }, at: number) => ({
      x: x + marks[at]! + FOLLOWED_SD_PX * random.normal(), y: y + marks[at + 1]! + FOLLOWED_SD_PX * random.normal(), sdPx: FOLLOWED_SD_PX,
    });
    return { timeS, rim: null, points: { 'horn-near': end(horn.from, 0), 'horn-far': end(horn.to, 2), 'level-back': end(level.from, 4), 'level-front': end(level.to, 6) } };
  });
  return { view: scene.view, frames };
}

function offOf(view: 'right' | 'above', cameraOffDeg: readonly [number, number], headTurnSdDeg: number, seed: number): readonly (Off | null)[] {
  const scene = sceneOf({ seed, view, durationS: 8, framesPerS: 25, headTurnSdDeg, cameraOffDeg });
  const notes = noteTruths(scene).filter(({ startS, endS }) => startS >= 0 && endS <= scene.durationS).map(({ startS, endS, midi }): NoteHeard => ({ startS, endS, midi, cents: 0 }));
  const { width, height, focalPx } = scene.camera;
  const film = { trace: traceOf(scene, createRandom(seed, 77)), head: null, camera: { width, height, focalPx, focalRelativeSd: 0.05 }, offsetS: 0 };
  const taken = measureTake([film], notes, scene.notes[scene.home]!.midi);
  return takeOff(scene, taken.notes, 0).notes.map((note) => (view === 'right' ? note.elevation : note.lateral));
}

describe(`${TAKES} takes, seeds ${FIRST_SEED} on`, () => {
  it.each([
    { view: 'right', cameraOffDeg: [2, 5], turnSdDeg: 2, wanted: 1.5 },
    { view: 'right', cameraOffDeg: [2, 5], turnSdDeg: 5, wanted: 2.2 },
    { view: 'above', cameraOffDeg: [2, 5], turnSdDeg: 2, wanted: 1.1 },
    { view: 'above', cameraOffDeg: [2, 5], turnSdDeg: 5, wanted: 1.7 },
    { view: 'right', cameraOffDeg: [0, 2], turnSdDeg: 2, wanted: 1.3 },
    { view: 'above', cameraOffDeg: [0, 2], turnSdDeg: 2, wanted: 0.9 },
  ] as const)('from $view, camera $cameraOffDeg° off, head turning $turnSdDeg°: within $wanted° RMS, and the intervals hold', ({ view, cameraOffDeg, turnSdDeg, wanted }) => {
    const { rms, covered, count } = summaryOf(Array.from({ length: TAKES }, (_, at) => offOf(view, cameraOffDeg, turnSdDeg, FIRST_SEED + at)).flat());
    expect(count).toBeGreaterThan(1500);
    expect(rms).toBeLessThan(wanted);
    expect(covered).toBeGreaterThan(0.9);
    // A camera nearer to square than is told is held more often.
    if (cameraOffDeg[0] > 0) expect(covered).toBeLessThan(0.98);
  });
});
