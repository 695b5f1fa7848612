/** What the test asks of the film and picture readers, run in the page; all answers are plain values. */
import { blocksBackward, createFrameShower, greyFrames } from '../../../src/measure/filmFrames';
import { soundBlocks, soundOverview, wholeSound } from '../../../src/measure/filmSound';
import type { FilmTrackerSettings } from '../../../src/measure/filmTracker';
import { frameIndexAt } from '../../../src/measure/frameTimes';
import { type OpenedFilm, openFilm } from '../../../src/measure/openFilm';
import type { GreyPicture } from '../../../src/measure/picture';
import { createLumaReader } from '../../../src/measure/lumaPlane';
import type { FilmProgress } from '../../../src/measure/progress';
import { openStill } from '../../../src/measure/stillPicture';
import { turnUpright } from '../../../src/measure/upright';
import { askFilm, type FilmDoor } from '../../../src/workers/askFilm';
import { FRAME_FORMATS, FRAME_HEIGHT, FRAME_WIDTH, frameOf, greySlope } from './makeFrame';
import { hevcLabelled, oversized, pictureFile, relabelled, stillFiles } from './makeFiles';
import { cornersShown, type FilmWanted, makeFilm, numberShown, patternAt } from './makeFilm';

const scenarios = {
  /** Everything about a film read from its beginning to its end. */
  async readWhole(wanted: FilmWanted) {
    const film = await opened(await makeFilm(wanted));
    const frames: { timeS: number; number: number }[] = [];
    let corners: number[] = [];
    let size: number[] = [];
    for await (const { timeS, frame } of greyFrames(film)) {
      frames.push({ timeS, number: numberShown(frame) });
      corners = cornersShown(frame);
      size = [frame.width, frame.height, frame.luma.length];
    }
    film.close();
    return { facts: film.facts, frameTimesS: [...film.frameTimesS], frames, corners, size };
  },

  /** Numbers of the frames in the blocks of a walk backward. */
  async backward(wanted: FilmWanted, first: number, last: number) {
    const film = await opened(await makeFilm(wanted));
    const blocks: { timeS: number; number: number }[][] = [];
    for await (const block of blocksBackward(film, { first, last })) {
      blocks.push(block.map(({ timeS, frame }) => ({ timeS, number: numberShown(frame) })));
    }
    film.close();
    return { blocks, frameTimesS: [...film.frameTimesS] };
  },

  /** Single frames, asked for by a time, as they would be shown. */
  async show(wanted: FilmWanted, timesS: readonly number[]) {
    const film = await opened(await makeFilm(wanted));
    const shower = createFrameShower(film);
    const shown: { number: number; timeS: number; width: number; height: number; corners: number[] }[] = [];
    for (const timeS of timesS) {
      const { bitmap, ...at } = await shower.show(frameIndexAt(film.frameTimesS, timeS));
      const grey = greyOfBitmap(bitmap);
      shown.push({ number: numberShown(grey), timeS: at.timeS, width: grey.width, height: grey.height, corners: cornersShown(grey) });
    }
    shower.close();
    film.close();
    return shown;
  },

  /** Times of the clicks by the whole sound and by its blocks, and what the overview shows. */
  async hear(wanted: FilmWanted) {
    const film = await opened(await makeFilm(wanted));
    const whole = await wholeSound(film);
    const clicksS: number[] = [];
    for (const [index, value] of (whole?.samples ?? new Float32Array(0)).entries()) {
      const timeS = whole!.timeS + index / whole!.sampleRate;
      if (Math.abs(value) > CLICK_FROM && timeS - (clicksS.at(-1) ?? -1) > 0.1) clicksS.push(timeS);
    }
    let blockCount = 0;
    let largest = 0;
    for await (const { samples } of soundBlocks(film)) {
      blockCount += 1;
      largest = Math.max(largest, ...samples);
    }
    const overview = await soundOverview(film, 50);
    film.close();
    return {
      facts: film.facts,
      startS: whole?.timeS ?? null,
      lengthS: whole === null ? null : whole.samples.length / whole.sampleRate,
      clicksS,
      blockCount,
      largest,
      loudBuckets: overview === null ? null : [...overview.highest].flatMap((value, bucket) => (value > CLICK_FROM * 0.9 ? [bucket] : [])),
      deepest: overview === null ? null : Math.min(...overview.lowest),
    };
  },

  /** What is said of files that are none, or damaged. */
  async refusals() {
    const film = new Uint8Array(await (await makeFilm({})).arrayBuffer());
    const files: Record<string, File> = {
      empty: new File([], 'a.mp4'),
      text: new File(['These are the notes of Tuesday’s lesson.\n'.repeat(40)], 'text.mp4'),
      noise: new File([Uint8Array.from({ length: 4000 }, (_, index) => (index * 7919) % 251)], 'noise.mp4'),
      picture: new File([await pictureFile(40, 30, 'image/png')], 'p.mov'),
      soundOnly: new File([await makeFilm({ video: null, sound: { codec: 'opus' } })], 'sound.mp4'),
      hevc: new File([hevcLabelled(film)], 'hevc.mp4'),
      unknownCodec: new File([relabelled(film, 'avc1', 'zzz9')], 'zzz9.mp4'),
      large: new File([await oversized()], '8k.mp4'),
      long: new File([await makeFilm({ timesS: [0, 3600, 10_800] })], 'long.mp4'),
    };
    const said: Record<string, string> = {};
    for (const [name, file] of Object.entries(files)) said[name] = await saidOf(file);
    return said;
  },

  /** A film cut at every so many bytes: a sentence, or what can still be used, and in no case a hang. */
  async cutShort(wanted: FilmWanted, cuts: number) {
    const whole = await makeFilm(wanted);
    const said: { part: number; opened: boolean; words: string; frames: number; isInOrder: boolean }[] = [];
    for (let cut = 1; cut < cuts; cut++) {
      const file = new File([whole.slice(0, Math.floor((whole.size * cut) / cuts))], 'cut.mp4');
      const film = await openFilm(file);
      if (film.kind === 'refused') {
        said.push({ part: cut / cuts, opened: false, words: film.words, frames: 0, isInOrder: true });
        continue;
      }
      const numbers: number[] = [];
      let words = film.facts.told.join(' ');
      try {
        for await (const { frame } of greyFrames(film)) numbers.push(numberShown(frame));
      } catch (fault) {
        words += String(fault);
      }
      film.close();
      said.push({ part: cut / cuts, opened: true, words, frames: numbers.length, isInOrder: numbers.every((number, index) => number === index) && numbers.length === film.facts.frameCount });
    }
    return said;
  },

  /** Bytes in the middle of the pictures exchanged for others. */
  async damaged(wanted: FilmWanted) {
    const bytes = new Uint8Array(await (await makeFilm(wanted)).arrayBuffer());
    for (let at = Math.floor(bytes.length * 0.4); at < bytes.length * 0.6; at++) bytes[at] = (at * 7919) % 256;
    const film = await openFilm(new File([bytes], 'damaged'));
    if (film.kind === 'refused') return { said: film.words, frames: 0 };
    let frames = 0;
    let said = film.facts.told.join(' ');
    try {
      for await (const _ of greyFrames(film)) frames += 1;
    } catch (fault) {
      said += fault instanceof Error ? ` ${fault.name}: ${fault.message}` : String(fault);
    }
    return { said, frames };
  },

  /** From the stop to the end of the walk, ms. */
  async stopped(wanted: FilmWanted) {
    const film = await opened(await makeFilm(wanted));
    const waits: number[] = [];
    for (const stopAt of [1, 7, 20]) {
      const stop = new AbortController();
      let frames = 0;
      let stoppedMs = 0;
      for await (const _ of greyFrames(film, { signal: stop.signal })) {
        frames += 1;
        if (frames !== stopAt) continue;
        stoppedMs = performance.now();
        stop.abort();
      }
      waits.push(performance.now() - stoppedMs);
    }
    film.close();
    return waits;
  },

  /** The door in a worker: frames, the overtaken among them, wave form, stop, close in the middle. */
  async door(wanted: FilmWanted) {
    const door = await askFilm(new File([await makeFilm(wanted)], 'take.mp4'));
    if (door.kind === 'refused') throw new Error(door.words);
    const numberOf = async (index: number): Promise<number | null> => {
      const shown = await door.frame(index);
      return shown === null ? null : numberShown(greyOfBitmap(shown.bitmap));
    };
    const one = await numberOf(17);
    const several = await Promise.all([3, 30, 11, 44].map(numberOf));
    const overview = await door.overview(20);
    const stop = new AbortController();
    const begin = performance.now();
    const stopping = door.overview(20, stop.signal);
    stop.abort();
    const stopped = await stopping;
    const stopMs = performance.now() - begin;
    const left = door.frame(40).then(
      () => 'answered',
      (fault: Error) => fault.name,
    );
    door.close();
    return { facts: door.facts, frames: door.frameTimesS.length, one, several, buckets: overview?.highest.length, stopped, stopMs, left: await left };
  },

  /** Three places of the moving pattern, marked in one frame and followed: how far they come out from where they are drawn, px. */
  async follow(wanted: FilmWanted, markedAt: number) {
    const door = await doorTo(wanted);
    const told: FilmProgress[] = [];
    const settings = settingsFor(door, markedAt);
    const followed = await door.follow(settings, { onProgress: (progress) => void told.push(progress) });
    const stretch = await door.follow(settings, { fromS: 0.4, toS: 0.8 });
    const refused = await door.follow({ ...settings, anchors: [{ timeS: 99, marks: settings.anchors[0]!.marks }] }).catch((fault: Error) => fault.message);
    door.close();
    if (followed.kind !== 'followed' || stretch.kind !== 'followed') throw new Error('stopped');
    const offPx = followed.trace.frames.flatMap(({ points }, index) =>
      Object.entries(LANDMARKS).map(([name, mark]) => {
        const place = points[name as keyof typeof LANDMARKS];
        const [now, then] = [patternAt(index), patternAt(markedAt)];
        return place === undefined ? Infinity : Math.hypot(place.x - mark.x - now.x + then.x, place.y - mark.y - now.y + then.y);
      }),
    );
    const found = offPx.filter((px) => px < Infinity).sort((a, b) => a - b);
    return {
      timesS: followed.trace.frames.map(({ timeS }) => timeS),
      stretchS: stretch.trace.frames.map(({ timeS }) => timeS),
      view: followed.trace.view,
      notFollowed: followed.notFollowed,
      words: followed.words,
      medianPx: found[Math.floor(found.length / 2)]!,
      worstPx: found.at(-1)!,
      foundPart: found.length / offPx.length,
      told,
      refused,
    };
  },

  /** Stops in the middle: from the stop to the answer, and to the next answer of the same worker; then closes in the middle. */
  async followStopped(wanted: FilmWanted, markedAt: number) {
    const door = await doorTo(wanted);
    const stop = new AbortController();
    let tellings = 0;
    let stoppedMs = 0;
    const followed = await door.follow(settingsFor(door, markedAt), {
      signal: stop.signal,
      onProgress: () => {
        tellings += 1;
        stoppedMs = performance.now();
        stop.abort();
      },
    });
    const answerMs = performance.now() - stoppedMs;
    (await door.frame(1))?.bitmap.close();
    const nextMs = performance.now() - stoppedMs;
    const again = await door.follow(settingsFor(door, markedAt), { signal: stop.signal });
    const left = door.follow(settingsFor(door, markedAt), { onProgress: () => door.close() }).then(
      () => 'answered',
      (fault: Error) => fault.name,
    );
    return { kind: followed.kind, again: again.kind, tellings, answerMs, nextMs, left: await left };
  },

  /** Notes of two films of one take, and by how much the second began later. */
  async hearNotes(one: FilmWanted, other: FilmWanted) {
    const [first, second] = [await doorTo(one), await doorTo(other)];
    const told: FilmProgress[] = [];
    const heard = await first.hear({ lowMidi: 52, highMidi: 84 }, { onProgress: (progress) => void told.push(progress) });
    const sound = await second.sound();
    const offset = sound === null ? null : await first.align(sound);
    first.close();
    second.close();
    return { notes: heard.kind === 'heard' ? heard.found.notes : heard.kind, offset, told };
  },

  async doorRefuses() {
    const door: FilmDoor | { kind: 'refused'; words: string } = await askFilm(new File(['text, and nothing but text'], 'a.mp4'));
    return door.kind === 'refused' ? door.words : 'opened';
  },

  /** A worker whose file cannot be loaded. */
  async doorDies() {
    return askFilm(new File(['x'], 'a.mp4'), () => new Worker('./no-such-worker.js', { type: 'module' })).then(
      () => 'answered',
      (fault: Error) => fault.message,
    );
  },

  /** A picture in each form, with each of the eight Exif orientations. */
  async stills() {
    const seen: { name: string; width: number; height: number; corners: number[]; shown: number[]; focal35Mm: number | null }[] = [];
    for (const [name, file] of await stillFiles()) {
      const still = await openStill(new File([file], name));
      if (still.kind === 'refused') throw new Error(`${name}: ${still.words}`);
      const { width, height } = still.grey;
      seen.push({ name, width, height, corners: cornersShown(still.grey), shown: cornersShown(greyOfBitmap(still.bitmap)), focal35Mm: still.camera.focal35Mm });
    }
    return seen;
  },

  async stillRefusals() {
    const jpeg = new Uint8Array(await (await pictureFile(400, 300, 'image/jpeg')).arrayBuffer());
    const png = new Uint8Array(await (await pictureFile(400, 300, 'image/png')).arrayBuffer());
    const webp = new Uint8Array(await (await pictureFile(400, 300, 'image/webp')).arrayBuffer());
    const huge = png.slice();
    new DataView(huge.buffer).setUint32(16, 40_000);
    new DataView(huge.buffer).setUint32(20, 30_000);
    const heic = new Uint8Array(200);
    heic.set([0, 0, 0, 24, ...new TextEncoder().encode('ftypheic')]);
    const files: Record<string, Uint8Array> = {
      empty: new Uint8Array(0),
      text: new TextEncoder().encode('Only words, and no picture at all.'),
      film: new Uint8Array(await (await makeFilm({ timesS: [0] })).arrayBuffer()),
      huge,
      heic,
      noise: Uint8Array.from({ length: 3000 }, (_, index) => (index * 7919) % 251),
    };
    for (const [name, bytes] of Object.entries({ jpeg, png, webp })) {
      for (const part of [0.02, 0.3, 0.7, 0.99]) files[`${name} ${part}`] = bytes.slice(0, Math.floor(bytes.length * part));
    }
    const said: Record<string, string> = {};
    for (const [name, bytes] of Object.entries(files)) {
      const still = await openStill(new File([bytes as Uint8Array<ArrayBuffer>], `${name}.jpg`));
      said[name] = still.kind === 'refused' ? `${still.reason}: ${still.words}` : 'opened';
    }
    return said;
  },

  /** A frame of each format with a known slope of grey, turned in each way: the greatest difference from it, 0 to 255; null where the browser makes no such frame. */
  async planes() {
    const worst: Record<string, number | null> = {};
    const reader = createLumaReader();
    for (const format of FRAME_FORMATS) {
      const made = frameOf(format);
      worst[format] = made === null ? null : 0;
      if (made === null) continue;
      for (const rotationDeg of [0, 90, 180, 270] as const) {
        for (const isFlipped of [false, true]) {
          const isOnSide = rotationDeg % 180 !== 0;
          const [width, height] = isOnSide ? [FRAME_HEIGHT, FRAME_WIDTH] : [FRAME_WIDTH, FRAME_HEIGHT];
          const { luma } = await reader.read({ frame: made, turn: { rotationDeg, isFlipped }, width, height });
          const truth = new Uint8Array(width * height);
          turnUpright(greySlope(), FRAME_WIDTH, FRAME_WIDTH, FRAME_HEIGHT, { rotationDeg, isFlipped }, truth);
          worst[format] = Math.max(worst[format] ?? 0, ...luma.map((value, index) => Math.abs(value - truth[index]!)));
        }
      }
      made.close();
    }
    return worst;
  },

  /** A frame whose pixels are twice as wide as high: the columns of a step from dark to bright, before and after it. */
  async widePixels() {
    const frame = frameOf('RGBA')!;
    const { width, height, luma } = await createLumaReader().read({ frame, turn: { rotationDeg: 0, isFlipped: false }, width: 2 * FRAME_WIDTH, height: FRAME_HEIGHT });
    frame.close();
    const slope = greySlope();
    const off = slope.map((value, index) => Math.abs(value - luma[Math.floor(index / FRAME_WIDTH) * width + 2 * (index % FRAME_WIDTH)]!));
    return { width, height, worst: Math.max(...off) };
  },

  /** Time for decoding and reading the brightness, ms a frame, with the first second left out. */
  async speed(wanted: FilmWanted) {
    const film = await opened(await makeFilm(wanted));
    let count = 0;
    let begin = 0;
    for await (const { timeS } of greyFrames(film)) {
      if (timeS < 1) begin = performance.now();
      else count += 1;
    }
    const spent = performance.now() - begin;
    film.close();
    return spent / count;
  },
};

