import { describe, expect, test } from 'vitest';
import { frameAt, shownFilm, takeTime } from '../../../src/app/filmSource';
import { MOST_FILMS, createFilming } from '../../../src/app/filming';
import type { FilmOpening, FilmSource, FilmWork, FilmingStore, ShownFrame } from '../../../src/app/filmingTypes';
import { createAnchorsKeeper } from '../../../src/app/marksKept';
import type { NoteHeard } from '../../../src/measure/traces';
import { marksSoFar } from '../../../src/notebook/measure/anchorEdits';

const FRAMES = 50;
const times = Float64Array.from({ length: FRAMES }, (_, index) => index / 25);
const heard: readonly NoteHeard[] = [
  { startS: 0.2, endS: 0.8, midi: 60, cents: 1 },
  { startS: 0.8, endS: 1.4, midi: 62, cents: 0 },
];

interface Made {
  readonly store: FilmingStore;
  readonly closed: string[];
  readonly asked: { follow: number; head: (readonly (readonly number[])[])[] };
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
}

function filmingWith({ storage = storageOf(), hasSound = true, offsetS = 0.4, follow }: Wishes = {}): Made {
  const closed: string[] = [];
  const asked: Made['asked'] = { follow: 0, head: [] };
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
    frame: (index) => Promise.resolve({ index, timeS: times[index]!, bitmap: { close: () => void closed.push(`${name} ${index}`) } as unknown as ShownFrame['bitmap'] }),
    overview: () => Promise.resolve(null),
    sound: () => Promise.resolve(null),
    align: () => Promise.resolve(null),
    hear: () => Promise.resolve({ notes: heard, tuningCents: 3, words: null }),
    follow:
      follow ??
      (({ view }) => {
        asked.follow += 1;
        return Promise.resolve({ trace: { view, frames: [...times].map((timeS) => ({ timeS, rim: null, points: {} })) }, notFollowed: [], words: null });
      }),
    head: ({ steady }) => {
      asked.head.push(steady);
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
    keptElsewhere: () => null,
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

describe('frames', () => {
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
