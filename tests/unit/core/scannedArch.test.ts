import { describe, expect, test } from 'vitest';
import { analyse, workingsOf } from '../../../src/core/analyse';
import { mouthOfArch } from '../../../src/core/arch';
import { computeBands } from '../../../src/core/bands';
import { DEFAULT_DEVIATIONS, mouthUnknowns } from '../../../src/core/deviations';
import { budgetOf } from '../../../src/core/ownArch/budget';
import { CROWN_HEIGHT, OVERBITE, OVERJET } from '../../../src/core/ownArch/measures';
import { type TwoJaws, fitBehind, ownArchMoves, withMeasures } from '../../../src/core/ownArch/ownArch';
import { type FittedToScan, scannedJaw, scannedSd, withScanned, withoutScanned } from '../../../src/core/ownArch/scannedArch';
import type { ArchMeasureSpec, PlayerRecord } from '../../../src/core/specs';
import { parsePlayersText } from '../../../src/records/schema';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';

const { record } = demoPlayers[0]!;
const arch = record.arch as TwoJaws;
const fitted: FittedToScan = {
  spec: {
    form: { kind: 'power', widthMm: 62, depthMm: 44, exponent: 0.8 },
    profile: { kind: 'arcs', inclinationDeg: 7, crownHeightMm: 10, crownRadiusMm: 15, gumRadiusMm: 14, gumInclinationDeg: 3 },
  },
  numbers: [{ name: 'widthMm', value: 62, sd: 0.4 }, { name: 'depthMm', value: 44, sd: 0.5 }, { name: 'inclinationDeg', value: 7, sd: 1.3 }, { name: 'crownRadiusMm', value: 15, sd: 0.3 }],
  residualMm: 0.2,
};
const own = withScanned(arch, 'scan1', { upper: fitted });

describe('a jaw fitted to a scan', () => {
  test('stands in the record with what the scan said of it; the other jaw and where they meet stay', () => {
    expect(own).toEqual({ upper: fitted.spec, lower: arch.lower, jaw: arch.jaw, scanned: { id: 'scan1', upper: { numbers: fitted.numbers, residualMm: 0.2 } } });
    expect(scannedSd(own, 'upper', 'inclinationDeg')).toBe(1.3);
    expect(scannedJaw(own, 'lower')).toBeNull();
    const both = withScanned(own, 'scan1', { lower: fitted });
    expect(both.scanned!.upper).toEqual(own.scanned!.upper);
    // Under another id too; but not one that was changed by hand since.
    expect(withScanned(own, 'scan2', { lower: fitted }).scanned).toEqual({ id: 'scan2', upper: own.scanned!.upper, lower: own.scanned!.upper });
    expect(withScanned({ ...own, upper: arch.upper }, 'scan2', { lower: fitted }).scanned!.upper).toBeUndefined();
  });

  test('changed by hand it is that of the scan no more', () => {
    expect(scannedJaw({ ...own, upper: { ...own.upper, form: { ...fitted.spec.form, widthMm: 62.1 } as never } }, 'upper')).toBeNull();
    expect(scannedJaw({ ...own, upper: { ...own.upper, teeth: [{ fdi: 11, outMm: 1, centreMm: -4, widthMm: 8 }] } }, 'upper')).toBeNull();
    expect(scannedJaw({ ...own, jaw: { ...own.jaw, openingMm: 9 } }, 'upper')).not.toBeNull();
  });

  test('its deviations make the band, and they alone', () => {
    const scanned: PlayerRecord = { ...record, arch: own };
    const surer: PlayerRecord = { ...record, arch: { ...own, scanned: { id: 'scan1', upper: { ...own.scanned!.upper!, numbers: fitted.numbers.map((one) => ({ ...one, sd: one.sd / 2 })) } } } };
    const [wide, narrow] = [scanned, surer].map((one) => computeBands(analyse(one)));
    const part = (bands: typeof wide, index: number, name: string): number => bands![index]!.parts.find((one) => one.name === name)!.elevationSdDeg;
    const last = record.readings.length - 1;
    for (const name of ['upper arch form', 'upper arch form further back', "upper teeth's inclination", "upper crown's roundness"]) {
      expectWithin(part(narrow, last, name) / part(wide, last, name), 0.5, { abs: 0.02 }, name);
    }
    expect(part(narrow, last, "upper gum's slope")).toBe(part(wide, last, "upper gum's slope"));
  });

  test('is of version 5 in a file, and comes back; a number told twice and a scan of no jaw are refused', () => {
    const file = (scanned: unknown): string => JSON.stringify({
      format: 'rimpath-record',
      version: 5,
      players: [{ id: 'p1', label: 'A', instrument: record.player.instrument, arch: { ...own, scanned }, lips: record.lips, lessons: [{ id: 'l1', rim: record.rim, force: record.force, upperLipShare: record.upperLipShare, readings: [], tryOuts: [] }] }],
    });
    const parsed = parsePlayersText(file(own.scanned));
    expect(parsed).toMatchObject({ kind: 'players', players: [{ arch: own }] });
    expect(parsePlayersText(file(own.scanned).replace('"version":5', '"version":4'))).toMatchObject({ kind: 'refused' });
    const twice = { id: 'scan1', upper: { numbers: [fitted.numbers[0], fitted.numbers[0]], residualMm: 0 } };
    expect(parsePlayersText(file(twice))).toMatchObject({ kind: 'refused', message: expect.stringContaining('each number once') as string });
    expect(parsePlayersText(file({ id: 'scan1' }))).toMatchObject({ kind: 'refused' });
  });
});