export type Scenarios = typeof scenarios;

Object.assign(window, { scenarios });

/** Clicks are 0.9 high, the tone between them 0.1; coders round a click off. */
const CLICK_FROM = 0.3;

/** Places, marked in frame 20, that keep clear of the bars and the corners, which stand still, and of the frame's edge. */
const LANDMARKS = { 'nose-bridge': { x: 200, y: 40 }, 'inner-eye-left': { x: 270, y: 172 }, 'inner-eye-right': { x: 170, y: 168 } };

async function doorTo(wanted: FilmWanted): Promise<FilmDoor> {
  const door = await askFilm(new File([await makeFilm(wanted)], 'take.mp4'));
  if (door.kind === 'refused') throw new Error(door.words);
  return door;
}

const settingsFor = (door: FilmDoor, markedAt: number): FilmTrackerSettings => ({
  view: 'front',
  anchors: [{ timeS: door.frameTimesS[markedAt]!, marks: { landmarks: LANDMARKS } }],
  rim: { innerDiameterMm: 17, outerDiameterMm: 27 },
});

async function opened(file: Blob): Promise<OpenedFilm> {
  const film = await openFilm(file);
  if (film.kind === 'refused') throw new Error(film.words);
  return film;
}

async function saidOf(file: File): Promise<string> {
  const film = await openFilm(file);
  if (film.kind === 'refused') return `${film.reason}: ${film.words}`;
  film.close();
  return 'opened';
}

function greyOfBitmap(bitmap: ImageBitmap): GreyPicture {
  const { width, height } = bitmap;
  const context = new OffscreenCanvas(width, height).getContext('2d')!;
  context.drawImage(bitmap, 0, 0);
  const { data } = context.getImageData(0, 0, width, height);
  bitmap.close();
  return { width, height, luma: Uint8Array.from({ length: width * height }, (_, index) => data[4 * index]!) };
}
