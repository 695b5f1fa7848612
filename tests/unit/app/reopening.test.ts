import { describe, expect, test, vi } from 'vitest';
import type { FrameWish } from '../../../src/app/frameDoor';
import { type ReopeningStore, createReopening } from '../../../src/app/reopening';
import type { FileMark } from '../../../src/measure/fileMark';
import { bareMeasuring, fullMeasuring } from '../../support/measurings';

const film = fullMeasuring();
const [front, side]: [FileMark, FileMark] = [film.sources[0]!, film.sources[1]!];
const pictures = bareMeasuring('pictures');
const WISH: FrameWish = { measuringId: film.id, sourceIndex: 0, frameS: 1.5 };

interface Trial {
  readonly store: ReopeningStore;
  readonly open: ReturnType<typeof vi.fn>;
  readonly show: ReturnType<typeof vi.fn>;
  readonly close: ReturnType<typeof vi.fn>;
}

/** A file is recognised by its name here: 'front' and 'side' are those of the measuring. */
function trial({ kept = [], openNow = [], measuringId = 'other' }: { kept?: readonly number[]; openNow?: readonly FileMark[]; measuringId?: string } = {}): Trial {
  let openFiles = openNow;
  const [open, show] = [vi.fn(() => Promise.resolve()), vi.fn()];
  const close = vi.fn(() => void (openFiles = []));
  const store = createReopening({
    measuringOf: (id) => [film, pictures].find((one) => one.id === id) ?? null,
    shelf: {
      get: (measuring, source) =>
        Promise.resolve(kept.includes(source) ? { kind: 'film', measuring, source, name: film.sources[source]!.name, bytes: 1, blob: new Blob(['x']) } : { kind: 'none' }),
    },
    mark: ({ name }) => Promise.resolve({ ...(name === 'front' ? front : name === 'side' ? side : { ...front, bytes: 77 }), name }),
    openNow: () => ({ files: openFiles, measuringId }),
    open,
    close,
    show,
  });
  return { store, open, show, close };
}

const named = (...names: string[]): File[] => names.map((name) => new File(['x'], name));
const namesOpened = ({ open }: Trial): string[] => (open.mock.calls[0]![1] as File[]).map(({ name }) => name);

describe('a kept measuring is opened again', () => {
  test('from the films that are kept, and shown at the frame', async () => {
    const one = trial({ kept: [0, 1] });
    await one.store.getState().ask(WISH);
    expect(namesOpened(one)).toEqual([front.name, side.name]);
    expect(one.show).toHaveBeenCalledWith(front, 1.5);
    expect(one.store.getState().now.kind).toBe('none');
  });

  test('what is missing is asked for, and opened in the measuring’s order', async () => {
    const one = trial();
    await one.store.getState().ask(WISH);
    expect(one.store.getState().now).toMatchObject({ kind: 'asks', missing: [front.name, side.name], canGoOn: false, words: null });
    await one.store.getState().choose(named('side', 'strange'));
    expect(one.store.getState().now).toMatchObject({ missing: [front.name], canGoOn: false, words: expect.stringContaining('strange: not what was measured') as unknown });
    expect(one.open).not.toHaveBeenCalled();
    await one.store.getState().choose(named('front'));
    expect(namesOpened(one)).toEqual(['front', 'side']);
    expect(one.show).toHaveBeenCalledWith(front, 1.5);
  });

  test('without the others, where the wished one is there', async () => {
    const one = trial({ kept: [0] });
    await one.store.getState().ask(WISH);
    expect(one.store.getState().now).toMatchObject({ missing: [side.name], canGoOn: true });
    await one.store.getState().goOn();
    expect(namesOpened(one)).toEqual([front.name]);
  });

  test('of pictures only the one that is wished for is asked for', async () => {
    const one = trial();
    await one.store.getState().ask({ measuringId: 'pictures', sourceIndex: 0, frameS: null });
    expect(one.store.getState().now).toMatchObject({ kind: 'asks', pictures: true, missing: ['side.jpg'] });
  });

  test('what is open already is shown, not opened twice', async () => {
    const one = trial({ openNow: [front] });
    await one.store.getState().ask(WISH);
    expect(one.show).toHaveBeenCalledWith(front, 1.5);
    const again = trial({ openNow: [front], measuringId: film.id });
    await again.store.getState().ask({ ...WISH, sourceIndex: null, frameS: null });
    expect(again.show).toHaveBeenCalledWith(front, null);
    expect([one, again].map(({ open }) => open.mock.calls.length)).toEqual([0, 0]);
  });

  test('something else that is open is closed only when that is said', async () => {
    const one = trial({ kept: [0, 1], openNow: [{ ...front, digest: 'ffffffffffffffff', name: 'other.mp4' }] });
    await one.store.getState().ask(WISH);
    expect(one.store.getState().now).toMatchObject({ kind: 'busy', names: 'other.mp4' });
    expect(one.close).not.toHaveBeenCalled();
    await one.store.getState().closeAndGoOn();
    expect(one.close).toHaveBeenCalledOnce();
    expect(namesOpened(one)).toEqual([front.name, side.name]);
  });

  test('given up, nothing is opened; a measuring that is gone is not asked about', async () => {
    const one = trial();
    await one.store.getState().ask(WISH);
    one.store.getState().leave();
    await one.store.getState().choose(named('front', 'side'));
    await one.store.getState().ask({ ...WISH, measuringId: 'gone' });
    expect(one.store.getState().now.kind).toBe('none');
    expect(one.open).not.toHaveBeenCalled();
  });
});
