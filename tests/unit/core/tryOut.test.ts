import { describe, expect, it } from 'vitest';
import { analyse, homePlace } from '../../../src/core/analyse';
import { computeBands } from '../../../src/core/bands';
import { lipLineOffset, shareByDiameter } from '../../../src/core/lipLine';
import type { PlayerRecord, ReadingSpec, TryOutChange, TryOutSpec } from '../../../src/core/specs';
import { TryOutRefusedError, recordOfTryOut } from '../../../src/core/tryOut';
import { compareTryOut } from '../../../src/core/tryOutComparison';
import type { NoteCompared, TryOutCompared } from '../../../src/core/tryOutShapes';
import { demoPlayers } from '../../../src/records/library';
import { expectWithin } from '../../support/expectWithin';

const { record } = demoPlayers[0]!;
const analysis = analyse(record);

const tryOutOf = (change: TryOutChange, readings: readonly ReadingSpec[] = record.readings): TryOutSpec => ({ id: 'one', change, readings });

function compared(from: PlayerRecord, tryOut: TryOutSpec): TryOutCompared {
  const comparison = compareTryOut(from === record ? analysis : analyse(from), tryOut);
  if (comparison.kind !== 'compared') throw new Error(comparison.words);
  return comparison;
}

const at = ({ notes }: TryOutCompared, note: string): NoteCompared => notes.find((each) => each.note === note)!;

describe('a try-out as a record', () => {
  it('places the rim higher with the line between the lips where it was', () => {
    const placed = recordOfTryOut(record, tryOutOf({ kind: 'place-rim', upMm: 2 }));
    expectWithin(homePlace(placed).upMm, homePlace(record).upMm + 2, { abs: 1e-12 }, 'home');
    expectWithin(shareByDiameter(placed.upperLipShare), shareByDiameter(record.upperLipShare) + 2 / record.rim.innerDiameterMm, { abs: 1e-12 }, 'share');
    const lineBefore = homePlace(record).upMm + lipLineOffset(record.rim, record.upperLipShare);
    expectWithin(homePlace(placed).upMm + lipLineOffset(placed.rim, placed.upperLipShare), lineBefore, { abs: 1e-12 }, 'line between the lips');
  });

  it('changes nothing of the mouth for a change of the horn', () => {
    const held = recordOfTryOut(record, tryOutOf({ kind: 'hold-horn' }, []));
    expect(held).toEqual({ ...record, readings: [] });
  });

  it.each([20, -20])('refuses a rim placed %d mm off, in words', (upMm) => {
    const tryOut = tryOutOf({ kind: 'place-rim', upMm });
    expect(() => recordOfTryOut(record, tryOut)).toThrow(TryOutRefusedError);
    const comparison = compareTryOut(analysis, tryOut);
    expect(comparison.kind === 'refused' && comparison.words).toMatch(/one lip only/);
  });
});

