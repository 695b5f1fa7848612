/** Any readings go into a file's text and come back the same; no text throws, hangs or loses what stood. */
import * as fc from 'fast-check';
import { expect, it } from 'vitest';
import { NOTE_NAMINGS } from '../../src/core/noteNaming';
import { noteName } from '../../src/core/pitch';
import { UNSEEN_HORN_SD_DEG } from '../../src/core/readings';
import type { ReadingSpec } from '../../src/core/specs';
import { COLUMN_IDS, type CellStyle } from '../../src/records/readingCell';
import { READING_COLUMNS, withCell } from '../../src/records/readingColumns';
import {
  EASE,
  FORCE_N,
  HORN_DEG,
  HORN_SD_DEG_RANGE,
  JAW_FORWARD_MM,
  JAW_HINGE_DEG,
  JAW_OPENING_MM,
  TAKE,
  TRAVEL_MM,
  TRAVEL_SD_MM_RANGE,
} from '../../src/records/readingRanges';
import { cellsFromPaste, pasteInto, readingsFromTable, tableFromReadings } from '../../src/records/readingsTable';
import { longer, propertySeed, seedWords } from '../support/seed';

const ROUND_TRIPS = longer(1_000);
const TEXTS = longer(2_000);

const number = ([min, max]: readonly [number, number]): fc.Arbitrary<number> =>
  // −0 comes back as 0, which is the same number.
  fc.double({ min, max, noNaN: true }).map((value) => value + 0);
const positive = ([min, max]: readonly [number, number]): fc.Arbitrary<number> => fc.double({ min, max, noNaN: true, minExcluded: true, maxExcluded: true });
const whole = ([min, max]: readonly [number, number]): fc.Arbitrary<number> => fc.integer({ min, max });
const some = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | undefined> => fc.option(value, { nil: undefined });
const orAbsent = <T extends object>(value: fc.Arbitrary<T>) => some(value);
/** Texts with all that CSV, spreadsheets and this program treat in their own way; a line break is kept as \n, and a zero is in no text. */
const remark = fc
  .string({ unit: fc.oneof(fc.constantFrom(...'";,\t\n=+-@\' '), fc.string({ unit: 'grapheme', minLength: 1, maxLength: 1 })), minLength: 1, maxLength: 40 })
  .filter((text) => !/[\0\r]/.test(text));

/** Often that of an angle which nobody saw. */
const hornSd = fc.oneof(number(HORN_SD_DEG_RANGE), fc.constant(UNSEEN_HORN_SD_DEG));

const reading: fc.Arbitrary<ReadingSpec> = fc
  .record({
    note: fc.tuple(whole([0, 127]), fc.boolean()).map(([midi, flats]) => noteName(midi, flats)),
    take: some(whole(TAKE)),
    direction: some(fc.constantFrom('up' as const, 'down' as const)),
    travel: orAbsent(fc.record({ upMm: number(TRAVEL_MM), rightMm: number(TRAVEL_MM), sdMm: some(number(TRAVEL_SD_MM_RANGE)), rightSdMm: some(number(TRAVEL_SD_MM_RANGE)) })),
    horn: orAbsent(fc.record({ elevationDeg: number(HORN_DEG), lateralDeg: number(HORN_DEG), sdDeg: some(hornSd), lateralSdDeg: some(hornSd) })),
    airstream: some(fc.constantFrom('down' as const, 'up' as const, 'unsure' as const)),
    upperLipShare: some(positive([0, 1])),
    ease: some(whole(EASE)),
    remark: some(remark),
    method: some(fc.constantFrom('eye' as const, 'ruler' as const, 'video' as const)),
    jaw: orAbsent(fc.record({ openingMm: number(JAW_OPENING_MM), forwardMm: some(number(JAW_FORWARD_MM)), hingeDeg: some(number(JAW_HINGE_DEG)) })),
    force: orAbsent(fc.record({ newtons: positive(FORCE_N) })),
  })
  .map((value) => withoutAbsent(value) as ReadingSpec);

const notes = fc.record({ naming: fc.constantFrom(...NOTE_NAMINGS), transpositionSemitones: fc.constantFrom(0, 2, 7, 9, 14, -12) });
const decimal = fc.constantFrom('point' as const, 'comma' as const);

it(`${ROUND_TRIPS} tables come back the same, by every naming, written or sounding, with comma or point ${seedWords}`, () => {
  fc.assert(
    fc.property(fc.array(reading, { maxLength: 8 }), notes, notes, decimal, (readings, style, other, sign) => {
      const text = tableFromReadings(readings, { ...style, decimal: sign });
      // The file says how its notes are named, so that the reader's own choice does not matter.
      for (const options of [style, other]) {
        expect(readingsFromTable(text, options)).toEqual({ kind: 'table', readings, wrong: [], unknownColumns: [], cellsBeyond: 0 });
      }
    }),
    { seed: propertySeed, numRuns: ROUND_TRIPS },
  );
});

