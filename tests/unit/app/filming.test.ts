import { describe, expect, test } from 'vitest';
import { frameAt, shownFilm, takeSpan, takeTime } from '../../../src/app/filmSource';
import { MOST_FILMS, createFilming } from '../../../src/app/filming';
import type { FilmOpening, FilmSource, FilmWork, FilmingStore, ShownFrame } from '../../../src/app/filmingTypes';
import { startHistory } from '../../../src/app/history';
import { MOST_ANCHORS, createAnchorsKeeper } from '../../../src/app/marksKept';
import type { NoteHeard } from '../../../src/measure/traces';
import { marksSoFar } from '../../../src/notebook/measure/anchorEdits';
import { NO_MARKS, withMark } from '../../../src/notebook/measure/marksEdits';

const FRAMES = 50;
const times = Float64Array.from({ length: FRAMES }, (_, index) => index / 25);
const heard: readonly NoteHeard[] = [
  { startS: 0.2, endS: 0.8, midi: 60, cents: 1 },
  { startS: 0.8, endS: 1.4, midi: 62, cents: 0 },
];

interface Made {
  readonly store: FilmingStore;
  readonly closed: string[];
  readonly asked: { follow: number; head: (readonly (readonly number[])[])[]; lenses: (number | null)[]; outerDiameterMm: number };
  rest(): void;
}

function storageOf(): Pick<Storage, 'getItem' | 'setItem'> {
  const entries = new Map<string, string>();
  return { getItem: (key) => entries.get(key) ?? null, setItem: (key, value) => void entries.set(key, value) };
}

interface Wishes {
  readonly storage?: Pick<Storage, 'getItem' | 'setItem'>;
  readonly hasSound?: boolean;
  readonly offsetS?: number | null;
  readonly follow?: FilmWork['follow'];
  readonly frame?: FilmWork['frame'];
  readonly overview?: FilmWork['overview'];
  readonly keptElsewhere?: Parameters<typeof createFilming>[0]['keptElsewhere'];
}

function filmingWith({ storage = storageOf(), hasSound = true, offsetS = 0.4, follow, frame, overview, keptElsewhere = () => null }: Wishes = {}): Made {
  const closed: string[] = [];
  const asked: Made['asked'] = { follow: 0, head: [], lenses: [], outerDiameterMm: 27 };
  const resting: (() => void)[] = [];
  let count = 0;
  const workOf = (name: string): FilmWork => ({
    facts: {
      name,
      startS: 0,
      endS: 2,
      width: 640,
      height: 480,
      frameCount: FRAMES,
      framesPerSecond: 25,
      isVariable: false,
      codecWords: 'H.264',
      sound: hasSound ? { sampleRate: 48000, channels: 1, startS: 0, codecWords: 'Opus' } : null,
      told: [],
    },
    frameTimesS: times,
    frame: (index) => frame?.(index) ?? Promise.resolve({ index, timeS: times[index]!, bitmap: { close: () => void closed.push(`${name} ${index}`) } as unknown as ShownFrame['bitmap'] }),
    overview: overview ?? (() => Promise.resolve(null)),
    sound: () => Promise.resolve(null),
    align: () => Promise.resolve(null),
    hear: () => Promise.resolve({ notes: heard, tuningCents: 3, words: null }),
    follow:
      follow ??
      (({ view }) => {
        asked.follow += 1;
        return Promise.resolve({ trace: { view, frames: [...times].map((timeS) => ({ timeS, rim: null, points: {} })) }, notFollowed: [], words: null });
      }),
    head: ({ steady, lensMm }) => {
      asked.head.push(steady);
      asked.lenses.push(lensMm);
      return Promise.resolve({ kind: 'not-found', reason: 'too-few-landmarks' });
    },
    close: () => void closed.push(name),
  });
  const open = (file: File): Promise<FilmOpening> =>
    file.name.endsWith('.txt')
      ? Promise.resolve({ kind: 'refused', words: `“${file.name}” holds text.` })
      : Promise.resolve({ kind: 'film', work: workOf(file.name), file: { name: file.name, bytes: file.size, digest: file.name.padStart(16, '0') } });
  const store = createFilming({
    open,
    // An edge wherever x is a whole number.
    snap: (_, { x, y }) => ({ x: Math.round(x), y }),
    greyOf: () => ({ width: 1, height: 1, luma: new Uint8Array(1) }),
    align: () => Promise.resolve(offsetS === null ? null : { offsetS, sdS: 0.003 }),
    keeper: createAnchorsKeeper(storage),
    keptElsewhere,
    outerDiameterMm: () => asked.outerDiameterMm,
    rest: (work) => void resting.push(work),
    newId: () => `id${(count += 1)}`,
  });
  return { store, closed, asked, rest: () => resting.splice(0).forEach((work) => work()) };
}