describe('what a scan does not tell', () => {
  const crownMm = (from: TwoJaws, which: 'upper' | 'lower'): number => {
    const { profile } = from[which];
    return profile.kind === 'arcs' ? profile.crownHeightMm : NaN;
  };
  const EDGE_MM_PER_DEG = 101.6 * (Math.PI / 180);
  const moved = (from: TwoJaws, name: string): TwoJaws[] => mouthUnknowns({ ...record, arch: from }, DEFAULT_DEVIATIONS).filter((one) => one.name === name).map((one) => one.moved({ ...record, arch: from }, 1).arch as TwoJaws);
  const withHeight: FittedToScan = { ...fitted, numbers: [...fitted.numbers, { name: 'crownHeightMm', value: 10, sd: 0.6 }] };

  test('of how the jaws meet is as of anybody, and the crowns are as high as the scan says with its deviation', () => {
    const both = withScanned(arch, 'scan1', { upper: withHeight, lower: withHeight });
    for (const which of ['upper', 'lower'] as const) {
      const changed = moved(both, `${which} teeth's height`);
      expect(changed).toHaveLength(1);
      expectWithin(crownMm(changed[0]!, which) - crownMm(both, which), 0.6, { abs: 1e-9 }, which);
    }
    const [forward, turned] = [moved(both, 'overjet'), moved(both, 'overbite')];
    expect([forward, turned].map(({ length }) => length)).toEqual([1, 1]);
    expectWithin(both.jaw.forwardMm - forward[0]!.jaw.forwardMm, OVERJET.sdMm, { abs: 1e-9 }, 'overjet');
    expectWithin(turned[0]!.jaw.hingeDeg - both.jaw.hingeDeg, OVERBITE.sdMm / EDGE_MM_PER_DEG, { rel: 1e-3 }, 'overbite');
    // Where the scan says nothing of the height, it is as of anybody.
    expectWithin(crownMm(moved(own, "upper teeth's height")[0]!, 'upper') - crownMm(own, 'upper'), CROWN_HEIGHT.sdMm, { abs: 1e-9 }, 'height');
    expect(moved(arch, 'overjet')).toEqual([]);
  });

  test('widens the band; and the budget has the same band', () => {
    const scanned: PlayerRecord = { ...record, arch: withScanned(arch, 'scan1', { upper: withHeight, lower: withHeight }) };
    const bands = computeBands(analyse(scanned));
    const last = record.readings.length - 1;
    const { parts, change } = bands[last]!;
    const without = Math.hypot(...parts.filter(({ name }) => !['overjet', 'overbite'].includes(name) && !name.endsWith("teeth's height")).map(({ elevationSdDeg }) => elevationSdDeg));
    expect(change.elevationSdDeg).toBeGreaterThan(without);
    const budget = budgetOf(scanned)!;
    expectWithin(budget[last]!.now.elevationSdDeg, change.elevationSdDeg, { abs: 1e-9 }, 'band');
    // What a scan tells needs no ruler; how the jaws meet does.
    expect(budget[last]!.entries.map(({ what }) => what).filter((what) => what !== 'travel' && what !== 'jaw')).toEqual(['overjet', 'overbite']);
    const overjet = budget[last]!.entries.find(({ what }) => what === 'overjet')!;
    expect(overjet.after.elevationSdDeg).toBeLessThan(change.elevationSdDeg);
  });

  test('stays as it was measured: the other jaw, overjet and overbite; a scanned jaw is shaped by no ruler', () => {
    const measure = (name: ArchMeasureSpec['name'], mm: number): ArchMeasureSpec => ({ name, mm, sdMm: 0.5, by: 'caliper' });
    const measures = [measure('upper-canine-width', 36), measure('lower-canine-width', 25), measure('overjet', 4), measure('upper-crown-height', 9)];
    const made = withMeasures(arch, { family: 'sextic', measures });
    if (made.kind !== 'arch') throw new Error(made.reason);
    const taken = withScanned(made.arch, 'scan1', { upper: withHeight });
    expect(taken).toMatchObject({ upper: fitted.spec, lower: made.arch.lower, jaw: made.arch.jaw, measured: { measures } });
    expect(fitBehind(taken)).toBe(made.fit);
    expect(new Set(ownArchMoves(taken)!.map(({ name }) => name))).toEqual(new Set(['lower arch form', 'lower arch form further back', 'overjet', 'overbite']));
    const forward = moved(taken, 'overjet');
    expectWithin(taken.jaw.forwardMm - forward[0]!.jaw.forwardMm, made.fit.measures.find(({ name }) => name === 'overjet')!.sdMm, { abs: 1e-9 }, 'as surely as it was measured');

    const typed = withMeasures(taken, { family: 'sextic', measures: [...measures, measure('upper-molar-width', 50), measure('lower-molar-width', 50)] });
    if (typed.kind !== 'arch') throw new Error(typed.reason);
    expect(typed.arch.upper).toEqual(fitted.spec);
    expect(scannedJaw(typed.arch, 'upper')).not.toBeNull();
    expect(typed.arch.lower).not.toEqual(taken.lower);

    const released = withoutScanned(withScanned(taken, 'scan2', { lower: fitted }), 'upper');
    expect(Object.keys(released.scanned!)).toEqual(['id', 'lower']);
    expect(withoutScanned(released, 'lower')).not.toHaveProperty('scanned');
  });
});

describe('what stands in for the arch', () => {
  test('is what the rim rests on, in every analysis made from the first, until another is asked for', () => {
    const raised = { ...record, arch: own };
    let asked = 0;
    const standIn = (built: Parameters<typeof mouthOfArch>[0]): ReturnType<typeof mouthOfArch> => {
      const mouth = mouthOfArch(built);
      return {
        ...mouth,
        at: (jaw) => {
          asked += 1;
          return mouth.at(jaw);
        },
      };
    };
    const plain = analyse(raised);
    const first = analyse(raised, plain, 'full', standIn);
    expect(asked).toBeGreaterThan(0);
    expect(first.home.follow).not.toBe(plain.home.follow);
    expect(first.home.follow).toEqual(plain.home.follow);
    expect(workingsOf(analyse({ ...raised, readings: [] }, first)).mouthOf).toBe(standIn);
    expect(workingsOf(analyse({ ...raised, rim: { ...raised.rim } }, first)).mouthOf).toBe(standIn);
    expect(workingsOf(analyse(raised, first, 'full', null)).mouthOf).toBeNull();
    expect(workingsOf(analyse({ ...raised, arch: { ...own } }, first)).mouthOf).toBeNull();
  });
});
