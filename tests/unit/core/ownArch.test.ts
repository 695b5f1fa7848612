import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { buildArch } from '../../../src/core/arch';
import { computeBands } from '../../../src/core/bands';
import { DEFAULT_DEVIATIONS, mouthUnknowns } from '../../../src/core/deviations';
import { fitArch } from '../../../src/core/ownArch/fitArch';
import { MEASURES, usualSdMm } from '../../../src/core/ownArch/measures';
import { type TwoJaws, fitBehind, ownArchMoves, withMeasures } from '../../../src/core/ownArch/ownArch';
import { budgetOf } from '../../../src/core/ownArch/budget';
import type { ArchFamily, ArchMeasureName, ArchMeasureSpec } from '../../../src/core/specs';
import { arches } from '../../../src/records/library';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';

const average = arches.find(({ id }) => id === 'average')!.arch as TwoJaws;
const measure = (name: ArchMeasureName, mm: number, sdMm = 0.5): ArchMeasureSpec => ({ name, mm, sdMm, by: 'caliper' });
const fittedTo = (measures: readonly ArchMeasureSpec[], from = average, family: ArchFamily = 'sextic'): TwoJaws => {
  const made = withMeasures(from, { family, measures });
  if (made.kind !== 'arch') throw new Error(made.reason);
  return made.arch;
};
/** Rounding of lengths and angles of some tens. */
const ROUNDING = { abs: 1e-9 };

describe('an arch that was measured', () => {
  it('with nothing measured is the average arch, to the digits its numbers were written with', () => {
    const bare = fittedTo([]);
    const [form, usual] = [bare.upper.form, average.upper.form];
    if (form.kind !== 'sextic' || usual.kind !== 'sextic') throw new Error('no sextic');
    expectWithin(form.b, usual.b, { rel: 2e-4 });
    expectWithin(form.a, usual.a, { rel: 2e-3 });
    expect({ ...bare, upper: { ...bare.upper, form: usual }, lower: { ...bare.lower, form: average.lower.form }, measured: undefined }).toEqual({ ...average, measured: undefined });
  });

  it('keeps all that was not measured; what was taken out again is as usual', () => {
    const own = fittedTo([measure('overjet', 6, 1e-6), measure('upper-crown-height', 9, 1e-6)]);
    expectWithin(own.jaw.forwardMm, -4.5, { abs: 1e-6 });
    expect(own.upper.profile).toMatchObject({ inclinationDeg: 6.11, gumRadiusMm: 16 });
    if (own.upper.profile.kind !== 'arcs') throw new Error('no arcs');
    expectWithin(own.upper.profile.crownHeightMm, 9, { abs: 1e-6 });
    const back = fittedTo([], own);
    expectWithin(back.jaw.forwardMm, -1, ROUNDING);
    expect(fittedTo([], { ...average, jaw: { ...average.jaw, forwardMm: -3 } }).jaw.forwardMm).toBe(-3);
  });

  it('an overbite turns the jaw and keeps the gap between the edges', () => {
    const edge = (arch: TwoJaws): number => buildArch(arch).lower!.pointAt(0, 0)[1];
    const deep = fittedTo([measure('overbite', 6, 1e-6)]);
    // One degree about the published triangle's hinge is 1.773 mm at the edge.
    expectWithin(deep.jaw.hingeDeg, 3.1 / 1.7732545, { abs: 1e-5 });
    expectWithin(edge(deep), edge(average), ROUNDING);
  });

  it('is known by its forms: changed by hand, they are no longer those of the fit, and bands are as of any arch', () => {
    const own = fittedTo([measure('upper-canine-width', 34)]);
    expect(fitBehind(own)).toBe(fitArch(own.measured!));
    const byHand: TwoJaws = { ...own, lower: { ...own.lower, form: { kind: 'circle', radiusMm: 27 } } };
    expect(fitBehind(byHand)).toBeNull();
    const names = (arch: TwoJaws) => mouthUnknowns({ ...demoPlayers[0]!.record, arch }, DEFAULT_DEVIATIONS).map(({ name }) => name);
    expect(names(byHand)).toEqual(names(average));
    expect(names(own)).toEqual(expect.arrayContaining(['upper arch form', 'upper arch form further back', 'overjet', 'overbite', 'upper teeth\'s height']));
    expect(new Set(names(own)).size).toBe(names(own).length);
  });

  it('its moves have the fit’s covariance: a deviation of the front radius is what the fit says, 8 % or less', () => {
    for (const measures of [[], [measure('upper-canine-width', 34, 0.2), measure('upper-canine-depth', 7, 0.2)]]) {
      const own = fittedTo(measures);
      const radius = (arch: TwoJaws) => (arch.upper.form.kind === 'sextic' ? Math.log(1 / (2 * arch.upper.form.b)) : NaN);
      const sd = Math.hypot(...ownArchMoves(own)!.map(({ moved }) => radius(moved(own, 1) as TwoJaws) - radius(own)));
      expectWithin(sd, Math.sqrt(fitBehind(own)!.covariance[0]![0]!), ROUNDING);
      expectWithin(fitBehind(own)!.frontRadiusPart, sd, { rel: 1e-6 });
      expect(sd).toBeLessThan(measures.length === 0 ? 0.0801 : 0.065);
    }
  });

  it('moves the jaw at every note with home’s: where the jaw was typed at some notes only, a band stays about what it was', () => {
    for (const { record } of demoPlayers) {
      // Home's own reading left out, so that home has the arch's jaw and the notes have theirs.
      const short = { ...record, readings: [record.readings[0]!, record.readings.at(-1)!] };
      const own = { ...short, arch: fittedTo([], record.arch as TwoJaws) };
      const [before, after] = [computeBands(analyse(short)), computeBands(analyse(own))];
      before.forEach(({ change }, index) => {
        expect(after[index]!.change.elevationSdDeg).toBeLessThan(1.25 * change.elevationSdDeg);
        expect(after[index]!.change.lateralSdDeg).toBeLessThan(1.05 * change.lateralSdDeg);
      });
    }
  });

  it('refuses what is no measure', () => {
    expect(() => fitArch({ family: 'sextic', measures: [measure('overjet', 40)] })).toThrow('measures overjet 40 mm: allowed is -10 to 15 mm');
    expect(() => fitArch({ family: 'sextic', measures: [measure('overjet', 2, 0)] })).toThrow('overjet sdMm 0: allowed is more than 0');
    expect(() => fitArch({ family: 'sextic', measures: [measure('overjet', 2), measure('overjet', 3)] })).toThrow('each measure once');
    expect(() => fitArch({ family: 'square' as ArchFamily, measures: [] })).toThrow('family: square; allowed: sextic');
    expect(MEASURES.every(({ name }) => usualSdMm(name, 'ruler') === 2 * usualSdMm(name, 'caliper'))).toBe(true);
  });
});

