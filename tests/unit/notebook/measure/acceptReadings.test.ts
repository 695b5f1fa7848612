import { describe, expect, test } from 'vitest';
import { UNSEEN_HORN_SD_DEG } from '../../../../src/core/readings';
import type { ReadingSpec } from '../../../../src/core/specs';
import type { PictureResult } from '../../../../src/measure/pictureResult';
import { type MeasuredPicture, acceptInto, measuredNotes } from '../../../../src/notebook/measure/acceptReadings';
import { linesSaid, notSure, problemSaid, resultLines } from '../../../../src/notebook/measure/resultWords';

const NOTHING: PictureResult = { ellipse: null, share: null, elevation: null, lateral: null, travel: null, problems: [] };
const front = (note: string | null, upMm: number, rightMm: number, sdMm = 0.3, rightSdMm = sdMm): MeasuredPicture => ({
  note,
  result: { ...NOTHING, travel: { upMm, rightMm, sdMm, rightSdMm }, lateral: { deg: 2, sdDeg: 3 } },
});
const side = (note: string | null, deg: number): MeasuredPicture => ({ note, result: { ...NOTHING, elevation: { deg, sdDeg: 0.8 } } });

const taken = (readings: readonly ReadingSpec[], pictures: readonly MeasuredPicture[]): readonly ReadingSpec[] => {
  const accepted = acceptInto(readings, measuredNotes(pictures, 'diameter'), 'm', 'F4');
  if (accepted.kind === 'refused') throw new Error(accepted.words);
  return accepted.readings;
};

const FROM = { measuring: 'm' };

describe('pictures accepted as readings', () => {
  test('those of one note become one reading, measured from pictures', () => {
    const pictures = [front('F4', 0, 0), front('C5', 3, -0.5, 0.5, 0.234), side('C5', 6)];
    expect(taken([], pictures)).toEqual([
      { note: 'F4', travel: { upMm: 0, rightMm: 0, sdMm: 0.3 }, horn: { elevationDeg: 0, lateralDeg: 2, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 3 }, method: 'picture', from: FROM },
      { note: 'C5', travel: { upMm: 3, rightMm: -0.5, sdMm: 0.5, rightSdMm: 0.23 }, horn: { elevationDeg: 6, lateralDeg: 2, sdDeg: 0.8, lateralSdDeg: 3 }, method: 'picture', from: { measuring: 'm', source: 1 } },
    ]);
  });

  test('a note that waits unseen is filled where it stands; another becomes a further take', () => {
    const readings: ReadingSpec[] = [{ note: 'F4', direction: 'up', take: 2 }, { note: 'C5', travel: { upMm: 1, rightMm: 0 } }];
    const next = taken(readings, [front('F4', 0, 0), front('C5', 2, 0)]);
    expect(next[0]).toMatchObject({ note: 'F4', direction: 'up', take: 2, travel: { upMm: 0 } });
    expect(next[1]).toBe(readings[1]);
    expect(next[2]).toMatchObject({ note: 'C5', take: 3, travel: { upMm: 2 } });
  });

  test('one angle alone goes in, and the other stands as at home, unseen', () => {
    const home: MeasuredPicture = { note: 'F4', result: { ...NOTHING, elevation: { deg: -2, sdDeg: 1 }, lateral: { deg: 4, sdDeg: 1 } } };
    expect(taken([], [home, side('C5', 6)])[1]?.horn).toEqual({ elevationDeg: 6, lateralDeg: 4, sdDeg: 0.8, lateralSdDeg: UNSEEN_HORN_SD_DEG });
    expect(taken([], [side('C5', 6)])[0]?.horn).toEqual({ elevationDeg: 6, lateralDeg: 0, sdDeg: 0.8, lateralSdDeg: UNSEEN_HORN_SD_DEG });
    // Where nobody saw any angle there is still no horn.
    expect(taken([], [{ note: 'C5', result: { ...NOTHING, travel: { upMm: 1, rightMm: 0, sdMm: 0.3, rightSdMm: 0.3 } } }])[0]?.horn).toBeUndefined();
  });

  test('the other angle stays where the very reading has it, and is not copied from another, which would count it twice', () => {
    const typed: ReadingSpec[] = [{ note: 'C5', horn: { elevationDeg: 1, lateralDeg: 4, sdDeg: 2 } }];
    expect(taken(typed, [side('C5', 6)])[1]?.horn).toEqual({ elevationDeg: 6, lateralDeg: 0, sdDeg: 0.8, lateralSdDeg: UNSEEN_HORN_SD_DEG });
    const own: ReadingSpec[] = [{ ...typed[0]!, from: FROM }];
    expect(taken(own, [side('C5', 6)])).toEqual([{ note: 'C5', horn: { elevationDeg: 6, lateralDeg: 4, sdDeg: 0.8, lateralSdDeg: 2 }, method: 'picture', from: FROM }]);
  });

  test('where nothing was seen yet a note that has no row is of the same take', () => {
    const next = taken([{ note: 'F4' }], [front('F4', 0, 0), front('C5', 2, 0)]);
    expect(next.map(({ note, take }) => [note, take])).toEqual([['F4', undefined], ['C5', undefined]]);
    // Accepted once more with a note that was opened since.
    expect(taken(next, [front('F4', 0, 0), front('C5', 2, 0), front('D5', 3, 0)]).map(({ take }) => take)).toEqual([undefined, undefined, undefined]);
  });

  test('leads back to the picture that its travel was taken from, not to the first of the note', () => {
    const next = taken([], [front('C5', 2, 0, 0.9), front('C5', 3, 0, 0.2), side('C5', 6)]);
    expect(next[0]).toMatchObject({ travel: { upMm: 3 }, from: { source: 1 } });
    // By both deviations together: 0.5 up and 0.1 to the right are surer than 0.4 either way.
    const [sure, level] = [front('C5', 2, 0, 0.5, 0.1), front('C5', 3, 0, 0.4)];
    expect(taken([], [level, sure])[0]).toMatchObject({ travel: { upMm: 2, sdMm: 0.5, rightSdMm: 0.1 } });
  });

  test('the surest of several pictures counts, and a picture without a note does not', () => {
    const unsure: MeasuredPicture = { note: 'C5', result: { ...NOTHING, elevation: { deg: 20, sdDeg: 5 } } };
    const above: MeasuredPicture = { note: 'C5', result: { ...NOTHING, lateral: { deg: -3, sdDeg: 1 } } };
    const next = taken([], [unsure, side('C5', 6), above, front(null, 9, 9)]);
    expect(next).toEqual([{ note: 'C5', horn: { elevationDeg: 6, lateralDeg: -3, sdDeg: 0.8, lateralSdDeg: 1 }, method: 'picture', from: { ...FROM, source: 1 } }]);
  });

  test('the share goes in as the lesson counts it', () => {
    const share = { diameter: { value: 0.6, sd: 0.02 }, arc: { value: 0.56, sd: 0.02 }, area: { value: 0.62, sd: 0.02 } };
    const accepted = acceptInto([], measuredNotes([{ note: 'F4', result: { ...NOTHING, share } }], 'arc'), 'm', null);
    expect(accepted).toMatchObject({ readings: [{ note: 'F4', upperLipShare: 0.56 }] });
  });

  test('accepted once more, a measuring takes the place of its own readings', () => {
    const once = taken([], [front('F4', 0, 0), front('C5', 2, 0)]);
    const again = taken(once, [front('F4', 0, 0), front('C5', 2.5, 0)]);
    expect(again).toHaveLength(2);
    expect(again[1]).toMatchObject({ note: 'C5', travel: { upMm: 2.5 }, from: { measuring: 'm', source: 1 } });
  });

  test('more than a lesson holds is refused whole', () => {
    const full: ReadingSpec[] = Array.from({ length: 200 }, () => ({ note: 'F4', travel: { upMm: 0, rightMm: 0 } }));
    expect(acceptInto(full, measuredNotes([front('F4', 0, 0)], 'diameter'), 'm', 'F4')).toMatchObject({ kind: 'refused' });
  });
});

