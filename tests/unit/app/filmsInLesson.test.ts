import { describe, expect, test, vi } from 'vitest';
import { createFilming } from '../../../src/app/filming';
import type { FilmWork, FilmingStore } from '../../../src/app/filmingTypes';
import { type KeptFilm, areAnchorsKept, filmInLesson } from '../../../src/app/filmsInLesson';
import { createAnchorsKeeper } from '../../../src/app/marksKept';
import { lensCamera } from '../../../src/app/measuringResults';
import type { LessonSpec } from '../../../src/core/specs';
import type { FileMark } from '../../../src/measure/fileMark';
import { markedTimes } from '../../../src/measure/markedAgain';
import { packTrace } from '../../../src/measure/packedTrace';
import { NO_MARKS, withMark } from '../../../src/notebook/measure/marksEdits';
import { readMeasuring } from '../../../src/records/measuringSchema';
import { expectWithin } from '../../support/expectWithin';
import { fullMeasuring, swayingTrace } from '../../support/measurings';
import { fullPlayer } from '../../support/records';

const measuring = fullMeasuring();
const [front, side] = measuring.sources as [(typeof measuring.sources)[0], (typeof measuring.sources)[0]];
const lesson: LessonSpec = { ...fullPlayer().lessons[0]!, measurings: [measuring] };
const found = (file: Pick<FileMark, 'bytes' | 'digest'>, id?: string): KeptFilm | null => filmInLesson(lesson, file, readMeasuring, id);

describe('a film in a lesson', () => {
  test('comes back with marks, horn mark, view, offset, notes and what was followed', () => {
    const kept = found(front)!;
    expect(kept).toMatchObject({ measuringId: 'measuring-1', place: 0, view: 'front', hornMarkMm: { value: 400, sd: 20 }, offsetS: 0 });
    expect(kept.anchors.map(({ timeS }) => timeS)).toEqual([0.5, 12.25]);
    expect(kept.anchors[0]!.marks.horn).toEqual({ from: { x: 640, y: 420 }, to: { x: 660, y: 640 } });
    expect(kept.trace?.frames.length).toBe(5);
    // Which marks each was followed from comes from the anchors: a trace that was kept before that was told has it too.
    expect(kept.trace?.marked).toEqual(markedTimes(front.anchors));
    expect(kept.trace?.marked?.['horn-far']?.[0]).toBe(0.5);
    expect(kept.notFollowed).toEqual([]);
    expect(kept.sound?.notes.length).toBe(2);
    expect(found(side)).toMatchObject({ place: 1, view: 'right', offsetS: -1.204, trace: null });
  });

  test('is known by its bytes, and sought in one measuring where that is asked for', () => {
    expect(found({ ...front, bytes: front.bytes + 1 })).toBeNull();
    expect(found(front, 'measuring-2')).toBeNull();
    const later = { ...lesson, measurings: [...lesson.measurings!, { ...fullMeasuring(), id: 'later' } as never] };
    expect(filmInLesson(later, front, readMeasuring)?.measuringId).toBe('later');
    expect(filmInLesson(later, front, readMeasuring, 'measuring-1')?.measuringId).toBe('measuring-1');
  });

  test('comes back with the note that its travel counted from, where one was chosen', () => {
    expect(found(front)!.homeMidi).toBeNull();
    const chosen = { ...fullMeasuring(), home: 'Bb3' };
    expect(filmInLesson({ ...lesson, measurings: [chosen as never] }, front, readMeasuring)!.homeMidi).toBe(58);
  });

  test('a trace that was changed by somebody else is none', () => {
    const changed = fullMeasuring();
    changed.sources[0]!.trace!.check += 1;
    expect(filmInLesson({ ...lesson, measurings: [changed as never] }, front, readMeasuring)?.trace).toBeNull();
  });

  test('names what was marked and in no frame followed', () => {
    const without = fullMeasuring();
    const frames = swayingTrace(5).frames.map(({ points: { 'ear-left': _, ...points }, ...frame }) => ({ ...frame, points }));
    without.sources[0]!.trace = packTrace({ view: 'front', frames });
    expect(filmInLesson({ ...lesson, measurings: [without as never] }, front, readMeasuring)!.notFollowed).toEqual(['ear-left']);
  });

  test('a lens that a person told is told again, an assumed one is not', () => {
    const { focalPx, focalRelativeSd } = lensCamera(front, 31);
    const told = fullMeasuring();
    Object.assign(told.sources[0]!, { focalPx, focalRelativeSd });
    const lens = filmInLesson({ ...lesson, measurings: [told] }, front, readMeasuring)!.lensMm!;
    // Through pixels and back: rounding alone.
    expectWithin(lens, 31, { abs: 1e-9 }, 'lens, mm');
    Object.assign(told.sources[0]!, lensCamera(front, null));
    const assumed = { ...told, sources: [...told.sources] };
    expect(filmInLesson({ ...lesson, measurings: [assumed as never] }, front, readMeasuring)!.lensMm).toBeNull();
  });

  test('marks put since are told apart from those that are kept', () => {
    const kept = found(front)!;
    expect(areAnchorsKept(structuredClone(kept.anchors), kept)).toBe(true);
    const [first, ...others] = kept.anchors;
    expect(areAnchorsKept([{ ...first!, marks: withMark(first!.marks, 'rim-0', { x: 1, y: 1 }) }, ...others], kept)).toBe(false);
  });
});