describe('what the model expected', () => {
  it('of a horn held still: no change of the angle, and the held loads', () => {
    const comparison = compared(record, tryOutOf({ kind: 'hold-horn' }));
    analysis.readings.forEach((reading) => {
      const { expected } = at(comparison, reading.note);
      expect(expected!.hornChange).toEqual({ elevationDeg: 0, lateralDeg: 0, elevationSdDeg: 0, lateralSdDeg: 0 });
      expect(expected!.loadAsUsual.share).toEqual(reading.follow.load.share);
      expectWithin(expected!.loadTried.share.upper, reading.held.load.share.upper, { abs: 1e-6 }, `${reading.note}: upper share`);
    });
  });

  it('of a horn that follows: the changes from home with their bands', () => {
    const comparison = compared(record, tryOutOf({ kind: 'let-horn-follow' }));
    const bands = computeBands(analysis);
    analysis.readings.forEach((reading, index) => {
      const { hornChange, loadAsUsual } = at(comparison, reading.note).expected!;
      expectWithin(hornChange.elevationDeg, reading.changeFromHome.elevationDeg, { abs: 1e-6 }, `${reading.note}: elevation`);
      expectWithin(hornChange.lateralSdDeg, bands[index]!.change.lateralSdDeg, { abs: 1e-6 }, `${reading.note}: deviation`);
      expect(loadAsUsual.share).toEqual(reading.held.load.share);
    });
  });

  it('of a rim placed 1 mm higher: the difference of two analyses', () => {
    const tryOut = tryOutOf({ kind: 'place-rim', upMm: 1 });
    const comparison = compared(record, tryOut);
    const placed = analyse(recordOfTryOut(record, tryOut));
    const home = at(comparison, record.home!.note!).expected!;
    expectWithin(home.hornChange.elevationDeg, placed.home.follow.pose.elevationDeg - analysis.home.follow.pose.elevationDeg, { abs: 1e-6 }, 'home');
    expect(Math.abs(home.hornChange.elevationDeg)).toBeGreaterThan(0.3);
    placed.readings.forEach((reading, index) => {
      const { hornChange } = at(comparison, reading.note).expected!;
      const before = analysis.readings[index]!;
      expectWithin(hornChange.lateralDeg, reading.follow.pose.lateralDeg - before.follow.pose.lateralDeg, { abs: 1e-6 }, `${reading.note}: lateral`);
      expect(hornChange.elevationSdDeg).toBeGreaterThan(0);
    });
  });

  it('of a rim placed where it was: nothing, and for sure', () => {
    for (const { expected } of compared(record, tryOutOf({ kind: 'place-rim', upMm: 0 })).notes) {
      expectWithin(expected!.hornChange.elevationDeg, 0, { abs: 1e-9 }, 'elevation');
      expectWithin(expected!.hornChange.elevationSdDeg, 0, { abs: 1e-9 }, 'its deviation');
    }
  });

  it('of a horn brought round: by nothing it is held still; to the right it weighs on the right', () => {
    const held = compared(record, tryOutOf({ kind: 'hold-horn' }));
    const none = compared(record, tryOutOf({ kind: 'bring-horn-round', lateralDeg: 0 }));
    const round = compared(record, tryOutOf({ kind: 'bring-horn-round', lateralDeg: 2 }));
    held.notes.forEach((note, index) => {
      const still = none.notes[index]!.expected!;
      expectWithin(still.loadTried.share.right, note.expected!.loadTried.share.right, { abs: 1e-6 }, `${note.note}: right share`);
      const { hornChange, loadTried } = round.notes[index]!.expected!;
      expect(hornChange.lateralDeg).toBe(2);
      expect(Math.abs(loadTried.share.right - still.loadTried.share.right)).toBeGreaterThan(0.02);
    });
  });

  it('on a flat plate: nothing turns wherever the rim is placed, exactly', () => {
    const plate: PlayerRecord = { ...record, arch: { single: { form: { kind: 'line' }, profile: { kind: 'straight' } } }, readings: record.readings.map(({ jaw: _jaw, ...reading }) => reading) };
    for (const change of [{ kind: 'place-rim', upMm: 1.5 }, { kind: 'let-horn-follow' }] as const) {
      for (const { expected } of compared(plate, tryOutOf(change, plate.readings)).notes) {
        // Two unlike lips tilt the rim about the line between them; the line moves with the share.
        if (change.kind === 'let-horn-follow') expectWithin(expected!.hornChange.elevationDeg, 0, { abs: 1e-6 }, 'elevation');
        expectWithin(expected!.hornChange.lateralDeg, 0, { abs: 1e-6 }, 'lateral');
      }
    }
  });

  it('in a mirror: lateral angles and sides change sign, nothing else', () => {
    const mirrored = (readings: readonly ReadingSpec[]): ReadingSpec[] =>
      readings.map((reading) => ({
        ...reading,
        ...(reading.travel && { travel: { ...reading.travel, rightMm: -reading.travel.rightMm } }),
        ...(reading.horn && { horn: { ...reading.horn, lateralDeg: -reading.horn.lateralDeg } }),
      }));
    const mirror: PlayerRecord = { ...record, home: { ...record.home, rightMm: -(record.home?.rightMm ?? 0) }, readings: mirrored(record.readings) };
    const one = compared(record, tryOutOf({ kind: 'bring-horn-round', lateralDeg: 2 }));
    const other = compared(mirror, tryOutOf({ kind: 'bring-horn-round', lateralDeg: -2 }, mirror.readings));
    one.notes.forEach((note, index) => {
      const reflected = other.notes[index]!;
      expectWithin(reflected.expected!.loadTried.share.left, note.expected!.loadTried.share.right, { abs: 1e-6 }, `${note.note}: share`);
      expectWithin(reflected.expected!.loadTried.momentNmm.lateral, -note.expected!.loadTried.momentNmm.lateral, { abs: 1e-4 }, `${note.note}: moment`);
      if (note.seen) expectWithin(reflected.seen!.lateralDeg, -note.seen.lateralDeg, { abs: 1e-12 }, `${note.note}: seen`);
    });
  });
});