const RANGE = { lowMidi: 50, highMidi: 80 };
const file = (name: string): File => new File([name], name);
const opened = async (made: Made, ...names: string[]): Promise<void> => made.store.getState().open(names.map(file), RANGE);
const settled = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

describe('films that are open', () => {
  test('the first gives the take its clock and its notes; a refused one is said', async () => {
    const made = filmingWith();
    await opened(made, 'front.mp4', 'notes.txt', 'side.mp4');
    const { films, shownId, notes, refusals, working, active } = made.store.getState();
    expect(films.map(({ file: { name }, view, offsetS }) => [name, view, offsetS])).toEqual([
      ['front.mp4', 'front', 0],
      ['side.mp4', 'right', 0.4],
    ]);
    expect(shownId).toBe(films[1]!.id);
    expect(notes.present).toEqual(heard);
    expect(refusals).toEqual(['“notes.txt” holds text.']);
    expect([working, active]).toEqual([null, 'horn-from']);
  });

  test('given while another is worked at it is told to wait; the same one given again is read anew and keeps what was marked', async () => {
    const made = filmingWith();
    const opening = opened(made, 'front.mp4');
    await opened(made, 'side.mp4');
    expect(made.store.getState().refusals).toEqual([expect.stringContaining('side.mp4: wait until')]);
    await opening;
    expect(made.store.getState().films.map(({ file: { name } }) => name)).toEqual(['front.mp4']);

    const [{ id, work }] = made.store.getState().films as [FilmSource];
    made.store.getState().put({ x: 3, y: 4 });
    await opened(made, 'front.mp4');
    const [again, ...none] = made.store.getState().films;
    expect(none).toEqual([]);
    expect([again!.id, again!.anchors.present.length, again!.offsetS]).toEqual([id, 1, 0]);
    expect(again!.work).not.toBe(work);
    expect(made.closed).toContain('front.mp4');
  });

  test('read anew, its head is worked out through the new reader', async () => {
    const made = filmingWith();
    await opened(made, 'front.mp4');
    made.store.getState().put({ x: 3, y: 4 });
    await made.store.getState().follow();
    await opened(made, 'front.mp4');
    made.rest();
    await settled();
    expect([made.asked.head.length, made.store.getState().isHeadBehind()]).toEqual([2, false]);
  });

  test('two films whose sound does not go together are told, and can be brought together by hand', async () => {
    const made = filmingWith({ offsetS: null });
    await opened(made, 'front.mp4', 'side.mp4');
    expect(made.store.getState().films[1]!.offsetS).toBeNull();
    expect(made.store.getState().films[1]!.offsetWords).toContain('could not be matched');
    made.store.getState().setOffset(1.25);
    expect(made.store.getState().films[1]!.offsetS).toBe(1.25);
  });

  test('no more than three, and every bitmap and worker is let go', async () => {
    const made = filmingWith();
    await opened(made, '1.mp4', '2.mp4', '3.mp4', '4.mp4');
    expect(made.store.getState().films).toHaveLength(MOST_FILMS);
    expect(made.store.getState().refusals[0]).toContain('4.mp4 was left out');
    made.store.getState().goTo(1);
    await settled();
    made.store.getState().close();
    expect(made.closed.toSorted()).toEqual(['1.mp4', '1.mp4 0', '2.mp4', '2.mp4 0', '3.mp4', '3.mp4 0', `3.mp4 ${frameAt(times, 0.6)}`].toSorted());
    expect(made.store.getState().films).toEqual([]);
  });

  test('a stop before it is listened to ends the work for good', async () => {
    let stop: () => void = () => undefined;
    const made = filmingWith({ overview: () => (stop(), Promise.resolve(null)) });
    stop = () => made.store.getState().stop();
    await opened(made, 'front.mp4');
    expect([made.store.getState().working, made.store.getState().notes.present]).toEqual([null, []]);
  });

  test('without sound the notes wait to be tapped', async () => {
    const made = filmingWith({ hasSound: false });
    await opened(made, 'front.mp4');
    expect(made.store.getState().notes.present).toEqual([]);
  });

  test('the film that gives the clock takes the others with it; another goes alone', async () => {
    const made = filmingWith();
    await opened(made, 'front.mp4', 'side.mp4');
    const [first, second] = made.store.getState().films;
    made.store.getState().remove(second!.id);
    expect(made.store.getState().films.map(({ id }) => id)).toEqual([first!.id]);
    await opened(made, 'side.mp4');
    made.store.getState().remove(first!.id);
    expect(made.store.getState().films).toEqual([]);
  });
});

