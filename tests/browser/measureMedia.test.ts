/** Films and pictures made in the page itself, each frame showing its own number, opened and read back by the page's own browser. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { expectWithin } from '../support/expectWithin';
import type { FilmWanted } from './measureMediaPage/makeFilm';
import type { Scenarios } from './measureMediaPage/page';
import { servePage, type ServedPage } from './support/servePage';
import { closeBrowsers, visit, type Visit } from './support/visit';

let served: ServedPage;
let opened: Visit;
beforeAll(async () => {
  served = await servePage('measureMediaPage');
  opened = await visit(served.address, { webgl: false });
});
afterAll(async () => {
  await closeBrowsers();
  await served.close();
});

type Scenario = { [Name in keyof Scenarios]: Scenarios[Name] };

function run<Name extends keyof Scenario>(name: Name, ...args: Parameters<Scenario[Name]>): ReturnType<Scenario[Name]> {
  return opened.page.evaluate(
    ([called, given]) => (window as unknown as { scenarios: Record<string, (...all: unknown[]) => unknown> }).scenarios[called]!(...given),
    [name, args as unknown[]] as const,
  ) as ReturnType<Scenario[Name]>;
}

const even = (count: number, framesPerSecond: number): number[] => Array.from({ length: count }, (_, index) => index / framesPerSecond);
const numbers = (from: number, to: number): number[] => Array.from({ length: to - from + 1 }, (_, index) => from + index);

/** A phone's film in dim light: the distance between frames grows, one frame is left out. */
const UNEVEN_S = [0, 0.033, 0.067, 0.1, 0.141, 0.182, 0.224, 0.265, 0.3321, 0.399, 0.432, 0.466, 0.5, 0.533];
/** Half a millisecond: what WebM rounds a stamp by. MP4 keeps them to a microsecond or so. */
const STAMP = { abs: 0.00051 };
/** A millisecond's click smeared by a coder, and 0.2 ms of our own threshold. */
const CLICK = { abs: 0.003 };

const forms: [string, FilmWanted, string, boolean][] = [
  ['MP4, H.264', {}, 'H.264', false],
  ['MP4 that begins with its table', { container: 'mp4-start' }, 'H.264', false],
  ['MP4 in fragments', { container: 'mp4-fragments' }, 'H.264', false],
  ['MOV', { container: 'mov', sound: { codec: 'pcm-s16' } }, 'H.264', false],
  ['WebM, VP8', { container: 'webm', video: 'vp8', sound: { codec: 'opus' } }, 'VP8', false],
  ['WebM, VP9', { container: 'webm', video: 'vp9', timesS: even(20, 30) }, 'VP9', false],
  ['WebM as a browser records it, without length or index', { container: 'webm-live', video: 'vp8' }, 'VP8', false],
  ['Matroska, H.264', { container: 'mkv', timesS: even(20, 25) }, 'H.264', false],
  ['MP4, uneven times', { timesS: UNEVEN_S }, 'H.264', true],
  ['WebM, uneven times', { container: 'webm', video: 'vp8', timesS: UNEVEN_S }, 'VP8', true],
  ['120 frames a second', { timesS: even(60, 120) }, 'H.264', false],
  ['one frame', { timesS: [0] }, 'H.264', false],
];

