import { afterEach, describe, expect, it } from 'vitest';
import { type PrintAsymmetry, fitPrintForms } from '../../../src/core/ownArch/fitPrint';
import { fitSpline } from '../../../src/core/ownArch/fitSpline';
import type { BitePrintSpec } from '../../../src/core/specs';
import type { TwoJaws } from '../../../src/core/ownArch/ownArch';
import { type FittedToScan, scannedJaw, withScanned } from '../../../src/core/ownArch/scannedArch';
import { curveOf, isFreeOffered } from '../../../src/notebook/ownArch/print/PrintForms';
import type { PrintForms as Forms } from '../../../src/notebook/ownArch/props';
import {
  NEW_DRAFT, type PrintDraft, exchanged, groupAfter, groupNow, inRow, marksPut, printOf, readDraft, startSteps, stepBack, stepForward, stepTo, withMoved,
  withNew, withPrint, withTooth, withoutMark, withoutPrint,
} from '../../../src/notebook/ownArch/print/printMarks';
import { canineWords, fitTrouble, markWords, midlineWords, readTrouble, sidesWords } from '../../../src/notebook/ownArch/print/printWords';
import { measuredOf, withMeasure } from '../../../src/notebook/ownArch/measureEdits';
import { speak } from '../../../src/words/language';
import { demoPlayers } from '../../support/demos';
import { expectWithin } from '../../support/expectWithin';
import { printOf as drawn, onCardAt, pointsOn } from '../../support/drawnPrint';

const CORNERS = [{ x: 0, y: 0 }, { x: 1050, y: 0 }, { x: 1050, y: 740 }, { x: 0, y: 740 }];
/** Ten pixels a millimetre. */
const TEETH = onCardAt(pointsOn({ kind: 'sextic', a: 2.3e-8, b: 0.0206 }, 11, 42), { x: 52, y: 14 }, 0).map(({ x, y }) => ({ x: 10 * x, y: 10 * y }));
const full: PrintDraft = TEETH.reduce<PrintDraft>((draft, point) => withNew(draft, 'tooth', point), { ...NEW_DRAFT, card: CORNERS });
const placesIn = ({ teeth }: PrintDraft) => teeth.map(({ point }) => point);
const { record } = demoPlayers[0]!;

