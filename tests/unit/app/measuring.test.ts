import { describe, expect, test } from 'vitest';
import { createAnchorsKeeper, createMarksKeeper, forgetMarks } from '../../../src/app/marksKept';
import { MOST_OPEN, type MeasuringStore, type Opening, createMeasuring, shownSource } from '../../../src/app/measuring';
import { NO_MARKS, withMark } from '../../../src/notebook/measure/marksEdits';

function storageOf(entries: Record<string, string> = {}): Pick<Storage, 'getItem' | 'setItem'> & { readonly entries: Record<string, string> } {
  return { entries, getItem: (key) => entries[key] ?? null, setItem: (key, value) => void (entries[key] = value) };
}

const closed: string[] = [];
const openAny = (file: File): Promise<Opening> =>
  Promise.resolve(
    file.name.endsWith('.txt')
      ? { kind: 'refused', words: `“${file.name}” holds text.` }
      : {
          kind: 'picture',
          file: { name: file.name, bytes: file.size, digest: file.name.padStart(16, '0') },
          picture: {
            width: 100,
            height: 80,
            shown: { close: () => void closed.push(file.name) } as unknown as ImageBitmap,
            small: null,
            grey: { width: 1, height: 1, luma: new Uint8Array(1) },
            equivalentMm: null,
          },
        },
  );

let count = 0;
const measuringWith = (storage = storageOf(), open: (one: File) => Promise<Opening> = openAny): MeasuringStore =>
  createMeasuring({
    open,
    // An edge wherever x is a whole number.
    snap: (_, { x, y }) => ({ x: Math.round(x), y }),
    // A rim of five points lies on y = 7.
    drawRim: (_, rim) => (rim.length < 5 ? null : rim.map(({ x }) => ({ x, y: 7 }))),
    keeper: createMarksKeeper(storage),
    keptElsewhere: () => null,
    newId: () => `id${(count += 1)}`,
  });
const file = (name: string): File => new File([name], name);
const marksOf = (store: MeasuringStore) => shownSource(store.getState())!.marks.present;

describe('pictures that are open', () => {
  test('the first is shown and is home; what cannot be opened is said', async () => {
    const store = measuringWith();
    await store.getState().open([file('a.jpg'), file('b.txt'), file('c.jpg')]);
    const { sources, shownId, homeId, refusals, active } = store.getState();
    expect(sources.map((one) => one.file.name)).toEqual(['a.jpg', 'c.jpg']);
    expect([shownId, homeId]).toEqual([sources[0]!.id, sources[0]!.id]);
    expect(refusals).toEqual(['“b.txt” holds text.']);
    expect(active).toBe('rim-0');
  });

  test('no more than a phone can hold', async () => {
    const store = measuringWith();
    await store.getState().open(Array.from({ length: MOST_OPEN + 1 }, (_, index) => file(`${index}.jpg`)));
    expect(store.getState().sources).toHaveLength(MOST_OPEN);
    expect(store.getState().refusals[0]).toContain(`${MOST_OPEN}.jpg was left out`);
  });

  test('large ones only as far as memory goes, and one that cannot be opened for want of it stops no other', async () => {
    closed.length = 0;
    const large = async (one: File): Promise<Opening> => {
      const opening = await openAny(one);
      if (one.name === 'bad.jpg') throw new RangeError('Array buffer allocation failed');
      return opening.kind === 'picture' ? { ...opening, picture: { ...opening.picture, width: 10_000, height: 8000 } } : opening;
    };
    const store = measuringWith(storageOf(), large);
    await store.getState().open([file('a.jpg'), file('bad.jpg'), file('b.jpg'), file('c.jpg')]);
    const { sources, refusals, isOpening } = store.getState();
    expect(sources.map((one) => one.file.name)).toEqual(['a.jpg', 'b.jpg']);
    expect(refusals).toEqual([expect.stringContaining('bad.jpg: The browser could not open it'), expect.stringContaining('c.jpg was left out')]);
    expect(closed).toEqual(['c.jpg']);
    expect(isOpening).toBe(false);
  });

  test('given while others are being opened they are told to wait; closing lets those go too', async () => {
    const store = measuringWith();
    const opening = store.getState().open([file('a.jpg'), file('b.jpg')]);
    void store.getState().open([file('c.jpg')]);
    expect(store.getState().refusals).toEqual([expect.stringContaining('c.jpg: wait until')]);
    closed.length = 0;
    store.getState().close();
    await opening;
    expect(closed).toEqual(['a.jpg']);
    expect(store.getState()).toMatchObject({ sources: [], isOpening: false });
  });

  test('closing lets every picture go', async () => {
    const store = measuringWith();
    await store.getState().open([file('x.jpg'), file('y.jpg')]);
    closed.length = 0;
    store.getState().close();
    expect(closed).toEqual(['x.jpg', 'y.jpg']);
    expect(store.getState()).toMatchObject({ sources: [], shownId: null, homeId: null, active: null });
  });
});

