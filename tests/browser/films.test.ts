/** Film files that tests are given hold what was drawn, at the times that were meant. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { badFiles } from '../support/films/badFiles';
import { filmOf, longFilm, madeFilm } from '../support/films/encodeFilm';
import { type FilmFormat, frameTimes } from '../support/films/filmFormat';
import { type Orientation, photographOf } from '../support/films/photograph';
import { renderFrame } from '../support/films/renderFrame';
import { type Scene, sceneOf } from '../support/films/scene';
import { expectWithin } from '../support/expectWithin';
import type { ReadBack } from './filmPage/page';
import { servePage, type ServedPage } from './support/servePage';
import { closeBrowsers, visit, type Visit } from './support/visit';

let served: ServedPage;
let opened: Visit;
beforeAll(async () => {
  served = await servePage('filmPage');
  opened = await visit(served.address, { webgl: false });
});
afterAll(async () => {
  await served.close();
  await closeBrowsers();
});

const readBack = (bytes: Uint8Array, scene: Scene): Promise<ReadBack> =>
  opened.page.evaluate(`window.readBack('${Buffer.from(bytes).toString('base64')}', ${JSON.stringify(scene)}, [2, 17])`);

const options = { seed: 12, durationS: 1 };

const formats: readonly (readonly [string, FilmFormat, number])[] = [
  ['H.264 and Opus in MP4', {}, 1e-3],
  ['VP9 and Opus in WebM', { container: 'webm' }, 1e-3],
  ['H.264 and PCM in MOV', { container: 'mov' }, 1e-3],
  ['uneven times', { unevenTimes: true }, 1e-3],
  ['stored on its side', { rotation: 90 }, 1e-3],
  ['stored on its other side', { rotation: 270 }, 1e-3],
  ['no sound', { sound: null }, 1e-3],
];

describe('a made film', () => {
  test.each(formats)('%s: frames, times and brightness come back', async (_name, format, clockS) => {
    const { scene, bytes } = await filmOf(options, format);
    const times = frameTimes(scene, format);
    const back = await readBack(bytes, scene);
    expect(back.timesS.length).toBe(times.length);
    // A container's own clock rounds, WebM's to a millisecond; its first frame may come a few milliseconds late and all others with it.
    const late = back.timesS[0]!;
    expectWithin(late, 0, { abs: 0.008 }, 'first frame, s');
    times.forEach((timeS, at) => expectWithin(back.timesS[at]! - late, timeS, { abs: clockS }, `frame ${at}, s`));
    expect(back.rotation).toBe(format.rotation ?? 0);
    expect([back.width, back.height]).toEqual([1280, 720]);
    // Encoding at phone quality and the noise of each pixel (2 grey levels, much of which no encoder keeps): another frame would be 5 or more off.
    for (const difference of back.differences) expectWithin(difference, 0, { abs: 3 }, 'grey levels');
    expect(back.differences.length).toBe(2);
    if (format.sound === null) expect(back.soundS).toBeNull();
    else expectWithin(back.soundS!, 1, { abs: 0.03 }, 'sound, s');
  });

  test('sound alone', async () => {
    const scene = sceneOf(options);
    const back = await readBack(await madeFilm(scene, { video: null }), scene);
    expect(back.timesS).toEqual([]);
    expectWithin(back.soundS!, 1, { abs: 0.03 }, 'sound, s');
  });

  test('three hours', async () => {
    const back = await readBack(await longFilm(3 * 3600), sceneOf(options));
    expect(back.timesS.length).toBe(1080);
    expectWithin(back.timesS.at(-1)!, 3 * 3600 - 10, { abs: 0.01 }, 'last frame, s');
  });

  test('is kept: asked for again it is the same, at once', async () => {
    const scene = sceneOf(options);
    const first = await madeFilm(scene);
    const before = performance.now();
    const again = await madeFilm(scene);
    expect(Buffer.compare(first, again)).toBe(0);
    // Making it takes seconds; reading a megabyte and hashing the sources does not.
    expect(performance.now() - before).toBeLessThan(1000);
  });
});

describe('bad files', () => {
  test('are bad in the way they say', async () => {
    const files = badFiles(await madeFilm(sceneOf(options)));
    const problem = async (name: string): Promise<string> => {
      const { bytes } = files.find((file) => file.name === name)!;
      return readBack(bytes, sceneOf(options)).then(
        (back) => `${back.width} × ${back.height}`,
        (error: unknown) => String(error),
      );
    };
    expect(await problem('words.mp4')).toMatch(/unsupported or unrecognizable format/i);
    expect(await problem('empty.mp4')).toMatch(/Error/);
    expect(await problem('phone.mp4')).toMatch(/hevc|hvc1|hev1|decod/i);
  });
});

describe('a photograph', () => {
  const scene = sceneOf(options);
  let luma: Uint8Array;
  beforeAll(() => {
    ({ luma } = renderFrame(scene, 0.5));
  });

  test.each([['jpeg', undefined], ['png', undefined], ['webp', undefined], ['jpeg', 1], ['jpeg', 3], ['jpeg', 6], ['jpeg', 8]] as const)(
    '%s with orientation %s is upright as the browser shows it',
    async (kind, orientation: Orientation | undefined) => {
      const bytes = photographOf(scene, 0.5, kind, orientation);
      const shown: { width: number; height: number; luma: number[] } = await opened.page.evaluate(`(async () => {
        const blob = await (await fetch('data:image/${kind};base64,${Buffer.from(bytes).toString('base64')}')).blob();
        const bitmap = await createImageBitmap(blob);
        const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
        const context = canvas.getContext('2d');
        context.drawImage(bitmap, 0, 0);
        const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
        return { width: bitmap.width, height: bitmap.height, luma: Array.from({ length: 1000 }, (_, at) => data[4 * (at * 911)]) };
      })()`);
      expect([shown.width, shown.height]).toEqual([1280, 720]);
      const mean = shown.luma.reduce((sum, value, at) => sum + Math.abs(value - luma[at * 911]!), 0) / shown.luma.length;
      // Compression at quality 92; PNG loses nothing.
      expectWithin(mean, 0, { abs: kind === 'png' ? 0 : 3 }, 'grey levels');
    },
  );
});