describe('marks of a print', () => {
  it('lie in a row from the first to the last, whatever is put in between, before or after', () => {
    const order = [0, 10, 5, 2, 8, 1, 9, 4, 6, 3, 7];
    const mixed = order.reduce((draft, at) => withNew(draft, 'tooth', TEETH[at]!), NEW_DRAFT);
    expect(placesIn(mixed)).toEqual(TEETH);
    expect(placesIn(full)).toEqual(TEETH);
  });

  it('moved past its neighbours a tooth takes its place anew, and keeps its name', () => {
    const named = withTooth(full, 2, 'canine-right');
    const far = withMoved(named, 'tooth-2', { x: (TEETH[7]!.x + TEETH[8]!.x) / 2, y: (TEETH[7]!.y + TEETH[8]!.y) / 2 });
    const back = inRow(far, 'tooth-2');
    expect(back.teeth.findIndex(({ tooth }) => tooth === 'canine-right')).toBe(7);
    expect(inRow(back, 'tooth-7')).toBe(back);
    expect(inRow(full, 'card-1')).toBe(full);
  });

  it('each name stands once; right and left can be exchanged', () => {
    const named = withTooth(withTooth(withTooth(full, 3, 'midline'), 5, 'midline'), 2, 'canine-right');
    expect(named.teeth.map(({ tooth }) => tooth).filter((tooth) => tooth !== null)).toEqual(['canine-right', 'midline']);
    expect(exchanged(named).teeth[8]).toEqual({ point: TEETH[2], tooth: 'canine-left' });
    expect(exchanged(exchanged(named))).toEqual(named);
  });

  it('the scale is asked for first, then teeth; taken away it is asked for again', () => {
    expect(groupAfter({ ...NEW_DRAFT, card: CORNERS.slice(1) }, 'card')).toBe('card');
    expect(groupAfter(full, 'card')).toBe('tooth');
    expect(groupNow(full, 'card')).toBeNull();
    expect(groupNow(withoutMark(full, 'card-0'), 'card')).toBe('card');
    expect(marksPut(withoutMark(full, 'tooth-0'))).toHaveLength(14);
  });

  it('steps of one key are one; back and forward', () => {
    const moved = [1, 2, 3].reduce((steps, x) => stepTo(steps, withMoved(steps.now, 'tooth-0', { x, y: 0 }), 'drag'), startSteps(full));
    expect(stepBack(moved).now).toBe(full);
    expect(stepForward(stepBack(moved)).now).toEqual(moved.now);
    expect(stepBack(startSteps(full)).now).toBe(full);
  });

  it('what is lacking is said, and what cannot be', () => {
    expect(readTrouble(readDraft(NEW_DRAFT))).toBe('Mark the four corners of the card.');
    expect(readTrouble(readDraft({ ...full, widthMm: null }))).toBe('Type the length that is known.');
    expect(readTrouble(readDraft({ ...full, by: 'ruler', ruler: [CORNERS[0]!, CORNERS[0]!], lengthMm: 50 }))).toContain('lie in one place');
    expect(readTrouble(readDraft({ ...full, by: 'circle' }))).toContain('five points or more');
    expect(readTrouble(readDraft({ ...full, card: [CORNERS[0]!, CORNERS[2]!, CORNERS[1]!, CORNERS[3]!] }))).toContain('cross');
    expect(readTrouble(readDraft(full))).toBeNull();
    expect(fitTrouble({ kind: 'not-fitted', reason: 'few' }, 5)).toBe('Mark 8 tooth edges or more, from the player’s right to the left: 5 are marked.');
    expect(fitTrouble({ kind: 'not-fitted', reason: 'stuck' }, 9)).toContain('No form can be fitted');
  });
});

describe('a print in the record', () => {
  const read = readDraft(withTooth(withTooth(full, 2, 'canine-right'), 8, 'canine-left'));
  if (read.kind !== 'converted') throw new Error(read.kind);
  const print = printOf(withTooth(withTooth(full, 2, 'canine-right'), 8, 'canine-left'), read);

  it('is millimetres, its scale and the teeth that were named', () => {
    expect(print.scale).toEqual({ by: 'card', widthMm: 105, heightMm: 74 });
    expectWithin(print.points[4]!.xMm, TEETH[4]!.x / 10, { abs: 1e-3 });
    expect(print.points[2]!.tooth).toBe('canine-right');
    const apart = Math.hypot(TEETH[2]!.x - TEETH[8]!.x, TEETH[2]!.y - TEETH[8]!.y) / 10;
    expect(canineWords(print)).toBe(`From canine to canine: ${apart.toFixed(1)}\u00a0mm.`);
    expect(canineWords({ ...print, points: print.points.slice(3) })).toBeNull();
  });

  it('takes the place of one of its jaw, keeps what a ruler told, and is taken out again', () => {
    const ruled = withMeasure(record, 'upper-canine-width', { mm: 34 }, 'ruler');
    if (ruled.kind !== 'record') throw new Error(ruled.reason);
    const one = withPrint(ruled.record, print, 'sextic');
    if (one.kind !== 'record') throw new Error(one.reason);
    const two = withPrint(one.record, { ...print, scalePart: 0.01 }, 'ellipse');
    if (two.kind !== 'record') throw new Error(two.reason);
    expect(measuredOf(two.record)).toMatchObject({ family: 'ellipse', measures: [{ name: 'upper-canine-width' }], prints: [{ jaw: 'upper', scalePart: 0.01 }] });
    const typed = withMeasure(two.record, 'overjet', { mm: 2 }, 'ruler');
    expect(typed.kind === 'record' && measuredOf(typed.record).prints).toHaveLength(1);
    const out = withoutPrint(two.record, 'upper');
    expect(out.kind === 'record' && measuredOf(out.record).prints).toBeUndefined();
  });

  it('takes the place of its jaw’s scan', () => {
    const arch = record.arch as TwoJaws;
    const jaw = (spec: typeof arch.upper): FittedToScan => ({ spec, residualMm: 0.2, numbers: [{ name: 'inclinationDeg', value: spec.profile.kind === 'arcs' ? spec.profile.inclinationDeg : NaN, sd: 1.3 }] });
    const scanned = { ...record, arch: withScanned(arch, 'scan1', { upper: jaw(arch.upper), lower: jaw(arch.lower) }) };
    const taken = withPrint(scanned, print, 'sextic');
    if (taken.kind !== 'record') throw new Error(taken.reason);
    const own = taken.record.arch as TwoJaws;
    expect(own.upper.form).not.toEqual(arch.upper.form);
    expect([scannedJaw(own, 'upper'), own.lower]).toEqual([null, arch.lower]);
    expect(scannedJaw(own, 'lower')).not.toBeNull();
  });
});