describe('marks', () => {
  test('a tap puts the one asked for and asks for the next; a rim point snaps unless it may not', async () => {
    const store = measuringWith();
    await store.getState().open([file('a.jpg')]);
    expect(store.getState().put({ x: 10.4, y: 5 })).toBe(true);
    store.getState().setSnaps(false);
    store.getState().put({ x: 20.4, y: 5 });
    expect(marksOf(store).rim).toEqual([{ x: 10, y: 5 }, { x: 20.4, y: 5 }]);
    expect(store.getState().active).toBe('rim-2');
  });

  test('the fifth rim point brings the whole rim to its edge, in one step back; not where nothing may snap', async () => {
    const store = measuringWith();
    await store.getState().open([file('a.jpg')]);
    for (const x of [1, 2, 3, 4]) store.getState().put({ x, y: 5 });
    store.getState().setSnaps(false);
    store.getState().put({ x: 5, y: 5 });
    expect(marksOf(store).rim.map(({ y }) => y)).toEqual([5, 5, 5, 5, 5]);
    store.getState().undo();
    store.getState().setSnaps(true);
    store.getState().put({ x: 5, y: 5 });
    expect(marksOf(store).rim.map(({ y }) => y)).toEqual([7, 7, 7, 7, 7]);
    store.getState().undo();
    expect(marksOf(store).rim.map(({ y }) => y)).toEqual([5, 5, 5, 5]);
  });

  test('a drag is one step back, its snapping with it; by keys nothing snaps', async () => {
    const store = measuringWith();
    await store.getState().open([file('a.jpg')]);
    store.getState().put({ x: 10, y: 5 });
    for (const x of [11.2, 12.2, 13.2]) store.getState().move('rim-0', { x, y: 5 }, 'drag:1');
    store.getState().settle('rim-0', true);
    expect(marksOf(store).rim[0]).toEqual({ x: 13, y: 5 });
    store.getState().undo();
    expect(marksOf(store).rim[0]).toEqual({ x: 10, y: 5 });
    store.getState().move('rim-0', { x: 10.1, y: 5 }, 'nudge');
    store.getState().settle('rim-0', false);
    expect(marksOf(store).rim[0]).toEqual({ x: 10.1, y: 5 });
    store.getState().undo();
    store.getState().undo();
    expect(marksOf(store)).toEqual(NO_MARKS);
    expect(store.getState().active).toBe('rim-0');
    store.getState().redo();
    expect(marksOf(store).rim).toHaveLength(1);
  });

  test('each picture has its own steps', async () => {
    const store = measuringWith();
    await store.getState().open([file('a.jpg'), file('b.jpg')]);
    store.getState().put({ x: 1, y: 1 });
    store.getState().show(store.getState().sources[1]!.id);
    store.getState().undo();
    store.getState().show(store.getState().sources[0]!.id);
    expect(marksOf(store).rim).toHaveLength(1);
  });

  test('another view asks for its own marks, and the next picture is taken from there too', async () => {
    const store = measuringWith();
    await store.getState().open([file('a.jpg')]);
    store.getState().setView('left');
    expect(store.getState().active).toBe('horn-from');
    await store.getState().open([file('b.jpg')]);
    expect(store.getState().sources[1]!.view).toBe('left');
  });

  test('one that is taken away is asked for again', async () => {
    const store = measuringWith();
    await store.getState().open([file('a.jpg')]);
    store.getState().setView('left');
    store.getState().put({ x: 1, y: 1 });
    store.getState().take('horn-from');
    expect(store.getState().active).toBe('horn-from');
  });
});