describe('a film', () => {
  test.each(forms)('%s: every frame once, in order, at its own time', async (_, wanted, codecWords, isVariable) => {
    const { facts, frames, frameTimesS, corners, size } = await run('readWhole', wanted);
    const truthS = wanted.timesS ?? even(50, 25);
    expect(frames.map(({ number }) => number)).toEqual(numbers(0, truthS.length - 1));
    expect(frames.map(({ timeS }) => timeS)).toEqual(frameTimesS);
    for (const [index, { timeS }] of frames.entries()) expectWithin(timeS, truthS[index]!, STAMP, `time of frame ${index}`);
    expect(facts).toMatchObject({ width: 320, height: 240, codecWords, isVariable, frameCount: truthS.length });
    if (truthS.length > 1) expectWithin(facts.framesPerSecond, (truthS.length - 1) / truthS.at(-1)!, { rel: 0.002 }, 'frames a second');
    expectWithin(facts.endS, (truthS.at(-1) ?? 0) + 0.04, { abs: 0.035 }, 'end');
    expect(size).toEqual([320, 240, 320 * 240]);
    expectUpright(corners);
  });

  test.each([90, 180, 270] as const)('that was held turned by %i° stands upright, to measure in and to look at', async (rotation) => {
    const wanted: FilmWanted = { rotation, width: 240, height: 320, timesS: even(5, 25) };
    const { facts, frames, corners, size } = await run('readWhole', wanted);
    expect([facts.width, facts.height, ...size]).toEqual([240, 320, 240, 320, 240 * 320]);
    expect(frames.map(({ number }) => number)).toEqual(numbers(0, 4));
    expectUpright(corners);
    const [shown] = await run('show', wanted, [0.08]);
    expect(shown).toMatchObject({ number: 2, width: 240, height: 320 });
    expectUpright(shown!.corners);
  });

  test('gives the frame that a time lies in, whatever was asked before', async () => {
    const asked = [0, 1.97, 0.039, 0.041, 1, 0.999, 1.04, 1.08, 1.5, 0.5, 0.54, 5, -1];
    const truth = [0, 49, 0, 1, 25, 24, 26, 27, 37, 12, 13, 49, 0];
    const shown = await run('show', { keyEveryS: 0.7 }, asked);
    expect(shown.map(({ number }) => number)).toEqual(truth);
    expect(shown.map(({ timeS }) => timeS)).toEqual(truth.map((index) => index / 25));
    const backward = [...numbers(11, 40).reverse(), 12, 13, 9, 8, 30];
    const live = await run('show', { container: 'webm-live', video: 'vp8' }, [1.5, 0.3, 1.99]);
    expect(live.map(({ number }) => number)).toEqual([37, 7, 49]);
    const back = await run('show', { keyEveryS: 0.7 }, backward.map((index) => index / 25 + 0.01));
    expect(back.map(({ number }) => number)).toEqual(backward);
    expect(back.map(({ timeS }) => timeS)).toEqual(backward.map((index) => index / 25));
    const uneven = await run('show', { timesS: UNEVEN_S }, [0.34, 0.398, 0.4, 0.2]);
    expect(uneven.map(({ number }) => number)).toEqual([8, 8, 9, 5]);
  });

  test('is walked backward in blocks of at most 30, the latest frame first', async () => {
    const { blocks, frameTimesS } = await run('backward', { keyEveryS: 0.6 }, 5, 45);
    expect(blocks.map((block) => block.length)).toEqual([30, 11]);
    expect(blocks.flat().map(({ number }) => number)).toEqual(numbers(5, 45).reverse());
    expect(blocks.flat().map(({ timeS }) => timeS)).toEqual(frameTimesS.slice(5, 46).reverse());
  });

  test('gives its brightness whatever form its frames have, turned in every way', async () => {
    const worst = await run('planes');
    // The first four are what decoders of these codecs give; a browser may make no frame of some other forms.
    for (const format of ['I420', 'NV12', 'RGBA', 'BGRA']) expect(worst[format]).not.toBeNull();
    for (const [format, off] of Object.entries(worst)) expect([format, (off ?? 0) <= 1]).toEqual([format, true]);
    const wide = await run('widePixels');
    // Drawn to square pixels, values between two columns are mixed: one column's step is 3.
    expect(wide).toMatchObject({ width: 96, height: 34 });
    expect(wide.worst).toBeLessThanOrEqual(3);
  });

  test('ends at once when it is stopped', async () => {
    for (const waitMs of await run('stopped', { isBusy: true })) expect(waitMs).toBeLessThan(200);
  });
});

describe('its sound', () => {
  test.each([
    ['Opus in MP4', { sound: { codec: 'opus' } }, 0.9],
    ['Opus in WebM', { container: 'webm', video: 'vp8', sound: { codec: 'opus' } }, 0.9],
    ['two channels of PCM in MOV', { container: 'mov', sound: { codec: 'pcm-s16', channels: 2 } }, 0.45],
    ['that begins later than the frames', { container: 'mov', sound: { codec: 'pcm-s16', startS: 0.3, sampleRate: 44_100 } }, 0.9],
  ] as [string, FilmWanted, number][])('%s: one channel, at the frames’ clock', async (_, wanted, height) => {
    const heard = await run('hear', wanted);
    const startS = wanted.sound?.startS ?? 0;
    const truthS = [0, 0.5, 1, 1.5].filter((timeS) => timeS >= startS);
    expect(heard.clicksS.length).toBe(truthS.length);
    for (const [index, timeS] of truthS.entries()) expectWithin(heard.clicksS[index]!, timeS, CLICK, `click ${index}`);
    // A coder rounds a millisecond's click off.
    expectWithin(heard.largest, height, { rel: wanted.sound?.codec === 'opus' ? 0.35 : 0.001 }, 'largest sample');
    expect(heard.facts.sound).toMatchObject({ sampleRate: wanted.sound?.sampleRate ?? 48_000, channels: wanted.sound?.channels ?? 1 });
    expectWithin(heard.startS!, startS, { abs: 0.03 }, 'beginning');
    // The film is 2 s long, an overview's bucket 0.04 s; a click at a bucket's edge falls into either.
    for (const timeS of truthS.filter((time) => time > 0)) expect(heard.loudBuckets!.some((bucket) => Math.abs(bucket - timeS / 0.04) <= 1)).toBe(true);
    expect(heard.loudBuckets!.length).toBeLessThanOrEqual(2 * truthS.length);
  });

  test('may be missing, which is said and nothing worse', async () => {
    const heard = await run('hear', {});
    expect(heard).toMatchObject({ startS: null, clicksS: [], blockCount: 0, loudBuckets: null });
    expect(heard.facts.told).toEqual(['The film has no sound: tap the notes while the film plays.']);
  });
});