describe('under which name it is kept', () => {
  test('a measuring that holds the film that is closed goes on holding it: what is left is another one’s', async () => {
    const held = new Set(['side.mp4']);
    const made = filmingWith({ keptElsewhere: ({ name }, measuringId) => (measuringId !== undefined && held.has(name) ? ({} as never) : null) });
    await opened(made, 'front.mp4', 'side.mp4', 'above.mp4');
    const { measuringId, films, remove } = made.store.getState();
    remove(films[2]!.id);
    // That one was never accepted: the others stay who they are.
    expect(made.store.getState().measuringId).toBe(measuringId);
    remove(films[1]!.id);
    expect(made.store.getState().measuringId).not.toBe(measuringId);
  });
});

describe('frames', () => {
  test('one that cannot be read leaves the last one standing, and says no other time', async () => {
    const made = filmingWith({ frame: (index) => (index === 7 ? Promise.reject(new Error('damaged')) : Promise.resolve({ index, timeS: times[index]!, bitmap: { close: () => undefined } as unknown as ShownFrame['bitmap'] })) });
    await opened(made, 'front.mp4');
    made.store.getState().stepFrames(6);
    await settled();
    made.store.getState().stepFrames(1);
    expect(shownFilm(made.store.getState())!.frameIndex).toBe(7);
    await settled();
    expect(made.store.getState().refusals).toEqual(['damaged']);
    expect(shownFilm(made.store.getState())).toMatchObject({ frameIndex: 6, frame: { index: 6 } });
  });

  test('the frame at a time is the last that has begun', () => {
    expect([-1, 0, 0.039, 0.04, 0.0799, 1.96, 99].map((timeS) => frameAt(times, timeS))).toEqual([0, 0, 0, 1, 2, 49, 49]);
  });

  test('the time of the take is held when another film is shown', async () => {
    const made = filmingWith();
    await opened(made, 'front.mp4', 'side.mp4');
    made.store.getState().show(made.store.getState().films[0]!.id);
    await settled();
    made.store.getState().goTo(1);
    await settled();
    made.store.getState().show(made.store.getState().films[1]!.id);
    await settled();
    const side = shownFilm(made.store.getState())!;
    expect(side.frame!.timeS).toBe(0.6);
    expect(takeTime(side)).toBe(1);
    // A note may begin and end wherever one of the films shows it.
    expect(takeSpan(made.store.getState().films)).toEqual({ startS: 0, endS: 2.4 });
    made.store.getState().stepFrames(-1);
    made.store.getState().stepFrames(-99);
    await settled();
    expect(shownFilm(made.store.getState())!.frameIndex).toBe(0);
  });
});

describe('marks', () => {
  const put = async (made: Made): Promise<void> => {
    await opened(made, 'front.mp4');
    const { put: mark } = made.store.getState();
    mark({ x: 10.4, y: 20 });
    mark({ x: 30.2, y: 20 });
  };

  test('stand in the frame they were put in, snapped, and ask for the next', async () => {
    const made = filmingWith();
    await put(made);
    const { anchors } = shownFilm(made.store.getState())!;
    expect(anchors.present.map(({ timeS, marks }) => [timeS, marks.rim])).toEqual([[0, [{ x: 10, y: 20 }, { x: 30, y: 20 }]]]);
    expect(made.store.getState().active).toBe('rim-2');
  });

  test('put again in a later frame they take over from there on, and nothing is asked twice', async () => {
    const made = filmingWith();
    await put(made);
    made.store.getState().goTo(1);
    await settled();
    made.store.getState().activate('nose-bridge');
    made.store.getState().put({ x: 50, y: 5 });
    const { anchors } = shownFilm(made.store.getState())!;
    expect(anchors.present.map(({ timeS }) => timeS)).toEqual([0, 1]);
    expect(marksSoFar(anchors.present).landmarks['nose-bridge']).toEqual({ x: 50, y: 5 });
    made.store.getState().undo();
    expect(shownFilm(made.store.getState())!.anchors.present.map(({ timeS }) => timeS)).toEqual([0]);
    made.store.getState().redo();
    made.store.getState().take('nose-bridge');
    // A frame without marks is no marked frame.
    expect(shownFilm(made.store.getState())!.anchors.present.map(({ timeS }) => timeS)).toEqual([0]);
  });

  test('in more frames than a lesson can keep are told at once, and not put', async () => {
    const made = filmingWith();
    await opened(made, 'front.mp4');
    const [source] = made.store.getState().films as [FilmSource];
    const anchors = Array.from({ length: MOST_ANCHORS }, (_, index) => ({ timeS: 10 + index, marks: withMark(NO_MARKS, 'nose-bridge', { x: index, y: 1 }) }));
    made.store.setState({ films: [{ ...source, anchors: startHistory(anchors) }], active: 'ear-left' });
    made.store.getState().put({ x: 1, y: 1 });
    expect(shownFilm(made.store.getState())!.anchors.present).toBe(anchors);
    expect([made.store.getState().refusals.join(' '), made.store.getState().active]).toEqual([expect.stringContaining('up to 100 frames'), 'ear-left']);
  });

  test('come back when the same film is opened again', async () => {
    const storage = storageOf();
    await put(filmingWith({ storage }));
    const again = filmingWith({ storage });
    await opened(again, 'front.mp4');
    expect(shownFilm(again.store.getState())!.anchors.present[0]!.marks.rim).toHaveLength(2);
    await opened(again, 'other.mp4');
    expect(shownFilm(again.store.getState())!.anchors.present).toEqual([]);
  });
});

