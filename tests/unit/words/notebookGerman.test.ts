import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { LocalShape } from '../../../src/core/findings/findings';
import { angleSentence, homeLines, signed } from '../../../src/notebook/chart/words';
import { tickText } from '../../../src/notebook/chart/scale';
import { fromHomeWords } from '../../../src/notebook/hornWords';
import { readingsWords } from '../../../src/notebook/kept/words';
import { choiceForKey } from '../../../src/notebook/readings/choiceKeys';
import { columnWidthRem, heardNames } from '../../../src/notebook/readings/columnNames';
import { tableWords } from '../../../src/notebook/readings/takenIn';
import { followWords } from '../../../src/notebook/says/followSaid';
import { cannotTellWords, chanceWords, listWords, needWords } from '../../../src/notebook/says/saysWords';
import { localWords } from '../../../src/notebook/says/shapeSaid';
import { takesWords } from '../../../src/notebook/says/travelSaid';
import { sentence } from '../../../src/notebook/sentence';
import { partOf, textWithParts } from '../../../src/notebook/textWithParts';
import { readNumber } from '../../../src/notebook/numberText';
import { expectedSentence } from '../../../src/notebook/tryOuts/words';
import { analyse } from '../../../src/core/analyse';
import { compareTryOut } from '../../../src/core/tryOutComparison';
import { COLUMN_IDS, type CellStyle } from '../../../src/records/readingCell';
import { readingColumn } from '../../../src/records/readingColumns';
import { speak } from '../../../src/words/language';
import { demoPlayers } from '../../support/demos';

beforeAll(() => speak('de'));
afterAll(() => speak('en'));

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const asIs = (note: string): string => note;

test('the sentence under the picture, with the verb where German wants it', () => {
  const facts = {
    note: 'G5',
    travel: { upMm: 3.1, rightMm: -1.2 },
    changeFromHome: { elevationDeg: 3, lateralDeg: -2.25 },
    homeMeasured: true,
    heldShare: { upper: 0.45, lower: 0.55, right: 0.5, left: 0.5 },
  };
  expect(plain(sentence({ ...facts, posture: 'held' }))).toBe(
    'Bei G5 steht der Rand 3,1 mm höher als in der Grundstellung und 1,2 mm zur Linken des Spielers. '
      + 'Vom gemessenen Winkel der Grundstellung aus käme der Schalltrichter 3,0° nach oben und 2,3° nach links. '
      + 'Bliebe der Winkel wie in der Grundstellung, lägen 55 % der Kraft auf der unteren Hälfte.',
  );
  expect(sentence({ ...facts, homeMeasured: false, posture: 'lap' })).toContain('Vom Winkel der Grundstellung aus würde der Kopf sich 3,0° nach vorn neigen');
});

test('numbers that are typed, angles and charts', () => {
  expect(readNumber('-99', { min: -60, max: 60, unit: 'mm' })).toEqual({ kind: 'wrong', words: '−99 liegt außerhalb des Bereichs. Erlaubt: von −60 bis 60\u00a0mm.' });
  expect(fromHomeWords({ elevationDeg: -14.25, lateralDeg: 1 }, { elevationDeg: -9, lateralDeg: 0.5, sdDeg: 1, lateralSdDeg: 1 })).toBe(
    'Mit dem in der Grundstellung gemessenen Winkel ergibt das 14,3° abwärts, 1,0° rechts; hier gemessen: 9,0° abwärts, 0,5° rechts.',
  );
  expect([signed(-1.25), signed(0.01), tickText(-0.5, 0.5)]).toEqual(['−1,3', '0,0', '−0,5']);
  const point = { readingIndex: 0, midi: 70, label: 'B4', direction: 'down', predicted: { elevationDeg: 3, lateralDeg: -2.2 }, band: null, measured: null } as const;
  expect(angleSentence(point)).toBe('B4, abwärts: vorhergesagt 3,0° nach oben, 2,2° nach links.');
  expect(homeLines().join('')).toBe('Grund-stellung');
});

describe('the table of readings', () => {
  const style: CellStyle = { naming: 'german', transpositionSemitones: 0, decimal: 'comma', form: 'page' };

  test.each([
    ['method', 'l', '', 'Lineal'],
    ['method', 'v', '', 'Video'],
    ['direction', 'a', '', 'aufwärts'],
    ['direction', 'a', 'aufwärts', 'abwärts'],
    ['airstream', '?', '', 'unsicher'],
  ] as const)('%s, %s typed on "%s": %s', (column, key, now, expected) => expect(choiceForKey(readingColumn(column), key, now, style)).toBe(expected));

  test('every column is heard by a name of its own, and the longer German heads have their room', () => {
    const entry = { sideways: 'mirror', unit: 'rim widths' } as const;
    const names = heardNames(entry);
    expect(names.travelRight).toBe('Weg rechts im Spiegel, Randbreiten');
    expect(new Set(Object.values(names)).size).toBe(COLUMN_IDS.length);
    const german = COLUMN_IDS.map((id) => columnWidthRem(id, entry));
    expect(german[COLUMN_IDS.indexOf('take')]).toBeGreaterThan(2.75);
  });

  test('what was pasted, with its plurals', () => {
    const wrong = [{ row: 0, column: 'ease', text: 'x', allowed: '' }] as const;
    expect(tableWords('pasted', 1, { kind: 'table', readings: [], wrong, unknownColumns: ['Ventil'], cellsBeyond: 2 })).toBe(
      'Eingefügt: 1 Ablesung. 1 Zelle ließ sich nicht übernehmen. Unbekannte Spalten wurden weggelassen: „Ventil“. 2 Zellen hinter der letzten Spalte wurden weggelassen.',
    );
  });
});