describe('a film that cannot be used is refused in words:', () => {
  let said: Record<string, string>;
  beforeAll(async () => {
    said = await run('refusals');
  });
  test.each([
    ['empty', 'empty', 'Copy the film from the phone again'],
    ['text', 'text', '“text.mp4” holds text'],
    ['noise', 'other-kind', 'not a film that can be opened here'],
    ['picture', 'other-kind', 'is a picture'],
    ['soundOnly', 'sound-only', 'holds sound and no picture'],
    ['hevc', 'codec', 'HEVC (H.265), which this browser cannot show. Set the phone’s camera to H.264'],
    ['unknownCodec', 'codec', '“zzz9”'],
    ['large', 'too-large', '7680 × 4320 px; at most 9.4 million'],
    ['long', 'too-long', 'lasts 3 h 0 min; at most 20 minutes'],
  ])('%s', (name, reason, words) => {
    expect(said[name]).toContain(`${reason}: `);
    expect(said[name]).toContain(words);
  });

  test.each([
    ['table at the end', {}, 0],
    ['table in front', { container: 'mp4-start' }, 3],
    ['fragments', { container: 'mp4-fragments' }, 3],
    ['WebM', { container: 'webm', video: 'vp8' }, 3],
  ] as [string, FilmWanted, number][])('cut short anywhere (%s), or what is left is used', async (_, wanted, usable) => {
    const cuts = await run('cutShort', { ...wanted, keyEveryS: 0.4 }, 15);
    for (const { part, opened: isOpened, words, isInOrder } of cuts) {
      expect([part, words]).toEqual([part, expect.stringMatching(isOpened ? /can be read|no sound/ : /end of the file is missing|is damaged and cannot be read/)]);
      expect([part, isInOrder]).toEqual([part, true]);
    }
    expect(cuts.filter(({ opened: isOpened }) => isOpened).length).toBeGreaterThanOrEqual(usable);
    if (usable === 0) expect(cuts.every(({ opened: isOpened }) => !isOpened)).toBe(true);
  });

  test.each([
    ['H.264', {}],
    ['VP9', { container: 'webm', video: 'vp9', isBusy: true }],
  ] as [string, FilmWanted][])('damaged in the middle, %s: the place is named', async (_, wanted) => {
    const { said: words, frames } = await run('damaged', { ...wanted, keyEveryS: 10 });
    expect(words).toMatch(/cannot be read past \d\.\d s|Only the first \d\.\d s/);
    expect(frames).toBeGreaterThan(0);
    expect(frames).toBeLessThan(50);
  });
});

