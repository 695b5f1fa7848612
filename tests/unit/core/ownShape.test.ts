import { describe, expect, it } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { DEFAULT_DEVIATIONS, type Deviations } from '../../../src/core/deviations';
import { frontMm } from '../../../src/core/findings/archRadii';
import { ownShape, ownShapeSteps, withDrawnBands } from '../../../src/core/findings/ownShape';
import { scaledForm } from '../../../src/core/scaled';
import { expectWithin } from '../../support/expectWithin';
import { demoPlayers } from '../../support/demos';
import { recordOnPath, withHorns } from '../../support/simulatedPlayers';

/** For a machine that does other things too. */
const SLOW_MS = 60_000;

describe('the own shape', () => {
  const record = recordOnPath({ notes: 9, travelMm: 7, travelSdMm: 0.01, hornSdDeg: 0.05 });
  const nothingElse = Object.fromEntries(Object.keys(DEFAULT_DEVIATIONS).map((key) => [key, 1e-6])) as unknown as Deviations;

  it('brings a known front radius back from exact swings under a wide prior', () => {
    if ('single' in record.arch) throw new Error('two jaws');
    const { upper, lower } = record.arch;
    const wider = { ...record, arch: { ...record.arch, upper: { ...upper, form: scaledForm(upper.form, 1.15) }, lower: { ...lower, form: scaledForm(lower.form, 1.15) } } };
    const horns = analyse(wider).readings.map(({ changeFromHome }) => changeFromHome);
    const found = ownShape(withHorns(analyse(record), horns), [], { ...nothingElse, formPart: 0.3, crownRadiusPart: 0.3 });
    if (found.kind !== 'told') throw new Error(JSON.stringify(found));
    expectWithin(found.frontRadius!.afterMm.value, 1.15 * frontMm(record), { rel: 0.02 }, 'front radius');
    expect(found.residualDeg).toBeLessThan(0.05);
  }, SLOW_MS);

  it('hardly moves where the data say nothing', () => {
    const vague = analyse(recordOnPath({ notes: 5, travelMm: 3, travelSdMm: 1, hornSdDeg: 5 }));
    const found = ownShape(withHorns(vague, vague.readings.map(({ changeFromHome }) => changeFromHome)));
    if (found.kind !== 'told') throw new Error(JSON.stringify(found));
    expectWithin(found.frontRadius!.afterMm.value, found.frontRadius!.beforeMm.value, { rel: 0.005 }, 'radius');
    expect(found.frontRadius!.afterMm.sd / found.frontRadius!.beforeMm.sd).toBeGreaterThan(0.95);
  }, SLOW_MS);

  it('predicts between the readings, ascending and descending apart, and says where the horn was measured', () => {
    const taken = demoPlayers[2]!.record;
    // Every note was taken twice.
    const readings = taken.readings.map((reading, index) => ({ ...reading, direction: index < taken.readings.length / 2 ? ('up' as const) : ('down' as const) }));
    const analysis = analyse({ ...taken, readings });
    expect(analysis.readings.length).toBe(readings.length);
    const found = ownShape(analysis, [42, 46]);
    if (found.kind !== 'told') throw new Error(JSON.stringify(found));
    expect(found.predictions.length).toBe(analysis.readings.length + 2);
    expect(found.predictions.filter(({ midi }) => midi === 42)).toMatchObject([{ direction: 'up', measured: false }]);
    const measured = analysis.readings.filter((reading) => reading.measured).map(({ midi, direction }) => `${midi} ${direction}`);
    expect(found.predictions.filter((one) => one.measured).map(({ midi, direction }) => `${midi} ${direction}`).sort()).toEqual(measured.sort());
    const [first] = found.predictions;
    const band = { mean: 1, sd: 1, low: -1, high: 3, found: 10 };
    const drawn = withDrawnBands(found, [{ midi: first!.midi, direction: first!.direction, elevation: band, lateral: band }]);
    expect(drawn.predictions.map(({ before }) => before.drawn?.elevation)).toEqual([band, ...found.predictions.slice(1).map(() => undefined)]);
  }, SLOW_MS);

  it('tells how far it is, rising', () => {
    const analysis = analyse(demoPlayers[0]!.record);
    const parts: number[] = [];
    const steps = ownShapeSteps(analysis);
    let step = steps.next();
    while (!step.done) {
      parts.push(step.value);
      step = steps.next();
    }
    expect(parts.length).toBeGreaterThan(5);
    expect(parts).toEqual([...parts].sort((a, b) => a - b));
    expect(parts.at(-1)).toBeLessThanOrEqual(1);
    expect(step.value).toEqual(ownShape(analysis));
  }, SLOW_MS);

  it('rests on the takes that had the horn measured, not on the others', () => {
    const made = recordOnPath({ notes: 5, travelMm: 4, travelSdMm: 0.2, hornSdDeg: 0.5 });
    const { horn: _seen, ...again } = made.readings[0]!;
    const found = ownShape(analyse({ ...made, readings: [...made.readings, again] }));
    expect(found.kind === 'told' && found.evidence).toEqual({ notes: 5, readings: 5 });
  }, SLOW_MS);

  it('asks for what is missing', () => {
    const made = recordOnPath({ notes: 5, travelMm: 4, travelSdMm: 0.2, hornSdDeg: 0.5 });
    const only = (keep: (note: string) => boolean) =>
      ownShape(analyse({ ...made, readings: made.readings.map(({ horn, ...rest }) => (keep(rest.note) && horn ? { ...rest, horn } : rest)) }));
    const lowest = made.readings[0]!.note;
    expect(only(() => false)).toEqual({ kind: 'cannot-tell', reason: 'no-horn-angles', needs: [{ notes: [], takes: 1, moreNotes: 3, of: 'horn' }] });
    expect(only((note) => note !== 'F4')).toEqual({ kind: 'cannot-tell', reason: 'no-home-angle', needs: [{ notes: ['F4'], takes: 1, of: 'horn' }] });
    expect(only((note) => note === 'F4' || note === lowest)).toEqual({
      kind: 'cannot-tell', reason: 'too-few-notes', needs: [{ notes: [], takes: 1, moreNotes: 1, of: 'horn' }],
    });
  }, SLOW_MS);

  it('fails in words on swings that no arch gives', () => {
    const analysis = analyse(record);
    const wild = analysis.readings.map(({ changeFromHome: { elevationDeg, lateralDeg } }) => ({ elevationDeg: -30 * elevationDeg, lateralDeg: 40 * lateralDeg }));
    const found = ownShape(withHorns(analysis, wild), [], { ...nothingElse, formPart: 0.3, crownRadiusPart: 0.3 });
    expect(found.kind).toBe('failed');
    expect(found.kind === 'failed' && found.words).toMatch(/^(With the radii|The radii did not)/);
  }, SLOW_MS);
});
