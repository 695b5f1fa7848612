import { describe, expect, it } from 'vitest';
import { HORN_SD_DEG, TRAVEL_SD_MM, branchesOf, poolReadings, sdsAsKept, travelSds, UNSEEN_HORN_SD_DEG, isAngleSeen } from '../../../src/core/readings';
import type { PlayerRecord, ReadingSpec } from '../../../src/core/specs';
import { expectWithin } from '../../support/expectWithin';
import { defaultRecord } from '../../support/records';

const withReadings = (...readings: ReadingSpec[]): PlayerRecord => ({ ...defaultRecord('trumpet'), readings });
const at = (note: string, upMm: number, rightMm: number, sdMm?: number): ReadingSpec => ({
  note,
  travel: { upMm, rightMm, ...(sdMm === undefined ? {} : { sdMm }) },
});
const ROUNDING = 1e-12;

describe('two readings of one note', () => {
  it('are weighted by 1/sd² and come out more certain than either', () => {
    const [pooled] = poolReadings(withReadings(at('F4', 1, 0, 1), at('F4', 4, 3, 0.5)));
    // Weights 1 and 4: (1 + 4·4)/5 and (0 + 4·3)/5, deviation √(1/5).
    expectWithin(pooled!.travel.upMm, 3.4, { abs: ROUNDING });
    expectWithin(pooled!.travel.rightMm, 2.4, { abs: ROUNDING });
    expectWithin(pooled!.travel.sdMm, Math.sqrt(0.2), { abs: ROUNDING });
    expect(pooled!.sources).toEqual([0, 1]);
  });

  it('are weighted up and to the right each by its own deviation', () => {
    const [pooled] = poolReadings(withReadings({ ...at('F4', 1, 0), travel: { upMm: 1, rightMm: 0, sdMm: 1, rightSdMm: 0.5 } }, at('F4', 4, 3, 0.5)));
    expectWithin(pooled!.travel.upMm, 3.4, { abs: ROUNDING });
    expectWithin(pooled!.travel.sdMm, Math.sqrt(0.2), { abs: ROUNDING });
    expectWithin(pooled!.travel.rightMm, 1.5, { abs: ROUNDING });
    expectWithin(pooled!.travel.rightSdMm, Math.sqrt(0.125), { abs: ROUNDING });
  });

  it('spelt differently are one note; played up and down are two', () => {
    const pooled = poolReadings(
      withReadings({ ...at('F#4', 1, 0, 1), direction: 'up' }, { ...at('Gb4', 3, 0, 1), direction: 'up' }, { ...at('F#4', 9, 0, 1), direction: 'down' }),
    );
    expect(pooled.map(({ direction, travel, sources }) => [direction, travel.upMm, sources])).toEqual([
      ['up', 2, [0, 1]],
      ['down', 9, [2]],
    ]);
  });

  it('pool their horn angles by the angles’ own deviations', () => {
    const horn = (elevationDeg: number, sdDeg?: number) => ({ elevationDeg, lateralDeg: 0, ...(sdDeg === undefined ? {} : { sdDeg }) });
    const [pooled] = poolReadings(withReadings({ ...at('F4', 0, 0, 1), horn: horn(-8, 1) }, { ...at('F4', 0, 0, 1), horn: horn(-2) }));
    const weight = 1 / HORN_SD_DEG ** 2;
    expectWithin(pooled!.measured!.elevationDeg, (-8 - 2 * weight) / (1 + weight), { abs: ROUNDING });
    expectWithin(pooled!.measured!.sdDeg, Math.sqrt(1 / (1 + weight)), { abs: ROUNDING });
  });

  it('pool each horn angle by its own deviations, and an angle that was not seen by none', () => {
    const horn = (elevationDeg: number, sdDeg: number, lateralDeg: number, lateralSdDeg: number) => ({ elevationDeg, sdDeg, lateralDeg, lateralSdDeg });
    const [pooled] = poolReadings(
      withReadings(
        { ...at('F4', 0, 0, 1), horn: horn(-8, 1, 3, 2) },
        { ...at('F4', 0, 0, 1), horn: horn(-4, 1, 0, UNSEEN_HORN_SD_DEG) },
      ),
    );
    expectWithin(pooled!.measured!.elevationDeg, -6, { abs: ROUNDING });
    expectWithin(pooled!.measured!.sdDeg, Math.SQRT1_2, { abs: ROUNDING });
    expect(pooled!.measured).toMatchObject({ lateralDeg: 3, lateralSdDeg: 2 });
    const [unseen] = poolReadings(withReadings(...[1, 2].map(() => ({ ...at('F4', 0, 0, 1), horn: horn(-4, 1, 0, UNSEEN_HORN_SD_DEG) }))));
    expect(isAngleSeen(unseen!.measured!.lateralSdDeg)).toBe(false);
  });

  it('leave a third note alone, in the order in which notes first appear', () => {
    const pooled = poolReadings(withReadings(at('B4', 5, 5), at('F4', 1, 0), at('B4', 7, 5)));
    expect(pooled.map(({ note, sources }) => [note, sources])).toEqual([['B4', [0, 2]], ['F4', [1]]]);
    expect(pooled[0]!.travel.upMm).toBe(6);
  });
});

describe('what a reading does not say', () => {
  it('has the method’s deviation: eye 1.5 mm, ruler 1 mm, video 0.3 mm', () => {
    expect(TRAVEL_SD_MM).toEqual({ eye: 1.5, ruler: 1, video: 0.3, picture: 0.7 });
    const sds = poolReadings(withReadings({ ...at('C4', 0, 0), method: 'eye' }, { ...at('D4', 0, 0), method: 'video' }, at('E4', 0, 0)));
    expect(sds.map(({ travel }) => travel.sdMm)).toEqual([1.5, 0.3, 1]);
    expect(sds.map(({ travel }) => travel.rightSdMm)).toEqual([1.5, 0.3, 1]);
    expect(travelSds({ ...at('C4', 0, 0), method: 'eye', travel: { upMm: 0, rightMm: 0, rightSdMm: 0.2 } })).toEqual({ sdMm: 1.5, rightSdMm: 0.2 });
    expect([sdsAsKept(0.3, 0.3), sdsAsKept(0.3, 0.1)]).toEqual([{ sdMm: 0.3 }, { sdMm: 0.3, rightSdMm: 0.1 }]);
  });

  it('is as in the record: force and jaw; a jaw seen in part keeps the rest', () => {
    const record = withReadings(at('C4', 0, 0), { ...at('D4', 0, 0), jaw: { openingMm: 9 }, force: { newtons: 31 } });
    const [plain, seen] = poolReadings(record);
    if ('single' in record.arch) throw new Error('two jaws');
    expect([plain!.jaw, plain!.jawKnown, plain!.forceN]).toEqual([null, false, record.force.newtons]);
    expect([seen!.jaw, seen!.jawKnown, seen!.forceN]).toEqual([{ ...record.arch.jaw, openingMm: 9 }, true, 31]);
  });
});

describe('branches', () => {
  const reading = (midi: number, direction: 'up' | 'down' | null) => ({ midi, direction });
  it('are one rising path without directions', () => {
    expect(branchesOf([reading(60, null), reading(50, null), reading(55, null)])).toEqual([{ direction: null, order: [1, 2, 0] }]);
  });

  it('are one for each direction; what has none belongs to both, unless the note was seen in that direction', () => {
    expect(branchesOf([reading(60, 'up'), reading(60, 'down'), reading(50, null), reading(60, null)])).toEqual([
      { direction: 'up', order: [2, 0] },
      { direction: 'down', order: [2, 1] },
    ]);
  });
});