describe('a film in its worker', () => {
  test('answers for frames, the last wish first, and ends at once', async () => {
    const door = await run('door', { sound: { codec: 'opus' } });
    expect(door.facts).toMatchObject({ name: 'take.mp4', frameCount: 50 });
    expect(door).toMatchObject({ frames: 50, one: 17, several: [3, null, null, 44], buckets: 20, stopped: null, left: 'AbortError' });
    expect(door.stopMs).toBeLessThan(200);
  });

  test('has what was marked in one frame followed to both its ends, and tells how far it is', async () => {
    const wanted: FilmWanted = { isBusy: true, bitrate: 3_000_000 };
    const { timesS, stretchS, medianPx, worstPx, foundPart, told, ...rest } = await run('follow', wanted, 20);
    expect(timesS).toEqual(even(50, 25));
    expect(stretchS).toEqual(even(21, 25).slice(10));
    expect(rest).toEqual({ view: 'front', notFollowed: [], words: null, refused: expect.stringContaining('anchor at 99 s; allowed: within the film') as string });
    // How well places are found is the tracker's own matter, and tested there; one frame taken for its neighbour would be 2 or 3 px off.
    expect(medianPx).toBeLessThan(0.2);
    expect(worstPx).toBeLessThan(0.5);
    expect(foundPart).toBe(1);
    expect(told.map(({ doneS }) => doneS)).toEqual(told.map(({ doneS }) => doneS).toSorted((a, b) => a - b));
    expect(told.at(-1)).toMatchObject({ doneS: 1.96, ofS: 1.96 });
  });

  test('stops in the middle within 200 ms, answers on, and can be closed in the middle', async () => {
    const stopped = await run('followStopped', { isBusy: true, bitrate: 3_000_000, width: 640, height: 480 }, 20);
    expect(stopped).toMatchObject({ kind: 'stopped', again: 'stopped', tellings: 1, left: 'AbortError' });
    expect(stopped.answerMs).toBeLessThan(200);
    // The worker itself has ended: it has read and sent a frame since.
    expect(stopped.nextMs).toBeLessThan(1000);
  });

  test('has its notes heard, and its sound laid beside that of another film', async () => {
    const melody = [60, 64, 67, 72, 60, 64];
    const sound = { codec: 'opus', melody } as const;
    const timesS = even(75, 25);
    const { notes, offset, told } = await run('hearNotes', { timesS, sound }, { timesS, sound: { ...sound, startS: 0.25 }, container: 'mov' });
    expect(notes).toMatchObject(melody.map((midi) => ({ midi })));
    if (typeof notes === 'string') throw new Error(notes);
    for (const [index, { startS, endS, cents }] of notes.entries()) {
      expectWithin(startS, index / 2, { abs: 0.05 }, 'beginning');
      expectWithin(endS, (index + 1) / 2, { abs: 0.05 }, 'end');
      expectWithin(cents!, 0, { abs: 5 }, 'cents');
    }
    // One melody by one clock: the second only begins later in it.
    expect(offset).toMatchObject({ kind: 'aligned' });
    expectWithin(offset?.kind === 'aligned' ? offset.offsetS : NaN, 0, { abs: 0.01 }, 'offset');
    expect(told.at(-1)?.doneS).toBe(told.at(-1)?.ofS);
  });

  test('is refused in the same words, and a worker that dies is told', async () => {
    expect(await run('doorRefuses')).toContain('“a.mp4” holds text');
    expect(await run('doorDies')).toContain('Reading the film broke off');
  });
});

describe('a picture', () => {
  test('stands upright in every form, turned once and not twice, with its camera’s focal length', async () => {
    const stills = await run('stills');
    expect(stills.length).toBe(11);
    for (const { name, width, height, corners, shown, focal35Mm } of stills) {
      expect([name, width, height, focal35Mm]).toEqual([name, 60, 40, name.startsWith('turned') ? 26 : null]);
      // Grey by Rec. 601, full range; a JPEG's corners come back within a step or two.
      for (const seen of [corners, shown]) for (const [index, value] of [255, 64, 64, 128].entries()) expectWithin(seen[index]!, value, { abs: 3 }, `${name}, corner ${index}`);
    }
  });

  test('that cannot be used is refused in words', async () => {
    const said = await run('stillRefusals');
    for (const [name, words] of [
      ['empty', 'empty: '],
      ['text', 'text: “text.jpg” holds text'],
      ['film', 'is a film'],
      ['huge', '40000 × 30000 px; at most 100 million'],
      ['heic', 'HEIC'],
      ['noise', 'not a picture that can be opened here'],
    ] as const) expect(said[name]).toContain(words);
    const cut = Object.entries(said).filter(([name]) => /^(jpeg|png|webp) /.test(name));
    expect(cut.length).toBe(12);
    for (const [name, words] of cut) expect([name, words]).toEqual([name, expect.stringMatching(/^(cut-short|damaged): /)]);
  });
});

test('the page made no noise about any of it', () => {
  expect(opened.foreignRequests).toEqual([]);
  expect(opened.consoleErrors.filter((words) => !words.includes('no-such-worker'))).toEqual([]);
});

/** Bright, dark, dark, middling from the upper left on; video's brightness runs from 16 to 235, and coding moves it a little. */
function expectUpright(corners: readonly number[]): void {
  const [bright, dark, alsoDark, middling] = corners as [number, number, number, number];
  expect([bright > 200, dark < 100, alsoDark < 100, middling > 105 && middling < 150]).toEqual([true, true, true, true]);
}