describe('what the readings say', () => {
  test('what is missing', () => {
    const needs = [{ notes: ['D5', 'F5'], takes: 3, of: 'horn' as const }];
    expect(cannotTellWords({ kind: 'cannot-tell', reason: 'too-unsure', needs }, asIs, 'Zur Seite')).toBe(
      'Zur Seite lässt sich noch nichts sagen: Die Ablesungen sind nicht sicher genug. Bei D5 und F5 den Winkel des Instruments messen, je noch 3-mal.',
    );
    expect(needWords({ notes: ['G5'], takes: 2, moreNotes: 1, of: 'travel' }, asIs)).toBe('bei einer weiteren Note, etwa G5, Ablesungen aufnehmen, je 2 Durchgänge');
    expect(needWords({ notes: ['D5'], takes: 1, of: 'travel' }, asIs)).toBe('bei D5 eine weitere Ablesung aufnehmen');
    expect([listWords(['D5', 'F5', 'A5']), chanceWords(0.4), chanceWords(0.005)]).toEqual(['D5, F5 und A5', 'in etwa 4 von 10 Fällen', 'etwa einmal in 200 Fällen']);
  });

  test('how far the horn or the head goes along', () => {
    const follow = (low: number, high: number) => ({ ratio: { value: 0.9, sd: 0.1, low, high }, offsetDeg: 0, points: [], fitP: 0.5 });
    expect(plain(followWords(follow(0.75, 1.1), 'lateral', 'held'))).toBe('Zur Seite geht das Instrument mit dem Zahnbogen mit: Verhältnis 0,90 (0,75 bis 1,10).');
    expect(followWords(follow(-0.2, 1.2), 'elevation', 'lap')).toContain('passen diese Ablesungen zu einem Kopf, der mit dem Zahnbogen mitgeht, so gut wie zu einem still gehaltenen:');
    expect(followWords(follow(-0.2, 0.4), 'elevation', 'lap')).toContain('wird der Kopf still gehalten, soweit sich das sagen lässt:');
  });

  test('swings a millimetre brings, and takes that it would need', () => {
    const along = { fromUpDeg: 20, elevation: { value: 0.8, sd: 0.1, low: 0, high: 1 }, lateral: { value: 0, sd: 0.1, low: 0, high: 1 }, modelElevation: 1, modelLateral: 0 };
    const local: LocalShape = { degPerMm: null, covariance: null, along, modelDegPerMm: [[1, 0], [0, 1]], fitP: 0.5 };
    expect(localWords(local, 'held')).toBe(
      'Nahe der Grundstellung schwenkt jeder Millimeter entlang der Linie (nach oben und 20° zur Rechten des Spielers) den Schalltrichter um 0,8° nach oben.',
    );
    const never = { sizeMm: 1.5, takes: null };
    expect(plain(takesWords({ takesFor: { eye: never, ruler: { sizeMm: 1.5, takes: 4 }, video: { sizeMm: 1.5, takes: 1 } } }))).toBe(
      'Um eine Umkehr von 1,5 mm über die letzten drei Noten zu finden, bräuchte es: mit dem Lineal etwa 4 Durchgänge jeder Note, mit Video 1. '
        + 'Nach Augenmaß braucht es mehr, als man von jemandem verlangen kann.',
    );
  });
});

test('what a try-out is expected to bring, with the clause after “dass”', () => {
  const { record } = demoPlayers[0]!;
  const compared = compareTryOut(analyse(record), { id: 'tried', change: { kind: 'let-horn-follow' }, readings: [] });
  if (compared.kind === 'refused') throw new Error(compared.words);
  expect(expectedSentence(compared, 'held', asIs)).toMatch(
    /^Bei Bb5 erwartet das Modell, dass der Schalltrichter \d,\d° nach oben und \d,\d° nach rechts käme, von der Grundstellung aus gezählt\.$/,
  );
});

test('a lesson in a line', () => {
  const seen = { note: 'C5', travel: { upMm: 1, rightMm: 0 } };
  expect(readingsWords({ readings: [seen, { note: 'D5' }], tryOuts: [] })).toBe('2 Noten, Weg bei 1 gesehen');
});

test('a part that is more than text stands where the message puts it', () => {
  expect(textWithParts(`Was ${partOf('file')} ändern würde`, { file: 'a.json' })).toMatchObject(['Was ', { props: { children: 'a.json' } }, ' ändern würde']);
});
