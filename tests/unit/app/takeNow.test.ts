import { describe, expect, test } from 'vitest';
import type { FilmSource, FilmingState } from '../../../src/app/filmingTypes';
import { startHistory } from '../../../src/app/history';
import { acceptTake, filmShown, noteSeen } from '../../../src/app/takeNow';
import { type TakeShown, curvesOf } from '../../../src/app/takeResults';
import type { AppStore } from '../../../src/app/store';
import { recordOf } from '../../../src/core/lessons';
import type { PlayerSpec } from '../../../src/core/specs';
import type { MeasuredNote } from '../../../src/measure/takeReadings';
import { NO_MARKS } from '../../../src/notebook/measure/marksEdits';
import { readMeasuring } from '../../../src/records/measuringSchema';
import { defaultRecord, playerOf } from '../../support/records';

const point = { x: 1, y: 2 };
const anchors = startHistory([
  { timeS: 0.5, marks: { ...NO_MARKS, rim: [point, point, point, point, point, point] } },
  { timeS: 2, marks: { ...NO_MARKS, rim: [point] } },
]);
const film = {
  ...{ id: 'front', file: { name: 'front.mp4', bytes: 9, digest: '0123456789abcdef' }, view: 'front', hornMarkMm: null, lensMm: null, offsetS: 0, offsetWords: '', anchors },
  work: { facts: { startS: 0, endS: 4, width: 1280, height: 720, told: [] } },
  followed: { trace: { view: 'front', frames: [] }, notFollowed: [], words: null, head: { kind: 'not-found', reason: 'sides-exchanged' }, anchors: anchors.present },
} as unknown as FilmSource;
const note: MeasuredNote = {
  ...{ note: { startS: 1, endS: 2, midi: 58, cents: 0 }, short: false, travel: { upMm: 1, rightMm: -0.5, sdMm: 0.2, rightSdMm: 0.2, frames: 9 }, elevation: 'lost', lateral: { value: 3, sd: 1, frames: 9 }, lostPart: 0 },
};
const take: TakeShown = {
  notes: [note],
  notesOf: new Map([['front', [note]]]),
  samplesOf: new Map([['front', [{ timeS: 1, travel: { upMm: 1, rightMm: -0.5, sdMm: 0.2, rightSdMm: 0.2 }, elevation: null, lateral: { deg: 3, sdDeg: 1 } }]]]),
};

describe('what is shown of a film', () => {
  test('marks that seem exchanged may be a mirror image, and a rim of too few points is said to change nothing', () => {
    const { problems, isBehind } = filmShown(film, true, take).followed!;
    expect(problems.join(' ')).toContain('If the film is a mirror image');
    expect(problems.join(' ')).toContain('At 2.00 s of the film the rim has 1 point');
    expect(isBehind).toBeNull();
  });

  test('another view chosen since, or other marks, are said apart', () => {
    expect(filmShown({ ...film, view: 'above' }, true, take).followed!.isBehind).toBe('view');
    expect(filmShown({ ...film, anchors: startHistory([]) }, true, take).followed!.isBehind).toBe('marks');
  });

  test('travel to the side has the sign that the reader has chosen, the horn’s angle the player’s own', () => {
    const rightOf = (sideways: 'player' | 'mirror' | 'facing'): readonly (number | null | undefined)[] => [
      noteSeen(note, [], sideways).travel?.rightMm,
      noteSeen(note, [], sideways).lateral?.deg,
      ...curvesOf(film, take, sideways).flatMap(({ curves }) => curves.filter(({ id }) => id === 'right' || id === 'lateral').map(({ points }) => points[0]!.value)),
    ];
    expect(rightOf('player')).toEqual([-0.5, 3, -0.5, 3]);
    expect(rightOf('facing')).toEqual([0.5, 3, 0.5, 3]);
  });
});

describe('a take is accepted', () => {
  const player = playerOf(defaultRecord('trumpet'));
  const accepted = (films: readonly FilmSource[], faultOfPlayer: () => string | null = () => null) => {
    const changed: PlayerSpec[] = [];
    const [lesson] = player.lessons;
    const state = { record: recordOf(player, lesson!), player, lesson: lesson!, changePlayer: (edit: (before: PlayerSpec) => PlayerSpec) => void changed.push(edit(player)) };
    const page = { getState: () => state } as unknown as AppStore;
    const keeping = { faultOfMeasuring: () => null, faultOfPlayer, readMeasuring };
    const answer = acceptTake(page, { films, measuringId: 'm', tuningCents: null } as unknown as FilmingState, take, 58, { keeping, nameOf: () => 'Bb3', newId: () => 'new' });
    return { ...answer, changed };
  };

  test('in one step, with what it was measured from', () => {
    const { isTaken, changed } = accepted([film]);
    expect([isTaken, changed[0]?.lessons[0]?.measurings?.map(({ id }) => id)]).toEqual([true, ['m']]);
  });

  test('not by another view than it was followed in, nor where the player could not be kept with it', () => {
    const turned = accepted([{ ...film, view: 'above' }]);
    expect([turned.isTaken, turned.changed]).toEqual([false, []]);
    expect(turned.words).toContain('front.mp4: since it was followed another view was chosen');
    expect(accepted([film], () => 'lessons[0]: too much')).toMatchObject({ isTaken: false, words: 'Not accepted: lessons[0]: too much.', changed: [] });
  });
});
