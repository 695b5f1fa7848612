import { describe, expect, it } from 'vitest';
import { HORN_SD_DEG, UNSEEN_HORN_SD_DEG, hornSds } from '../../../src/core/readings';
import type { ReadingSpec } from '../../../src/core/specs';
import { COLUMN_IDS, type CellStyle, type ColumnId } from '../../../src/records/readingCell';
import { READING_COLUMNS, readingColumn, withCell } from '../../../src/records/readingColumns';

const page: CellStyle = { naming: 'scientific', transpositionSemitones: 0, decimal: 'point', form: 'page' };
const file: CellStyle = { ...page, form: 'file' };
const bare: ReadingSpec = { note: 'F4' };
const full: ReadingSpec = {
  note: 'Bb3',
  take: 2,
  direction: 'up',
  travel: { upMm: -1.25, rightMm: 0.5, sdMm: 0.4, rightSdMm: 0.6 },
  horn: { elevationDeg: 12.34, lateralDeg: -3, sdDeg: 2, lateralSdDeg: 4 },
  airstream: 'unsure',
  upperLipShare: 0.6,
  ease: 4,
  remark: 'spoke late',
  method: 'video',
  jaw: { openingMm: 5, forwardMm: -2, hingeDeg: 3 },
  force: { newtons: 20 },
};

function typed(id: ColumnId, text: string, reading = bare, style = page): ReadingSpec {
  const edit = withCell(reading, id, text, style);
  if (edit.kind === 'wrong') throw new Error(`${edit.text}: ${edit.allowed}`);
  return edit.reading;
}

function allowedFor(id: ColumnId, text: string, reading = bare, style = page): string {
  const edit = withCell(reading, id, text, style);
  if (edit.kind === 'reading') throw new Error(`${text} was taken`);
  expect(edit.text).toBe(text);
  return edit.allowed;
}

it('has one column for each name, in order', () => {
  expect(READING_COLUMNS.map(({ id }) => id)).toEqual(COLUMN_IDS);
  expect(() => readingColumn('colour' as ColumnId)).toThrow(/column: colour; allowed: note, take/);
});

it('shows a reading as a row, and an empty one as empty cells', () => {
  expect(READING_COLUMNS.map((column) => column.show(full, page))).toEqual([
    ...['B♭3', '2', 'ascending', '−1.25', '0.5', '0.4', '12.3', '−3', '2'],
    ...['not sure', '0.6', '4', 'spoke late', 'video', '5', '−2', '3', '20', '4', '0.6'],
  ]);
  expect(READING_COLUMNS.map((column) => column.show(bare, page))).toEqual(['F4', ...Array.from({ length: 19 }, () => '')]);
});

it('reads in a file’s form what it shows, every digit', () => {
  let copy = bare;
  for (const column of READING_COLUMNS) copy = typed(column.id, column.show(full, { ...file, decimal: 'comma' }), copy, file);
  expect(copy).toEqual(full);
  expect(readingColumn('travelUp').show({ ...bare, travel: { upMm: 1 / 3, rightMm: 0 } }, file)).toBe('0.3333333333333333');
});

it('empties every cell but the note', () => {
  let copy = full;
  for (const column of READING_COLUMNS.slice(1)) copy = typed(column.id, '', copy);
  expect(copy).toEqual({ note: 'Bb3' });
  expect(allowedFor('note', '')).toMatch(/^a note such as/);
});

