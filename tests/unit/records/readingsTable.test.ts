import { describe, expect, it } from 'vitest';
import type { NoteStyle } from '../../../src/core/noteNaming';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import type { ReadingSpec } from '../../../src/core/specs';
import type { CellStyle } from '../../../src/records/readingCell';
import { type TableReading, cellsFromPaste, pasteInto, readingsFromTable, tableFromReadings } from '../../../src/records/readingsTable';
import { MOST_READINGS } from '../../../src/records/readingRanges';
import { cellsOf, textOf } from '../../../src/records/tableText';

const plain: NoteStyle = { naming: 'scientific', transpositionSemitones: 0 };
const style: CellStyle = { ...plain, decimal: 'point', form: 'page' };

function table(result: TableReading): Extract<TableReading, { kind: 'table' }> {
  if (result.kind === 'refused') throw new Error(result.message);
  return result;
}
const readingsIn = (text: string, notes = plain): readonly ReadingSpec[] => {
  const { readings, wrong } = table(readingsFromTable(text, notes));
  expect(wrong).toEqual([]);
  return readings;
};
const refusal = (result: TableReading): string => (result.kind === 'refused' ? result.message : 'taken');

/** The examples of RFC 4180, section 2 (value from memory of the RFC's text), by the numbers of its rules. */
describe('RFC 4180, section 2', () => {
  it.each([
    ['1: lines ended by CRLF', 'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n', [['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]],
    ['2: the last line without an end', 'aaa,bbb,ccc\r\nzzz,yyy,xxx', [['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]],
    ['3: a header line', 'field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n', [['field_name', 'field_name', 'field_name'], ['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]],
    ['5: fields in quotes', '"aaa","bbb","ccc"\r\nzzz,yyy,xxx', [['aaa', 'bbb', 'ccc'], ['zzz', 'yyy', 'xxx']]],
    ['6: a line break in a field', '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx', [['aaa', 'b\nbb', 'ccc'], ['zzz', 'yyy', 'xxx']]],
    ['7: a quote in a field', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('%s', (_, text, cells) => expect(cellsOf(text, ',')).toEqual(cells));

  it('4: spaces are part of a field', () => expect(cellsOf('aaa, bbb ,ccc', ',')).toEqual([['aaa', ' bbb ', 'ccc']]));
  it('writes quotes and line ends the same way', () => expect(textOf([['aaa', 'b"b\nb', 'c,c'], ['z', '', 'x']], ',')).toBe('aaa,"b""b\nb","c,c"\r\nz,,x'));
});

describe('a file', () => {
  it('has a header in words, and reads back the same', () => {
    const readings: ReadingSpec[] = [{ note: 'Bb3', travel: { upMm: -1.5, rightMm: 0 }, remark: 'a; "b",\nc', airstream: 'unsure' }, { note: 'F#4', ease: 5, upperLipShare: 0.6 }];
    const text = tableFromReadings(readings, { naming: 'german', transpositionSemitones: 2, decimal: 'comma' });
    expect(text.split('\r\n')[0]).toBe(
      '\uFEFFNote (written 2 semitones above sounding, German names);Take;Direction;Travel up (mm);Travel right (mm);Travel deviation (mm);' +
        'Horn up (°);Horn right (°);Horn deviation (°);Airstream;Upper-lip share;Ease;Remark;Measured;Jaw opening (mm);Jaw forward (mm);Jaw turned (°);Force (N);Horn right deviation (°);Travel right deviation (mm)',
    );
    expect(text).toContain('\r\nC4;;;-1,5;0;;;;;not sure;;;"a; ""b"",\nc";;;;;;;\r\nGis4;');
    // Read by somebody who sees other names: the file says how its own are meant.
    expect(readingsIn(text, plain)).toEqual(readings);
  });

  it('has travel’s deviation to the right in a column behind the others, in words of either language', () => {
    const readings: ReadingSpec[] = [{ note: 'F4', travel: { upMm: 1, rightMm: 2, sdMm: 0.1, rightSdMm: 0.35 } }];
    const text = tableFromReadings(readings, { ...plain, decimal: 'comma' });
    expect(text.trimEnd().endsWith(';0,35')).toBe(true);
    expect(readingsIn(text)).toEqual(readings);
    expect(readingsIn('Note;Weg nach oben;Weg nach rechts;Abweichung des Wegs nach rechts (mm)\nF4;1;2;0,35')).toEqual([{ note: 'F4', travel: { upMm: 1, rightMm: 2, rightSdMm: 0.35 } }]);
  });

  it('takes columns in any order, with other names, units and blanks', () => {
    const text = ' PITCH ;Comments;travel   UP [mm];Travel right mm;horn elevation (degrees)\nF4;well;1,5;2,0;−3\n';
    expect(readingsIn(text)).toEqual([
      { note: 'F4', remark: 'well', travel: { upMm: 1.5, rightMm: 2 }, horn: { elevationDeg: -3, lateralDeg: 0, lateralSdDeg: UNSEEN_HORN_SD_DEG } },
    ]);
  });

  it('says by the deviation that an angle was not seen', () => {
    const readings: ReadingSpec[] = [{ note: 'F4', horn: { elevationDeg: -8, lateralDeg: 3, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 2 } }];
    const text = tableFromReadings(readings, { ...plain, decimal: 'point' });
    expect(text).toContain('\r\nF4,,,,,,-8,3,45,,,,,,,,,,2,\r\n');
    expect(readingsIn(text)).toEqual(readings);
  });

  it('takes a deviation that stands before its number', () => {
    expect(readingsIn('Travel deviation,Travel up,Note\n0.4,1,F4')).toEqual([{ note: 'F4', travel: { upMm: 1, rightMm: 0, sdMm: 0.4 } }]);
  });

  it('leaves columns out that it does not know or that have another unit, and names them', () => {
    const { readings, unknownColumns } = table(readingsFromTable('Note,Colour,Travel up (cm),Note,Ease\nF4,red,1,G4,3', plain));
    expect(readings).toEqual([{ note: 'F4', ease: 3 }]);
    expect(unknownColumns).toEqual(['Colour', 'Travel up (cm)', 'Note']);
    expect(table(readingsFromTable('Note,Colour\nF4,red', plain)).readings).toEqual([{ note: 'F4' }]);
  });

  it.each([
    ['point and comma', 'F4,1,,1.5,2.0'],
    ['comma and semicolon', 'F4;1;;1,5;2,0'],
    ['tabs', 'F4\t1\t\t1,5\t2,0'],
    ['quoted decimal commas', '"F4","1","","1,5","2,0"'],
    ['with the delimiter named', 'sep=;\r\nF4;1;;1,5;2'],
    ['old line ends', 'F4,1,,1.5,2.0\r\r'],
  ])('reads without a header: %s', (_, text) => expect(readingsIn(text)).toEqual([{ note: 'F4', take: 1, travel: { upMm: 1.5, rightMm: 2 } }]));

  it('reads from a given column on', () => {
    const from = (text: string) => table(readingsFromTable(text, { ...plain, startColumn: 'travelUp' })).readings.map(({ travel }) => travel);
    expect(from('1,5;2,0\n−1;0')).toEqual([{ upMm: 1.5, rightMm: 2 }, { upMm: -1, rightMm: 0 }]);
    expect(from('1.5,2.0')).toEqual([{ upMm: 1.5, rightMm: 2 }]);
    expect(from('1,5\n2,5')).toEqual([{ upMm: 1.5, rightMm: 0 }, { upMm: 2.5, rightMm: 0 }]);
  });

  it('finds one known column among many others, by the right delimiter', () => {
    const others = Array.from({ length: 60 }, (_, index) => `Colour ${index + 1}`);
    const rows = Array.from({ length: 30 }, (_, index) => ['F4', ...others.map(() => `${index};5`)].join(','));
    const { readings, unknownColumns } = table(readingsFromTable([['Note', ...others].join(','), ...rows].join('\n'), plain));
    expect(readings).toHaveLength(30);
    expect(unknownColumns.slice(0, 2)).toEqual(['Colour 1', 'Colour 2']);
  });

  it('keeps a remark though nothing else can be read', () => {
    expect(table(readingsFromTable('Note,Remark\nX,kept', plain)).readings).toEqual([{ note: 'C4', remark: 'kept' }]);
  });

  it('marks a wrong cell and loses nothing else', () => {
    const { readings, wrong } = table(readingsFromTable('Note,Travel up,Travel right,Ease,Remark\nF4,1.5,lots,9,kept\nH4,2,,3,', plain));
    expect(readings).toEqual([{ note: 'F4', travel: { upMm: 1.5, rightMm: 0 }, remark: 'kept' }, { note: 'F4', travel: { upMm: 2, rightMm: 0 }, ease: 3 }]);
    expect(wrong).toEqual([
      { row: 0, column: 'travelRight', text: 'lots', allowed: 'a number from −60 to 60 mm' },
      { row: 0, column: 'ease', text: '9', allowed: 'a whole number from 1 to 5' },
      { row: 1, column: 'note', text: 'H4', allowed: expect.stringMatching(/^a note such as/) as string },
    ]);
  });

  it('a first row without a note stands at the next one’s', () => {
    const { readings, wrong } = table(readingsFromTable('Note,Ease\n,3\nG4,4', plain));
    expect(readings.map(({ note }) => note)).toEqual(['G4', 'G4']);
    expect(wrong.map(({ row, column, text }) => ({ row, column, text }))).toEqual([{ row: 0, column: 'note', text: '' }]);
  });

  it('an unclosed quote swallows nothing', () => {
    expect(readingsIn('Note,Remark,Ease\nF4,"so,3\nG4,fine,4')).toEqual([{ note: 'F4', remark: '"so', ease: 3 }, { note: 'G4', remark: 'fine', ease: 4 }]);
  });

  it('counts cells beyond the last column', () => expect(table(readingsFromTable('Note,Ease\nF4,3,,x,y', plain)).cellsBeyond).toBe(2));

  it.each(['=1+1', '+1', '-1', '@SUM(A1)', "'=1", "''@x", '\t=1', '＝1', ' =1+1', '\u200b=1'])('writes a remark %j so that no spreadsheet runs it', (remark) => {
    const text = tableFromReadings([{ note: 'F4', remark }], { ...plain, decimal: 'point' });
    const written = cellsOf(text, ',')[1]![12]!;
    expect(written).toMatch(/^'/);
    expect(readingsIn(text)).toEqual([{ note: 'F4', remark }]);
  });

  it('refuses in a sentence what is no table', () => {
    expect(refusal(readingsFromTable('', plain))).toBe('table: empty; allowed: a table with one reading a line');
    expect(refusal(readingsFromTable('PK\x03\x04\0\0', plain))).toMatch(/^table: not a text; allowed:/);
    expect(refusal(readingsFromTable('x'.repeat(1_000_001), plain))).toBe('table: 1000001 characters; allowed: up to 1000000');
    expect(refusal(readingsFromTable('<html><body>no table</body></html>', plain))).toMatch(/^table: not one of its cells could be read/);
    const many = `Note\n${'F4\n'.repeat(MOST_READINGS)}`;
    expect(readingsIn(many)).toHaveLength(MOST_READINGS);
    expect(refusal(readingsFromTable(`${many}F4\n`, plain))).toBe('table: more than 200 readings; allowed: up to 200');
  });
});

describe('a pasted block', () => {
  const readings: ReadingSpec[] = [{ note: 'F4', travel: { upMm: 1, rightMm: 2, sdMm: 0.4 } }, { note: 'G4', ease: 3 }];
  const pasted = (text: string, row = 0, column: Parameters<typeof pasteInto>[2] = 'travelUp') => table(pasteInto(readings, row, column, text, { style }));

  it('lands at its cell and goes on to the right and down', () => {
    expect(pasted('1,5\t−2\n0\t3').readings).toEqual([{ note: 'F4', travel: { upMm: 1.5, rightMm: -2, sdMm: 0.4 } }, { note: 'G4', ease: 3, travel: { upMm: 0, rightMm: 3 } }]);
    expect(readings[0]!.travel!.upMm).toBe(1);
  });

  it('adds readings where it reaches below, and asks for their notes', () => {
    const { readings: now, wrong } = pasted('4\n5', 1, 'ease');
    expect(now).toEqual([readings[0], { note: 'G4', ease: 4 }, { note: 'G4', ease: 5 }]);
    expect(wrong).toEqual([{ row: 2, column: 'note', text: '', allowed: expect.any(String) as string }]);
    expect(pasted('A4\t2\nB4', 2, 'note')).toMatchObject({ readings: [{}, {}, { note: 'A4', take: 2 }, { note: 'B4' }], wrong: [] });
  });

  it('empties where its cells are empty, but never the note', () => {
    expect(pasted('\t\t').readings[0]).toEqual({ note: 'F4' });
    expect(pasted('0\t').readings[0]!.travel).toEqual({ upMm: 0, rightMm: 0, sdMm: 0.4 });
    expect(pasted('\t1', 0, 'note')).toMatchObject({ readings: [{ note: 'F4', take: 1 }, {}], wrong: [] });
  });

  it('keeps what stood where a cell is wrong', () => {
    const { readings: now, wrong } = pasted('x\t9');
    expect(now[0]!.travel).toEqual({ upMm: 1, rightMm: 9, sdMm: 0.4 });
    expect(wrong).toEqual([{ row: 0, column: 'travelUp', text: 'x', allowed: 'a number from −60 to 60 mm' }]);
  });

  it('goes by a header, and by the columns that the table shows', () => {
    expect(pasted('Ease\tNote\n5\tA4', 1, 'note').readings[1]).toEqual({ note: 'A4', ease: 5 });
    const some = pasteInto(readings, 0, 'note', 'A4\t2', { style, columns: ['note', 'ease'] });
    expect(table(some).readings[0]).toEqual({ ...readings[0], note: 'A4', ease: 2 });
  });

  it('words of a column are no header', () => expect(pasted('up\ndown', 0, 'airstream').readings.map(({ airstream }) => airstream)).toEqual(['up', 'down']));

  it('a remark keeps its punctuation', () => {
    expect(pasted('good, better; 5', 0, 'remark').readings[0]!.remark).toBe('good, better; 5');
    expect(pasted('1,5', 0, 'remark').readings[0]!.remark).toBe('1,5');
  });

  it.each([
    ['1,5\n2,0', [['1,5'], ['2,0']]],
    ['1,5;2,0', [['1,5', '2,0']]],
    ['1.5,2.0', [['1.5', '2.0']]],
    ['1,5\t2,0\r\n', [['1,5', '2,0']]],
    ['so; and so', [['so; and so']]],
    ['Note,Ease\nF4,3', [['Note', 'Ease'], ['F4', '3']]],
    ['"two\nlines"\tx', [['two\nlines', 'x']]],
  ])('cells of %j', (text, cells) => expect(cellsFromPaste(text)).toEqual(cells));

  it('refuses too many rows whole, and a place that is none loudly', () => {
    expect(refusal(pasteInto(readings, 1, 'ease', '3\n'.repeat(MOST_READINGS), { style }))).toMatch(/more than 200 readings/);
    expect(() => pasteInto(readings, 3, 'ease', '3', { style })).toThrow('pasteInto: row 3; allowed: a whole number from 0 to 2');
    expect(() => pasteInto(readings, 0, 'ease', '3', { style, columns: ['note'] })).toThrow('pasteInto: column ease; allowed: note');
  });
});
