import { describe, expect, test } from 'vitest';
import { UNSEEN_HORN_SD_DEG } from '../../../../src/core/readings';
import type { ReadingSpec } from '../../../../src/core/specs';
import { choiceForKey } from '../../../../src/notebook/readings/choiceKeys';
import { headingGroups, heardNames } from '../../../../src/notebook/readings/columnNames';
import { isBlock, rowAsText, tableAsText } from '../../../../src/notebook/readings/pasteBlock';
import { TABLE_VIEWS, shownColumns } from '../../../../src/notebook/readings/tableViews';
import { COLUMN_IDS, type CellStyle } from '../../../../src/records/readingCell';
import { readingColumn } from '../../../../src/records/readingColumns';
import { pasteInto } from '../../../../src/records/readingsTable';

const style: CellStyle = { naming: 'scientific', transpositionSemitones: 0, decimal: 'point', form: 'page' };

describe('what is copied', () => {
  const readings: ReadingSpec[] = [
    { note: 'Bb4', take: 2, travel: { upMm: -1.23456, rightMm: 0.5, sdMm: 0.3 }, airstream: 'unsure', remark: 'says "ah"\tthen\nstops' },
    { note: 'A4', horn: { elevationDeg: -8, lateralDeg: 3, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 2 } },
    { note: 'C5', direction: 'down', horn: { elevationDeg: -14.5, lateralDeg: 2 }, ease: 4, upperLipShare: 0.6, method: 'video' },
  ];

  test.each([
    ['as it is', style],
    ['in German names, facing the player, in rim widths', { ...style, naming: 'german', sidewaysSign: -1, travelUnit: { mm: 5, words: 'rim widths' } }],
  ] as const)('comes back from the clipboard, %s', (_, shown) => {
    const back = pasteInto([], 0, 'note', tableAsText(readings, shown), { style: shown });
    expect(back.kind === 'table' && back.wrong).toEqual([]);
    expect(back.kind === 'table' && back.readings).toEqual(readings);
  });

  test('a row goes in the order of the columns shown, with every digit', () => {
    expect(rowAsText(readings[0]!, ['note', 'travelUp', 'ease'], style)).toBe('B♭4\t-1.23456\t');
  });

  test('a row without its deviations leaves out an angle that nobody saw', () => {
    const fromFront: ReadingSpec = { note: 'F4', horn: { elevationDeg: -8, lateralDeg: 3, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 2 } };
    const columns = shownColumns('lesson').columns;
    const text = rowAsText(fromFront, columns, style);
    expect(text).toBe('F4\t\t\t\t\t3\t\t');
    const back = pasteInto([], 0, 'note', text, { style, columns });
    expect(back.kind === 'table' && back.readings).toEqual([{ note: 'F4', horn: { elevationDeg: 0, lateralDeg: 3, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 2 } }]);
  });

  test.each([
    ['3.5', false],
    ['3.5\r\n', false],
    ['a\tb', true],
    ['1\n2', true],
  ])('%j is more than one cell: %s', (text, expected) => {
    expect(isBlock(text)).toBe(expected);
  });
});

describe('a letter on a closed list', () => {
  test.each([
    ['airstream', 'd', '', 'down'],
    ['airstream', '?', 'down', 'not sure'],
    ['airstream', 'n', '', 'not sure'],
    ['direction', 'a', '', 'ascending'],
    ['direction', 'u', '', 'ascending'],
    ['direction', 'D', '', 'descending'],
    ['method', 'e', '', 'by eye'],
    ['method', 'v', '', 'video'],
    ['method', 'q', '', null],
    ['direction', '?', '', null],
  ] as const)('%s, %s typed on "%s": %s', (column, key, now, expected) => {
    expect(choiceForKey(readingColumn(column), key, now, style)).toBe(expected);
  });
});

describe('columns', () => {
  test('every column can be seen, the note is always first, and "all" has all', () => {
    expect(shownColumns('all').columns.toSorted()).toEqual(COLUMN_IDS.toSorted());
    for (const view of TABLE_VIEWS) expect(shownColumns(view).columns[0]).toBe('note');
    const parts = TABLE_VIEWS.filter((view) => view !== 'all').flatMap((view) => shownColumns(view).columns);
    expect(new Set(parts)).toEqual(new Set(COLUMN_IDS));
  });

  test('are headed in groups and heard with group, side and unit', () => {
    const groups = headingGroups(['note', 'travelUp', 'travelRight', 'hornUp', 'ease'], { sideways: 'facing', unit: 'rim widths' });
    expect(groups.map(({ heading }) => heading)).toEqual(['Note', 'Travel in, rim widths', 'Horn measured, °', 'Ease, 1–5']);
    const all = headingGroups(shownColumns('all').columns, { sideways: 'player', unit: 'mm' });
    expect(all.filter(({ group }) => group === 'Horn').map(({ columns }) => columns)).toEqual([['hornUp', 'hornRight', 'hornSd', 'hornRightSd']]);
    expect(all.filter(({ group }) => group === 'Travel').map(({ columns }) => columns)).toEqual([['travelUp', 'travelRight', 'travelSd', 'travelRightSd']]);
    const names = heardNames({ sideways: 'facing', unit: 'rim widths' });
    expect(names.travelRight).toBe('travel right as you face the player, rim widths');
    expect(names.travelSd).toBe('travel deviation, mm');
    expect(new Set(Object.values(names)).size).toBe(COLUMN_IDS.length);
  });
});