describe('numbers', () => {
  it.each(['1.5', '1,5', ' 1.5 ', '1.5 mm', '+1,50mm', '1.5\u00a0mm', '15e-1'])('%j is 1.5 mm', (text) =>
    expect(typed('travelUp', text).travel).toEqual({ upMm: 1.5, rightMm: 0 }),
  );
  it.each(['−2', '-2', '–2', '- 2'])('%j is −2', (text) => expect(typed('hornRight', text).horn?.lateralDeg).toBe(-2));
  it.each(['abc', '1.5.2', '1,234.5', '2 cm', '61', '-61', 'NaN', 'Infinity', '1e999', '0x10'])('%j is refused', (text) =>
    expect(allowedFor('travelUp', text)).toBe('a number from −60 to 60 mm'),
  );
  it('whole numbers, open ends and shares', () => {
    expect(allowedFor('ease', '2.5')).toBe('a whole number from 1 to 5');
    expect(allowedFor('ease', '6')).toBe('a whole number from 1 to 5');
    expect(allowedFor('force', '0')).toBe('a number above 0, up to 200 N');
    expect(typed('upperLipShare', '60 %').upperLipShare).toBe(0.6);
    expect(typed('upperLipShare', '0,6').upperLipShare).toBe(0.6);
    for (const text of ['60', '0', '1', '100 %', '%']) expect(allowedFor('upperLipShare', text)).toMatch(/above 0 and below 1/);
  });
  it('a deviation needs its number', () => {
    expect(allowedFor('travelSd', '0.5')).toBe('empty where no travel is given');
    expect(allowedFor('hornSd', '2')).toBe('empty where no horn angle is given');
    expect(typed('travelSd', '', bare)).toEqual(bare);
    expect(allowedFor('travelRightSd', '0.5')).toBe('empty where no travel is given');
  });
  it('travel to the right may have a deviation of its own', () => {
    const both = typed('travelRightSd', '0,9', full);
    expect(both.travel).toEqual({ ...full.travel, rightSdMm: 0.9 });
    expect(readingColumn('travelRightSd').show(both, page)).toBe('0.9');
    expect(typed('travelSd', '', both).travel).toEqual({ upMm: -1.25, rightMm: 0.5, rightSdMm: 0.9 });
    expect(typed('travelRightSd', '', both).travel).toEqual({ upMm: -1.25, rightMm: 0.5, sdMm: 0.4 });
    expect(allowedFor('travelRightSd', '21', full)).toBe('a number from 0.001 to 20 mm');
  });
  it('travel stays until both are empty or 0', () => {
    const once = typed('travelUp', '', full);
    expect(once.travel).toEqual({ upMm: 0, rightMm: 0.5, sdMm: 0.4, rightSdMm: 0.6 });
    expect(typed('travelRight', '', once)).not.toHaveProperty('travel');
  });
  it('travel in rim widths, facing the player', () => {
    const facing: CellStyle = { ...page, travelUnit: { mm: 4, words: 'rim widths' }, sidewaysSign: -1 };
    const reading = typed('travelRight', '0,5', bare, facing);
    expect(reading.travel).toEqual({ upMm: 0, rightMm: -2 });
    expect(readingColumn('travelRight').show(reading, facing)).toBe('0.5');
    expect(allowedFor('travelUp', '16', bare, facing)).toBe('a number from −15 to 15 rim widths');
    expect(allowedFor('travelUp', '1 mm', bare, facing)).toBe('a number from −15 to 15 rim widths');
  });
});