describe('a budget', () => {
  const { record } = demoPlayers.find(({ id }) => id === 'pushes-up')!;
  const short = { ...record, readings: [record.readings[0]!, record.readings.at(-1)!] };

  it('is none of a single surface', () => {
    expect(budgetOf({ ...short, arch: { single: average.upper } })).toBeNull();
  });

  it('has every measure that was not taken, none that widens, and what the note itself could be asked', () => {
    const { jaw: _, ...jawless } = short.readings[1]!;
    const own = { ...short, readings: [short.readings[0]!, { ...jawless, method: 'ruler' as const, travel: { upMm: jawless.travel.upMm, rightMm: jawless.travel.rightMm } }], arch: fittedTo([measure('upper-canine-width', 34)], record.arch as TwoJaws) };
    const top = budgetOf(own)![1]!;
    const whats = top.entries.map(({ what }) => what);
    expect(whats).toContain('jaw');
    expect(whats).toContain('travel');
    expect(whats).not.toContain('upper-canine-width');
    expect(whats.filter((what) => what !== 'jaw' && what !== 'travel')).toHaveLength(MEASURES.length - 1);
    for (const { after } of top.entries) {
      expect(after.elevationSdDeg).toBeLessThanOrEqual(top.now.elevationSdDeg);
      expect(after.lateralSdDeg).toBeLessThanOrEqual(top.now.lateralSdDeg);
    }
    // A jaw that nobody saw makes most of an elevation's band (docs/decisions/0008).
    expect(top.entries.find(({ what }) => what === 'jaw')!.after.elevationSdDeg).toBeLessThan(0.6 * top.now.elevationSdDeg);
    expect(top.largest.elevationSdDeg).toMatch(/^jaw/);
  });
});