describe('opening a film that a lesson has measured', () => {
  const hear = vi.fn(() => Promise.resolve(null));
  const work = (file: FileMark): FilmWork => ({
    facts: { startS: 0, endS: 30, width: 1280, height: 720, sound: {}, told: [] } as never,
    frameTimesS: Float64Array.from({ length: 5 }, (_, at) => at / 30),
    frame: () => Promise.resolve(null),
    overview: () => Promise.resolve(null),
    hear,
    sound: () => Promise.resolve(null),
    align: () => Promise.reject(new Error(`${file.name}: its offset is kept`)),
    follow: () => Promise.reject(new Error('what was followed is kept')),
    head: () => Promise.resolve({ kind: 'not-found', reason: 'not-settled' }) as never,
    close: () => undefined,
  });
  const made = (isWished = false, storage: Pick<Storage, 'getItem' | 'setItem'> | null = null): FilmingStore => {
    let count = 0;
    return createFilming({
      open: (file) => {
        const mark: FileMark = { ...(file.name === 'front' ? front : side), name: file.name };
        return Promise.resolve({ kind: 'film', work: work(mark), file: mark });
      },
      snap: (_, point) => point,
      greyOf: () => ({ width: 1, height: 1, luma: new Uint8Array(1) }),
      align: () => Promise.reject(new Error('the offset is kept')),
      keeper: createAnchorsKeeper(storage),
      keptElsewhere: (file) => {
        const film = found(file);
        return film === null ? null : { film, isWished };
      },
      outerDiameterMm: () => 27,
      rest: (later) => later(),
      newId: () => `new-${count++}`,
    });
  };
  const files = (...names: string[]): File[] => names.map((name) => new File(['x'], name));
  const range = { lowMidi: 40, highMidi: 80 };

  test('nothing is heard, followed or matched again, and what is accepted takes the place of what was', async () => {
    const store = made();
    await store.getState().open(files('front', 'side'), range);
    const { films, notes, tuningCents, measuringId, refusals } = store.getState();
    expect(refusals).toEqual([]);
    expect(hear).not.toHaveBeenCalled();
    expect(films.map(({ offsetS }) => offsetS)).toEqual([0, -1.204]);
    expect(films[0]!.followed?.anchors).toBe(films[0]!.anchors.present);
    // Worked out anew from the trace.
    expect(films[0]!.followed?.head?.kind).toBe('not-found');
    expect(notes.present.length).toBe(2);
    expect(tuningCents).toBe(-12.5);
    expect(measuringId).toBe('measuring-1');
  });

  test('with one of its films missing it is a measuring of its own: accepted, it must not lose the other film', async () => {
    const store = made();
    await store.getState().open(files('front'), range);
    expect(store.getState().measuringId).toBe('new-0');
    expect(store.getState().films[0]!.followed).not.toBeNull();
  });

  test('marks put since stay, and are not yet followed; unless that very measuring is wished for', async () => {
    const kept = new Map<string, string>();
    const storage = { getItem: (key: string) => kept.get(key) ?? null, setItem: (key: string, value: string) => void kept.set(key, value) };
    createAnchorsKeeper(storage).keep(front, { view: 'front', anchors: [{ timeS: 1, marks: withMark(NO_MARKS, 'rim-0', { x: 5, y: 6 }) }] });
    const mine = made(false, storage);
    await mine.getState().open(files('front'), range);
    expect(mine.getState().films[0]!.anchors.present.map(({ timeS }) => timeS)).toEqual([1]);
    expect(mine.getState().films[0]!.followed?.anchors).not.toBe(mine.getState().films[0]!.anchors.present);
    const wished = made(true, storage);
    await wished.getState().open(files('front'), range);
    expect(wished.getState().films[0]!.anchors.present.map(({ timeS }) => timeS)).toEqual([0.5, 12.25]);
  });
});
