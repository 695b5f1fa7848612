import { describe, expect, test } from 'vitest';
import { analyse, workingsOf } from '../../../src/core/analyse';
import { mouthOfArch } from '../../../src/core/arch';
import { computeBands } from '../../../src/core/bands';
import type { TwoJaws } from '../../../src/core/ownArch/ownArch';
import { type FittedToScan, scannedJaw, scannedSd, withScanned } from '../../../src/core/ownArch/scannedArch';
import type { PlayerRecord } from '../../../src/core/specs';
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
const own = withScanned({ ...arch, measured: { family: 'sextic', measures: [] } }, 'scan1', { upper: fitted });

describe('a jaw fitted to a scan', () => {
  test('stands in the record with what the scan said of it; the other jaw and where they meet stay', () => {
    expect(own).toEqual({ upper: fitted.spec, lower: arch.lower, jaw: arch.jaw, scanned: { id: 'scan1', upper: { numbers: fitted.numbers, residualMm: 0.2 } } });
    expect(scannedSd(own, 'upper', 'inclinationDeg')).toBe(1.3);
    expect(scannedJaw(own, 'lower')).toBeNull();
    const both = withScanned(own, 'scan1', { lower: fitted });
    expect(both.scanned!.upper).toEqual(own.scanned!.upper);
    expect(withScanned(own, 'scan2', { lower: fitted }).scanned!.upper).toBeUndefined();
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
