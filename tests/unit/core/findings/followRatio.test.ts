/** The follow ratio where it can be told, and what it asks for where it cannot. */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../../../src/core/analysis';
import { analyse } from '../../../../src/core/analyse';
import { type FollowRatios, followRatios } from '../../../../src/core/findings/followRatio';
import { UNSEEN_HORN_SD_DEG } from '../../../../src/core/readings';
import type { PlayerRecord, ReadingSpec } from '../../../../src/core/specs';
import { expectWithin } from '../../../support/expectWithin';
import { recordOnPath, withHorns } from '../../../support/simulatedPlayers';

const record = recordOnPath({ notes: 7, travelMm: 6, travelSdMm: 0.2, hornSdDeg: 0.5 });
const notes = record.readings.map(({ note }) => note);
const others = notes.filter((note) => note !== 'F4');
const change = (of: (reading: ReadingSpec) => ReadingSpec): PlayerRecord => ({ ...record, readings: record.readings.map(of) });
const withoutHorn = ({ horn: _seen, ...rest }: ReadingSpec): ReadingSpec => rest;
const withoutJaw = ({ jaw: _seen, ...rest }: ReadingSpec): ReadingSpec => rest;
const ratiosOf = (one: PlayerRecord): FollowRatios => followRatios(analyse(one));
const swungBy = (analysis: Analysis, ratio: number): FollowRatios =>
  followRatios(withHorns(analysis, analysis.readings.map(({ changeFromHome: { elevationDeg, lateralDeg } }) => ({
    elevationDeg: 4 + ratio * elevationDeg, lateralDeg: -3 + ratio * lateralDeg,
  }))));

describe('the follow ratio', () => {
  it.each([1, 0.4, 0, -0.5])('is %d for a horn that goes so far with the arch, whatever home\'s angle', (ratio) => {
    const { elevation, lateral } = swungBy(analyse(record), ratio);
    for (const found of [elevation, lateral]) {
      if (found.kind !== 'told') throw new Error(JSON.stringify(found));
      expectWithin(found.ratio.value, ratio, { abs: 1e-9 }, 'ratio');
      expectWithin(found.offsetDeg, 0, { abs: 1e-9 }, 'offset');
      expect(found.ratio.low).toBeLessThan(ratio);
      expect(found.ratio.high).toBeGreaterThan(ratio);
      expect(found.evidence).toEqual({ notes: 7, readings: 7 });
      expectWithin(found.fitP, 1, { abs: 1e-6 }, 'fit');
    }
  });

  it('without a horn angle asks for one at every note', () => {
    const { elevation, lateral } = ratiosOf(change(withoutHorn));
    const needs = [{ notes, takes: 1, of: 'horn' }];
    expect(elevation).toEqual({ kind: 'cannot-tell', reason: 'no-horn-angles', needs });
    expect(lateral).toEqual(elevation);
  });

  it('without one at home asks for that', () => {
    const { elevation, lateral } = ratiosOf(change((reading) => (reading.note === 'F4' ? withoutHorn(reading) : reading)));
    expect(elevation).toEqual({ kind: 'cannot-tell', reason: 'no-home-angle', needs: [{ notes: ['F4'], takes: 1, of: 'horn' }] });
    expect(lateral).toEqual(elevation);
  });

  it('from home and one note asks for one of the others', () => {
    const { lateral } = ratiosOf(change((reading) => (['F4', notes[0]].includes(reading.note) ? reading : withoutHorn(reading))));
    expect(lateral).toEqual({
      kind: 'cannot-tell', reason: 'too-few-notes', needs: [{ notes: others.filter((note) => note !== notes[0]), takes: 1, of: 'horn' }],
    });
  });

  it('from two notes in all asks for one more note', () => {
    const { lateral } = ratiosOf({ ...record, readings: record.readings.filter(({ note }) => note === 'F4' || note === notes[0]) });
    expect(lateral).toEqual({ kind: 'cannot-tell', reason: 'too-few-notes', needs: [{ notes: [], takes: 1, moreNotes: 1, of: 'horn' }] });
  });

  it('of the elevation needs the jaw at every note that has a horn angle; sideways it does not', () => {
    const analysis = analyse(change((reading) => (reading.note === notes[1] || reading.note === notes[5] ? withoutJaw(reading) : reading)));
    const { elevation, lateral } = swungBy(analysis, 1);
    expect(elevation).toEqual({ kind: 'cannot-tell', reason: 'jaw-not-known', needs: [{ notes: [notes[1], notes[5]], takes: 1, of: 'jaw' }] });
    expect(lateral.kind).toBe('told');
  });

  it('of one angle does not want the other: where nobody saw the elevation it asks for it, and tells the lateral', () => {
    const onlyLateral = change((reading) => (reading.horn ? { ...reading, horn: { ...reading.horn, lateralSdDeg: 0.5, sdDeg: UNSEEN_HORN_SD_DEG } } : reading));
    const both = swungBy(analyse(record), 0.4).lateral;
    const { elevation, lateral } = swungBy(analyse(onlyLateral), 0.4);
    expect(elevation).toMatchObject({ kind: 'cannot-tell', reason: 'no-horn-angles' });
    expect(lateral).toEqual(both);
  });

  it('from little travel asks for more takes, or for travel, and never for nothing', () => {
    const little = swungBy(analyse(recordOnPath({ notes: 7, travelMm: 2.5, travelSdMm: 0.1, hornSdDeg: 1 })), 1);
    const least = swungBy(analyse(recordOnPath({ notes: 4, travelMm: 0.5, travelSdMm: 0.4, hornSdDeg: 2 })), 1);
    expect(little.lateral).toMatchObject({ kind: 'cannot-tell', reason: 'too-unsure', needs: [{ notes, takes: 2, of: 'horn' }] });
    expect(least.lateral).toMatchObject({ kind: 'cannot-tell', reason: 'too-little-travel', needs: [{ of: 'travel', moreNotes: 2 }] });
  });
});