describe('marks that are kept', () => {
  test('come back with the file, and go when the picture is taken away', async () => {
    const storage = storageOf();
    const first = measuringWith(storage);
    await first.getState().open([file('a.jpg')]);
    first.getState().setView('above');
    first.getState().setNote('F4');
    first.getState().put({ x: 7, y: 8 });
    const second = measuringWith(storage);
    await second.getState().open([file('a.jpg'), file('other.jpg')]);
    expect(second.getState().sources[0]).toMatchObject({ view: 'above', note: 'F4', marks: { present: { horn: { from: { x: 7, y: 8 } } } } });
    expect(second.getState().sources[1]!.marks.present).toEqual(NO_MARKS);
    second.getState().remove(second.getState().shownId!);
    const third = measuringWith(storage);
    await third.getState().open([file('a.jpg')]);
    expect(marksOf(third)).toEqual(NO_MARKS);
  });

  test('go with the measuring that is deleted, and with no other', () => {
    const storage = storageOf();
    const keepers = [createMarksKeeper(storage), createAnchorsKeeper(storage)] as const;
    const [one, other] = [{ bytes: 1, digest: 'a' }, { bytes: 2, digest: 'b' }];
    for (const file of [one, other]) {
      keepers[0].keep(file, { view: 'front', note: null, marks: NO_MARKS });
      keepers[1].keep(file, { view: 'front', anchors: [] });
    }
    forgetMarks(keepers, [one]);
    expect(keepers.map((keeper) => [keeper.find(one) === null, keeper.find(other) === null])).toEqual([[true, false], [true, false]]);
  });

  test('what was not written by this program is as if it were not there', () => {
    for (const text of ['', '{', 'null', '[[1,2]]', '[["1 a",{"view":"behind","marks":{}}]]', '[["1 a",{"view":"front","marks":3}]]']) {
      expect(createMarksKeeper(storageOf({ 'rimpath.marks.1': text })).find({ bytes: 1, digest: 'a' })).toBeNull();
    }
    const half = '[["1 a",{"view":"front","note":3,"marks":{"rim":[{"x":1,"y":2},{"x":"1"}],"horn":{"from":{"x":null}},"landmarks":{"ear-left":{"x":1,"y":1}}}}]]';
    expect(createMarksKeeper(storageOf({ 'rimpath.marks.1': half })).find({ bytes: 1, digest: 'a' })).toEqual({
      view: 'front',
      note: null,
      marks: { ...NO_MARKS, rim: [{ x: 1, y: 2 }], landmarks: { 'ear-left': { x: 1, y: 1 } } },
    });
  });

  test('a storage that refuses costs nothing but the keeping', () => {
    const keeper = createMarksKeeper({ getItem: () => null, setItem: () => { throw new Error('full'); } });
    keeper.keep({ bytes: 1, digest: 'a' }, { view: 'front', note: null, marks: withMark(NO_MARKS, 'rim-0', { x: 1, y: 1 }) });
    expect(keeper.find({ bytes: 1, digest: 'a' })).toBeNull();
    expect(createMarksKeeper(null).find({ bytes: 1, digest: 'a' })).toBeNull();
  });

  test('the oldest of many are forgotten', () => {
    const keeper = createMarksKeeper(storageOf());
    for (let index = 0; index < 61; index++) keeper.keep({ bytes: 1, digest: `${index}` }, { view: 'front', note: null, marks: NO_MARKS });
    expect(keeper.find({ bytes: 1, digest: '0' })).toBeNull();
    expect(keeper.find({ bytes: 1, digest: '60' })).not.toBeNull();
  });
});