it(`${ROUND_TRIPS} blocks of cells, copied and pasted over other readings, make them the same ${seedWords}`, () => {
  const block = fc.integer({ min: 1, max: 5 }).chain((rows) => fc.tuple(fc.array(reading, { minLength: rows, maxLength: rows }), fc.array(reading, { minLength: rows, maxLength: rows })));
  fc.assert(
    fc.property(block, notes, decimal, ([from, onto], { naming, transpositionSemitones }, sign) => {
      const style: CellStyle = { naming, transpositionSemitones, decimal: sign, form: 'file' };
      const quoted = (text: string): string => (/["\t\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text);
      const plain = from.map(({ remark: _remark, ...rest }) => rest);
      const text = plain.map((one) => READING_COLUMNS.map((column) => quoted(column.show(one, style))).join('\t')).join('\r\n');
      expect(pasteInto(onto, 0, 'note', text, { style })).toEqual({ kind: 'table', readings: plain, wrong: [], unknownColumns: [], cellsBeyond: 0 });
    }),
    { seed: propertySeed, numRuns: ROUND_TRIPS },
  );
});

it(`${TEXTS} damaged or strange texts give a table or a sentence, and a wrong cell keeps its text ${seedWords}`, () => {
  const good = fc.array(reading, { minLength: 1, maxLength: 4 }).map((readings) => tableFromReadings(readings, { naming: 'scientific', transpositionSemitones: 0, decimal: 'point' }));
  const cut = fc.tuple(good, fc.array(fc.tuple(fc.nat(), fc.nat(3), fc.string({ unit: 'binary', maxLength: 3 })), { minLength: 1, maxLength: 6 }));
  const damaged = cut.map(([text, hurts]) =>
    hurts.reduce((now, [at, length, put]) => now.slice(0, at % now.length) + put + now.slice((at % now.length) + length), text),
  );
  const strange = fc.oneof(damaged, fc.string({ unit: 'binary', maxLength: 300 }), fc.string({ unit: fc.constantFrom(...'"\n,;\tF4='), maxLength: 300 }));
  fc.assert(
    fc.property(strange, fc.constantFrom(...COLUMN_IDS), fc.array(reading, { maxLength: 3 }), (text, column, readings) => {
      const style: CellStyle = { naming: 'scientific', transpositionSemitones: 0, decimal: 'point', form: 'page' };
      cellsFromPaste(text);
      const kept = JSON.stringify(readings);
      for (const result of [readingsFromTable(text, style), pasteInto(readings, readings.length, column, text, { style })]) {
        if (result.kind === 'refused') expect(result.message).toMatch(/^(table|what was pasted): [^\n]+; allowed: [^\n]+$/);
        else {
          for (const cell of result.wrong) {
            expect(result.readings[cell.row]).toBeDefined();
            // Apart from quotes, which a damaged file may have anywhere, the text stands in the file as it is given back.
            expect(text.replace(/\r\n?/g, '\n').replaceAll('"', '')).toContain(cell.text.replaceAll('"', ''));
          }
        }
      }
      expect(JSON.stringify(readings)).toBe(kept);
    }),
    { seed: propertySeed, numRuns: TEXTS },
  );
});

it(`${TEXTS} strange texts in each cell are taken or refused, never thrown ${seedWords}`, () => {
  const texts = fc.oneof(fc.string({ unit: 'binary' }), fc.string({ unit: fc.constantFrom(...'0123456789.,-−+eE %°mH♭#bis') }));
  fc.assert(
    fc.property(texts, fc.constantFrom(...NOTE_NAMINGS), (text, naming) => {
      for (const id of COLUMN_IDS) {
        const edit = withCell({ note: 'F4', travel: { upMm: 1, rightMm: 1 } }, id, text, { naming, transpositionSemitones: 2, decimal: 'comma', form: 'page' });
        if (edit.kind === 'wrong') expect(edit.allowed).not.toBe('');
        else expect(Object.values(edit.reading).every((value) => value !== undefined && !Number.isNaN(value))).toBe(true);
      }
    }),
    { seed: propertySeed, numRuns: TEXTS },
  );
});

it('the largest texts of the worst kinds take no more than some seconds', { timeout: 60_000 }, () => {
  const style = { naming: 'scientific', transpositionSemitones: 0 } as const;
  for (const piece of ['"', ',', '\n', '\t', '";"', 'F4,1\n', 'Note,', '(', "'", '1', 'a ', '" "', ';"\n']) {
    readingsFromTable(piece.repeat(Math.floor(1_000_000 / piece.length)), style);
  }
});

function withoutAbsent(value: object): object {
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, inner]: [string, unknown]) =>
      inner === undefined ? [] : [[name, typeof inner === 'object' && inner !== null ? withoutAbsent(inner) : inner]],
    ),
  );
}