describe('a page that was closed', () => {
  test('has of a film opened again its lens, the horn’s mark, the notes as they were changed, home, and when another began', async () => {
    const storage = storageOf();
    const before = filmingWith({ storage, offsetS: null });
    await opened(before, 'front.mp4', 'side.mp4');
    before.store.getState().setOffset(1.25);
    before.store.getState().show(before.store.getState().films[0]!.id);
    before.store.getState().setLens(35);
    before.store.getState().setHornMark({ value: 60, sd: 2 });
    before.store.getState().editNotes((notes) => notes.map((note) => ({ ...note, midi: 70 })));
    before.store.getState().editNotes((notes) => notes.slice(0, 1), 'boundary');
    before.store.getState().settleNotes();
    before.store.getState().setHome(70);

    const again = filmingWith({ storage, offsetS: 0.4 });
    await opened(again, 'front.mp4', 'side.mp4');
    const { films, notes, homeMidi, tuningCents } = again.store.getState();
    expect(films.map(({ lensMm, hornMarkMm, offsetS }) => [lensMm, hornMarkMm, offsetS])).toEqual([[35, { value: 60, sd: 2 }, 0], [null, null, 1.25]]);
    expect(notes.present).toEqual([{ ...heard[0]!, midi: 70 }]);
    expect([homeMidi, tuningCents]).toEqual([70, 3]);

    // By itself the other film is a take of its own.
    const alone = filmingWith({ storage });
    await opened(alone, 'side.mp4');
    expect(alone.store.getState().films[0]!.offsetS).toBe(0);
    expect([alone.store.getState().notes.present, alone.store.getState().homeMidi]).toEqual([heard, null]);
  });

  test('notes that no hand has changed are heard anew, and what is not whole is as if it were not there', async () => {
    const storage = storageOf();
    const keeper = createAnchorsKeeper(storage);
    const mark = { bytes: 9, digest: 'front.mp4'.padStart(16, '0') };
    keeper.keep(mark, { view: 'front', anchors: [], lensMm: -3, began: { first: 7, offsetS: 1 }, take: { notes: [{ startS: 2, endS: 1 }], homeMidi: 900 } } as never);
    expect(keeper.find(mark)).toEqual({ view: 'front', anchors: [], take: { notes: null, tuningCents: null, homeMidi: null } });
    const made = filmingWith({ storage });
    await opened(made, 'front.mp4');
    expect(made.store.getState().notes.present).toEqual(heard);
  });

  test('a full storage forgets the oldest rather than the newest', () => {
    const storage = storageOf();
    const small = { ...storage, setItem: (key: string, value: string) => (value.length > 200 ? (() => { throw new Error('full'); })() : storage.setItem(key, value)) };
    const keeper = createAnchorsKeeper(small);
    const mark = (index: number): { bytes: number; digest: string } => ({ bytes: index, digest: 'a'.repeat(16) });
    for (let index = 0; index < 9; index++) keeper.keep(mark(index), { view: 'front', anchors: [] });
    expect([keeper.find(mark(8))?.view, keeper.find(mark(0))]).toEqual(['front', null]);
  });
});