describe('words', () => {
  const result: PictureResult = { ...NOTHING, elevation: { deg: -3.04, sdDeg: 0.82 }, share: { diameter: { value: 0.634, sd: 0.021 }, arc: { value: 0.5, sd: 0.1 }, area: { value: 0.5, sd: 0.1 } } };

  const TRAVEL = { upMm: 2.96, rightMm: -0.5, sdMm: 0.4, rightSdMm: 0.7 };

  test('each number with its 95 % band', () => {
    expect(resultLines({ ...result, travel: TRAVEL }, false, 'diameter', 'player')).toEqual([
      { name: 'Travel up', value: '3.0 mm', margin: '± 0.8 mm' },
      { name: 'Travel to the player’s right', value: '−0.5 mm', margin: '± 1.4 mm' },
      { name: 'Horn up', value: '−3.0°', margin: '± 1.6°' },
      { name: 'Upper lip, by diameter', value: '63 %', margin: '± 4 %' },
    ]);
  });

  test('sideways as the reader types it', () => {
    expect(resultLines({ ...NOTHING, travel: TRAVEL }, false, 'diameter', 'facing')[1]).toMatchObject({ name: 'Travel right as you face the player', value: '0.5 mm' });
  });

  test('heard as a sentence', () => {
    expect(linesSaid(resultLines({ ...result, travel: TRAVEL }, true, 'diameter', 'player'))).toBe('Horn up −3.0° give or take 1.6°. Upper lip, by diameter 63 % give or take 4 %');
  });

  test('say what is missing and what is not sure', () => {
    expect(problemSaid({ kind: 'rim-points', have: 1, need: 5 })).toBe('The rim has 1 point: 5 are the least for its ellipse, 8 make it surer.');
    expect(problemSaid({ kind: 'head-points', have: 0, need: 6 })).toBe('The head has no marks: with 6 or more its turning is taken out, and travel can be told.');
    expect(problemSaid({ kind: 'head', reason: 'sides-exchanged' })).toContain('flip it in a picture program first');
    expect(notSure('above')).toContain('mirror image');
    expect(notSure('left')).toBe('A level line drawn otherwise shifts all angles alike; the changes from home stay.');
  });
});