describe('the free form', () => {
  /** Out on one side, in on the other, a quarter of the way along, mm. */
  const leaning = (mm: number): BitePrintSpec =>
    drawn(onCardAt(pointsOn({ kind: 'sextic', a: 2.3e-8, b: 0.0206 }, 15, 46).map(([x, z], at): [number, number] => {
      const part = at / 7 - 1;
      const out = mm * (Math.abs(part) < 0.5 ? Math.sin(2 * Math.PI * part) : 0);
      const away = Math.hypot(x, z + 20);
      return [x + (out * x) / away, z + (out * (z + 20)) / away];
    }), { x: 0, y: 0 }, 0));
  const formsOf = (print: BitePrintSpec): Forms => {
    const fits = fitPrintForms(print);
    if ('kind' in fits) throw new Error(fits.reason);
    return { kind: 'forms', fits, free: fitSpline(print, fits[0]!) };
  };

  it('is offered where the sides differ, and not where they are alike', () => {
    const [even, uneven] = [leaning(0), leaning(1.2)];
    expect(isFreeOffered(even, formsOf(even))).toBe(false);
    expect(isFreeOffered(uneven, formsOf(uneven))).toBe(true);
  });

  it('is drawn as far as the points go, through them', () => {
    const print = leaning(1.2);
    const { free } = formsOf(print);
    const curve = curveOf(free!);
    for (const { xMm, zMm, offMm } of free!.places) {
      const nearest = Math.min(...curve.map((at) => Math.hypot(at.xMm - xMm, at.zMm - zMm)));
      // Between two drawn points of a millimetre and a half.
      expectWithin(nearest, Math.abs(offMm), { abs: 0.9 });
    }
  });
});

describe('words of a print', () => {
  afterEach(() => speak('en'));
  const sides = (leftOutMm: number): PrintAsymmetry => ({ leftOutMm, sdMm: 0.4, midline: { leftMm: -1.2, sdMm: 0.5 } });

  it('tell a difference of the sides from chance, and its side', async () => {
    expect(sidesWords(sides(0.5))).toContain('Both sides are alike in front');
    expect(sidesWords(sides(-1.3))).toContain('1.3 ±\u00a00.8\u00a0mm further out on the player’s right');
    expect(midlineWords(sides(0).midline!)).toContain('1.2 ±\u00a01.0\u00a0mm to the player’s right');
    expect(markWords('ruler-1')).toBe('End of the stretch');
    await speak('de');
    expect(sidesWords(sides(-1.3))).toContain('zur Rechten des Spielers 1,3 ±\u00a00,8\u00a0mm weiter außen');
    expect(markWords('tooth-3')).toBe('Zahnkante 4');
  });
});