describe('following', () => {
  const marked = async (made: Made): Promise<void> => {
    await opened(made, 'front.mp4');
    made.store.getState().put({ x: 10, y: 20 });
  };

  test('asks for the head with the frames of the notes, and again when the notes have changed and rest', async () => {
    const made = filmingWith();
    await marked(made);
    await made.store.getState().follow();
    const { followed } = shownFilm(made.store.getState())!;
    expect(followed!.trace.frames).toHaveLength(FRAMES);
    expect(made.asked.head).toHaveLength(1);
    // From 0.26 to 0.74 s and from 0.86 to 1.34 s.
    expect(made.asked.head[0]!.map((own) => [own[0], own.at(-1)])).toEqual([[7, 18], [22, 33]]);
    made.store.getState().editNotes((notes) => notes.slice(0, 1));
    made.store.getState().editNotes((notes) => notes.map((note) => ({ ...note, endS: 0.6 })));
    made.rest();
    await settled();
    expect(made.asked.head).toHaveLength(2);
    expect(made.asked.head[1]!.map((own) => [own[0], own.at(-1)])).toEqual([[7, 13]]);
  });

  test('a lens that is changed while it follows is the one that the head is worked out with', async () => {
    let done: () => void = () => undefined;
    const made = filmingWith({ follow: ({ view }) => new Promise((answer) => (done = () => answer({ trace: { view, frames: [] }, notFollowed: [], words: null }))) });
    await marked(made);
    const going = made.store.getState().follow();
    made.store.getState().setLens(35);
    done();
    await going;
    made.rest();
    await made.store.getState().headsSettled();
    expect(made.asked.lenses).toEqual([35]);
    expect(made.store.getState().isHeadBehind()).toBe(false);
  });

  test('another rim of the lesson, and a change that has not come to rest, are behind until the head is worked out', async () => {
    const made = filmingWith();
    await marked(made);
    await made.store.getState().follow();
    expect(made.store.getState().isHeadBehind()).toBe(false);
    made.asked.outerDiameterMm = 26;
    made.store.getState().rimChanged();
    expect(made.store.getState().isHeadBehind()).toBe(true);
    made.rest();
    await settled();
    expect([made.asked.head.length, made.store.getState().isHeadBehind()]).toEqual([2, false]);
    made.store.getState().setLens(50);
    await made.store.getState().headsSettled();
    expect(made.asked.lenses).toEqual([null, null, 50]);
    expect(made.store.getState().isHeadBehind()).toBe(false);
  });

  test('nothing is followed before anything is marked', async () => {
    const made = filmingWith();
    await opened(made, 'front.mp4');
    await made.store.getState().follow();
    expect(made.asked.follow).toBe(0);
  });

  test('a stop leaves what was there, and the next go works', async () => {
    let stopped = false;
    const made = filmingWith({
      follow: (_, signal) =>
        new Promise((done) => {
          signal.addEventListener('abort', () => {
            stopped = true;
            done(null);
          });
        }),
    });
    await marked(made);
    const going = made.store.getState().follow();
    expect(made.store.getState().working?.kind).toBe('following');
    made.store.getState().stop();
    await going;
    expect(stopped).toBe(true);
    expect([made.store.getState().working, shownFilm(made.store.getState())!.followed]).toEqual([null, null]);
  });

  test('a fault is said, in the words of what failed', async () => {
    const made = filmingWith({ follow: () => Promise.reject(new Error('Reading the film broke off.')) });
    await marked(made);
    await made.store.getState().follow();
    expect(made.store.getState().refusals).toEqual(['Reading the film broke off.']);
    expect(made.store.getState().working).toBeNull();
  });

  test('closing in the middle leaves nothing behind', async () => {
    const made = filmingWith({ follow: (_, signal) => new Promise((done) => signal.addEventListener('abort', () => done(null))) });
    await marked(made);
    const going = made.store.getState().follow();
    made.store.getState().close();
    await going;
    expect(made.store.getState().films).toEqual([]);
    expect(made.store.getState().working).toBeNull();
  });
});

describe('notes', () => {
  test('are changed in steps that can be taken back, and the chosen one stays within them', async () => {
    const made = filmingWith();
    await opened(made, 'front.mp4');
    made.store.getState().selectNote(1);
    await settled();
    expect(shownFilm(made.store.getState())!.frameIndex).toBe(frameAt(times, 1.1));
    made.store.getState().editNotes((notes) => notes.slice(0, 1));
    expect(made.store.getState().selectedNote).toBe(0);
    made.store.getState().undoNotes();
    expect(made.store.getState().notes.present).toEqual(heard);
    made.store.getState().redoNotes();
    expect(made.store.getState().notes.present).toHaveLength(1);
  });
});