describe('an angle of the horn', () => {
  const [elevationDeg, lateralDeg] = [-8, 3];
  const onlyRight: ReadingSpec = { note: 'F4', horn: { elevationDeg, lateralDeg, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 1 } };
  const onlyUp: ReadingSpec = { note: 'F4', horn: { elevationDeg, lateralDeg, sdDeg: 3, lateralSdDeg: UNSEEN_HORN_SD_DEG } };
  const shown = (reading: ReadingSpec, style: CellStyle): string[] => (['hornUp', 'hornRight', 'hornSd', 'hornRightSd'] as const).map((id) => readingColumn(id).show(reading, style));

  it('that nobody saw is empty in the page, and in a file has its number and the deviation of the unseen', () => {
    expect(shown(onlyRight, page)).toEqual(['', '3', '', '1']);
    expect(shown(onlyUp, page)).toEqual(['−8', '', '3', '']);
    expect(shown(onlyRight, file)).toEqual(['-8', '3', '45', '1']);
  });
  it('is seen when it is typed, and the other keeps its deviation', () => {
    expect(typed('hornUp', '0', onlyRight).horn).toEqual({ elevationDeg: 0, lateralDeg, lateralSdDeg: 1 });
    expect(typed('hornRight', '3', onlyUp).horn).toEqual({ elevationDeg, lateralDeg, sdDeg: 3 });
    expect(hornSds(typed('hornUp', '-5').horn!)).toEqual({ sdDeg: HORN_SD_DEG, lateralSdDeg: UNSEEN_HORN_SD_DEG });
    expect(hornSds(typed('hornRight', '-5').horn!)).toEqual({ sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: HORN_SD_DEG });
    expect(typed('hornRight', '2', typed('hornUp', '-5')).horn).toEqual({ elevationDeg: -5, lateralDeg: 2 });
    expect(typed('hornUp', '-5', typed('hornRight', '2')).horn).toEqual({ elevationDeg: -5, lateralDeg: 2 });
    // Of two that nobody saw, under one deviation, the other stays unseen.
    const neither: ReadingSpec = { note: 'F4', horn: { elevationDeg, lateralDeg, sdDeg: UNSEEN_HORN_SD_DEG } };
    expect(hornSds(typed('hornUp', '-5', neither).horn!)).toEqual({ sdDeg: HORN_SD_DEG, lateralSdDeg: UNSEEN_HORN_SD_DEG });
    expect(hornSds(typed('hornRight', '2', neither).horn!)).toEqual({ sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: HORN_SD_DEG });
  });
  it('is unseen when it is emptied, and without the other there is no horn', () => {
    const both: ReadingSpec = { note: 'F4', horn: { elevationDeg, lateralDeg, sdDeg: 3 } };
    expect(typed('hornUp', '', both).horn).toEqual({ elevationDeg: 0, lateralDeg, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 3 });
    expect(typed('hornRight', '', both).horn).toEqual({ elevationDeg, lateralDeg: 0, sdDeg: 3, lateralSdDeg: UNSEEN_HORN_SD_DEG });
    expect(typed('hornUp', '', onlyRight)).toBe(onlyRight);
    expect(typed('hornRight', '', onlyRight)).toEqual(bare);
    expect(typed('hornUp', '', onlyUp)).toEqual(bare);
  });
  it('takes the horn’s deviation where it alone was seen', () => {
    expect(typed('hornSd', '4', onlyRight).horn).toEqual({ ...onlyRight.horn, lateralSdDeg: 4 });
    expect(typed('hornSd', '45', onlyRight)).toEqual(onlyRight);
    expect(typed('hornSd', '4', onlyUp).horn).toEqual({ ...onlyUp.horn, sdDeg: 4 });
  });
  it('that nobody saw takes no deviation and keeps its own', () => {
    const neither: ReadingSpec = { note: 'F4', horn: { elevationDeg, lateralDeg, sdDeg: UNSEEN_HORN_SD_DEG } };
    expect(allowedFor('hornSd', '2', neither)).toBe('empty where no horn angle is given');
    expect(allowedFor('hornRightSd', '2', onlyUp)).toBe('empty where the horn’s angle to the right was not seen');
    expect(typed('hornSd', '', onlyRight)).toEqual(onlyRight);
    expect(typed('hornRightSd', '', onlyUp)).toEqual(onlyUp);
    // The usual one, not that of the elevation which nobody saw.
    expect(hornSds(typed('hornRightSd', '', onlyRight).horn!)).toEqual({ sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: HORN_SD_DEG });
  });
});

describe('words', () => {
  it.each(['ascending', 'Up', 'ASC', 'asc.', 'on the way up'])('%j is ascending', (text) => expect(typed('direction', text).direction).toBe('up'));
  it.each(['not sure', 'Not  sure', 'unsure'])('%j is not sure', (text) => expect(typed('airstream', text).airstream).toBe('unsure'));
  it('says what is allowed', () => {
    expect(allowedFor('direction', 'sideways')).toBe('ascending or descending');
    expect(allowedFor('airstream', '?')).toBe('down, up or not sure');
    expect(allowedFor('method', 'guess')).toBe('by eye, ruler, video or picture');
    expect(readingColumn('airstream').choices.map(({ word }) => word)).toEqual(['down', 'up', 'not sure']);
  });
});

it('notes go by naming and transposition', () => {
  expect(typed('note', 'H4', bare, { ...page, naming: 'german', transpositionSemitones: 2 }).note).toBe('A4');
  expect(allowedFor('note', 'H4')).toMatch(/^a note such as C4/);
});

it('a remark is kept as typed, up to its length', () => {
  expect(typed('remark', ' two\nlines; "so" ').remark).toBe(' two\nlines; "so" ');
  expect(allowedFor('remark', 'x'.repeat(501))).toBe('a text of up to 500 characters');
});