describe('what was seen', () => {
  const lesson: PlayerRecord = {
    ...record,
    home: { ...record.home, note: 'F4' },
    readings: [
      { note: 'F4', travel: { upMm: 0, rightMm: 0, sdMm: 0.3 }, horn: { elevationDeg: -5, lateralDeg: 1, sdDeg: 1 }, ease: 4, jaw: { openingMm: 6 } },
      { note: 'C5', travel: { upMm: 1.5, rightMm: 0.5, sdMm: 0.3 }, horn: { elevationDeg: -3, lateralDeg: 2, sdDeg: 1 }, ease: 3, airstream: 'down' },
      { note: 'F5', travel: { upMm: 2.5, rightMm: 0.8, sdMm: 0.3 }, ease: 2 },
    ],
  };
  const tryOut = tryOutOf({ kind: 'hold-horn' }, [
    { note: 'F4', horn: { elevationDeg: -6, lateralDeg: 1, sdDeg: 1 }, ease: 4 },
    { note: 'C5', horn: { elevationDeg: -5.5, lateralDeg: 1.5, sdDeg: 1 }, ease: 4, take: 1, remark: 'freer' },
    { note: 'C5', horn: { elevationDeg: -6.5, lateralDeg: 0.5, sdDeg: 1 }, ease: 5, take: 2, airstream: 'unsure' },
    { note: 'G5', travel: { upMm: 3, rightMm: 1, sdMm: 0.4, rightSdMm: 0.2 }, ease: 1 },
  ]);
  const comparison = compared(lesson, tryOut);

  it('stands side by side, takes together, rising in pitch', () => {
    expect(comparison.notes.map(({ note, asUsual, tried }) => [note, asUsual !== null, tried !== null])).toEqual([
      ['F4', true, true], ['C5', true, true], ['F5', true, false], ['G5', false, true],
    ]);
    const { tried } = at(comparison, 'C5');
    expect(tried).toMatchObject({ takes: 2, travel: null, ease: 4.5, remarks: ['freer'], airstream: { down: 0, up: 0, unsure: 1 } });
    expectWithin(tried!.horn!.elevationDeg, -6, { abs: 1e-12 }, 'mean of two takes');
    expectWithin(tried!.horn!.sdDeg, Math.SQRT1_2, { abs: 1e-12 }, 'its deviation');
  });

  it('keeps the deviations of travel up and to the right apart', () => {
    expect(at(comparison, 'G5').tried!.travel).toEqual({ upMm: 3, rightMm: 1, sdMm: 0.4, rightSdMm: 0.2 });
    expect(at(comparison, 'F5').asUsual!.travel).toMatchObject({ sdMm: 0.3, rightSdMm: 0.3 });
  });

  it('counts the horn from home in the try-out itself', () => {
    const { seen } = at(comparison, 'C5');
    expectWithin(seen!.elevationDeg, 0, { abs: 1e-12 }, 'change');
    expectWithin(seen!.elevationSdDeg, Math.sqrt(1.5), { abs: 1e-12 }, 'deviation');
    expect(at(comparison, 'F4').seen).toBeNull();
    expect(at(comparison, 'F5').seen).toBeNull();
  });

  it('has an expectation at every note with a travel on either side', () => {
    expect(comparison.notes.every(({ expected }) => expected !== null)).toBe(true);
    expect(at(compared(lesson, tryOutOf({ kind: 'hold-horn' }, [{ note: 'A5', ease: 3 }])), 'A5').expected).toBeNull();
  });

  it('compares ease over the notes that have it on both sides, with its spread', () => {
    expect(comparison.ease).toEqual({ notes: 2, meanDifference: 0.75, spread: Math.sqrt(1.125) });
    expect(compared(lesson, tryOutOf({ kind: 'hold-horn' }, [{ note: 'F4', ease: 5 }])).ease).toEqual({ notes: 1, meanDifference: 1, spread: null });
    expect(compared(lesson, tryOutOf({ kind: 'hold-horn' }, [])).ease).toBeNull();
  });

  it('names the notes at which the rim finds no seat', () => {
    const far = compared(lesson, tryOutOf({ kind: 'hold-horn' }, [{ note: 'C6', travel: { upMm: 60, rightMm: 0 } }]));
    expect(at(far, 'C6').expected).toBeNull();
    expect(far.problems.join()).toMatch(/^C6 as/);
  });
});
