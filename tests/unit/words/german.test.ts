import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { analyse } from '../../../src/core/analyse';
import { computeBands } from '../../../src/core/bands';
import { NOTE_NAMES_ALLOWED } from '../../../src/core/noteNaming';
import { filmRefusals, stillRefusals } from '../../../src/measure/refusals';
import { lostSentence, untoldNotes } from '../../../src/notebook/measure/film/lostWords';
import { markHint, markName } from '../../../src/notebook/measure/markNames';
import { formatFixed, formatNumber, readNumber } from '../../../src/notebook/numberText';
import { aboveFigure } from '../../../src/print/aboveFigure';
import { CAUTIONS } from '../../../src/print/cautionWords';
import { boxOf } from '../../../src/print/figure';
import { handOutSentences } from '../../../src/print/handOutSentences';
import { momentWords, swingClause, swingDirection, swingMoved } from '../../../src/print/instrumentWords';
import { FIGURE_WIDTHS_MM } from '../../../src/print/paper';
import { tryOutsText } from '../../../src/print/sheetText';
import { sideFigure } from '../../../src/print/sideFigure';
import { differenceWords } from '../../../src/records/differences';
import { readingColumn, withCell } from '../../../src/records/readingColumns';
import { readingsFromTable, tableFromReadings } from '../../../src/records/readingsTable';
import { readLink } from '../../../src/records/pictureLink';
import { parsePlayersText } from '../../../src/records/schema';
import { filmFailureWords } from '../../../src/records/filmWords';
import { signedDegrees } from '../../../src/staff/layout';
import { ownStageWords } from '../../../src/stage/words';
import { speak } from '../../../src/words/language';
import { inventedFindings, inventedPlayer } from '../../support/handOutPlayers';

beforeAll(() => speak('de'));
afterAll(() => speak('en'));

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('the hand-out', () => {
  test('its three sentences, with decimal commas and their ±', () => {
    const analysis = analyse(inventedPlayer('up'));
    const { rim, horn, held } = handOutSentences({
      analysis, findings: inventedFindings, bands: computeBands(analysis), posture: 'held', noteLabel: (note) => note.replace('Bb', 'B'),
    });
    expect(plain(rim)).toBe('Nach oben durch den Tonumfang wandert der Rand 2,1 ± 0,4 mm je Oktave, aufwärts und 21° ± 8° zur Rechten des Spielers geneigt. Oberhalb von F5 kommt er um 1,6 mm zurück.');
    expect(plain(horn)).toMatch(/: Bei B5, vom Winkel der Grundstellung aus, käme der Schalltrichter \d,\d° ± \d,\d° nach oben und \d,\d° ± \d,\d° nach rechts\. Nach den Messungen ging das Instrument mit: 0,8 ± 0,3 des Schwenks auf und ab und 0,7 ± 0,4 des Schwenks zur Seite\.$/);
    expect(plain(held)).toMatch(/^Bliebe das Instrument bei B5 wie in der Grundstellung, lägen \d\d % der Kraft auf der (unteren|oberen) Hälfte des Rands\.$/);
  });

  test('a clause puts its verb where its sentence wants it', () => {
    const swing = { elevationDeg: 3, lateralDeg: -2.25 };
    expect(swingClause('held', swing)).toBe('der Schalltrichter käme 3,0° nach oben und 2,3° nach links');
    expect(swingClause('held', swing, 'that')).toBe('der Schalltrichter 3,0° nach oben und 2,3° nach links käme');
    expect(swingClause('lap', swing, 'after')).toBe('würde der Kopf sich 3,0° nach vorn neigen und sich 2,3° nach rechts drehen');
    expect(swingDirection('lap', 'lateral', 2)).toBe('Kopf dreht sich nach links');
    expect(swingMoved('held', 'elevation', 0.01)).toBe('keine Änderung nach oben oder unten');
    expect(plain(momentWords('held', { elevation: -12, lateral: 3 })!)).toBe('den Schalltrichter mit 12 N·mm nach unten und mit 3 N·mm nach rechts drücken');
  });

  test.each(['held', 'lap'] as const)('the words of the figures stay on them: %s', (posture) => {
    const analysis = analyse(inventedPlayer('up'));
    const words = { posture, noteLabel: (note: string) => note.replace('Bb', 'Es') };
    const figures = [
      sideFigure(analysis, words, { widthMm: FIGURE_WIDTHS_MM.side, heightMm: 78 }),
      aboveFigure(analysis, words, { widthMm: FIGURE_WIDTHS_MM.above, heightMm: 78 }),
    ];
    for (const { texts, widthMm } of figures) {
      expect(texts.filter((text) => boxOf(text).right > widthMm + 0.5 || boxOf(text).left < -0.5)).toEqual([]);
    }
  });

  test('try-outs and cautions', () => {
    const tryOut = { id: 'a', change: { kind: 'place-rim', upMm: -1 }, readings: [], remark: 'weich' } as const;
    expect(plain(tryOutsText([tryOut], 'held'))).toBe('Versucht: der Rand 1,0 mm tiefer. weich');
    expect(CAUTIONS.geometry).toBe('Das ist Geometrie, kein ärztlicher oder zahnärztlicher Rat.');
  });
});

test('the picture and the staff', () => {
  expect(ownStageWords().handleValue({ upMm: 1.25, rightMm: -0.5 })).toBe('1,3 mm nach oben, 0,5 mm zur Linken des Spielers');
  expect([signedDegrees(-1.25), signedDegrees(0.01)]).toEqual(['−1,3', '0,0']);
});

describe('numbers', () => {
  test('are shown with a comma and a minus sign, and typed with comma or point', () => {
    expect([formatNumber(-0.25), formatFixed(3, 1)]).toEqual(['−0,25', '3,0']);
    const range = { min: -30, max: 30, unit: 'mm' };
    for (const text of ['-1,5', '−1.5']) expect(readNumber(text, range)).toEqual({ kind: 'number', value: -1.5 });
  });
});

describe('records', () => {
  test('a refusal names the field as the file does, and says what is allowed', () => {
    expect(parsePlayersText('[]')).toMatchObject({ message: 'Datensatz: eine Liste von 0; erlaubt: ein Objekt mit "format": "rimpath-record"' });
    expect(parsePlayersText('{"format":"rimpath-record","version":9}')).toMatchObject({ message: 'version: 9 ist neuer, als dieses Programm liest; erlaubt: 1 bis 5' });
    const [short] = [{ format: 'rimpath-record', version: 2, players: [] }];
    expect(parsePlayersText(JSON.stringify(short))).toMatchObject({ message: 'players: eine Liste von 0; erlaubt: eine Liste von 1 bis 500' });
  });

  test('a link that is not ours, and one that was cut off, say so', () => {
    const said = (fragment: string): string => {
      const link = readLink(fragment);
      return link.kind === 'refused' ? link.message : link.kind;
    };
    expect(said('#/route/1')).toMatch(/^Was hinter dem # dieser Adresse steht, ist kein Bild dieses Programms\. Noch einmal/);
    expect(said('#see1=AAAA')).toContain('unterwegs abgeschnitten oder verändert. Noch einmal');
  });

  test('a cell that cannot be read says what may stand there', () => {
    const style = { naming: 'german', transpositionSemitones: 0, decimal: 'comma', form: 'page' } as const;
    expect(readingColumn('travelUp').header).toBe('Weg nach oben (mm)');
    expect(withCell({ note: 'Bb3' }, 'travelUp', '99', style)).toMatchObject({ allowed: 'eine Zahl von −60 bis 60 mm' });
    expect(withCell({ note: 'Bb3' }, 'direction', 'quer', style)).toMatchObject({ allowed: 'aufwärts oder abwärts' });
    expect(withCell({ note: 'Bb3' }, 'note', 'X', style)).toMatchObject({ allowed: NOTE_NAMES_ALLOWED.german });
    expect(withCell({ note: 'Bb3' }, 'note', 'H3', style)).toMatchObject({ reading: { note: 'B3' } });
  });

  test('a table written in German is read in German and in English, and one written in English in German', async () => {
    const readings = [{ note: 'Bb3', travel: { upMm: 1.5, rightMm: -0.25, sdMm: 0.3 }, direction: 'up', airstream: 'down', method: 'ruler', remark: 'weich; leise' }] as const;
    const styles = [
      { naming: 'german', transpositionSemitones: 2, decimal: 'comma' },
      { naming: 'scientific', transpositionSemitones: 0, decimal: 'point' },
      { naming: 'solfège', transpositionSemitones: -12, decimal: 'point' },
    ] as const;
    const other = { naming: 'scientific', transpositionSemitones: 0 } as const;
    for (const written of ['de', 'en'] as const) {
      for (const style of styles) {
        await speak(written);
        const text = tableFromReadings(readings, style);
        for (const read of ['de', 'en'] as const) {
          await speak(read);
          expect([written, read, readingsFromTable(text, other)]).toEqual([written, read, { kind: 'table', readings, wrong: [], unknownColumns: [], cellsBeyond: 0 }]);
        }
      }
    }
    await speak('de');
    expect(tableFromReadings(readings, styles[0])).toContain('Note (notiert 2 Halbtöne über klingend, deutsche Namen);Durchgang;Richtung;Weg nach oben (mm)');
  });

  test('what a file would change, with plurals', () => {
    const player = parsedPlayer();
    const [lesson] = player.lessons;
    const more = { ...player, label: 'B', lessons: [{ ...lesson!, readings: [...lesson!.readings, { note: 'C5', take: 7 }] }, { ...lesson!, id: 'neu', date: '2026-03-01' }] };
    expect(differenceWords(player, more)).toEqual([`Bezeichnung: aus „${player.label}“ wird „B“`, '1 Stunde mehr: vom 2026-03-01', expect.stringMatching(/^Stunde .+: 1 Ablesung mehr$/)]);
  });

  test('a film that is not kept', () => {
    expect(filmFailureWords(new DOMException('', 'QuotaExceededError'))).toMatch(/^Im Speicher des Browsers ist nicht genug Platz .+ Marken und Ablesungen bleiben trotzdem erhalten;/);
  });
});

describe('measuring from pictures and film', () => {
  test('why a file cannot be used, with its name in German quotes and numbers set apart by points', () => {
    expect(stillRefusals.text('a.txt').words).toBe('„a.txt“ enthält Text, kein Bild. Das Bild selbst wählen: JPEG, PNG oder WebP.');
    expect(filmRefusals.text('').words).toMatch(/^Die Datei enthält Text, keinen Film\./);
    expect(filmRefusals.tooManyFrames(144_007, 72_000).words).toContain('hat 144.007 Bilder; lesen lassen sich höchstens 72.000.');
    expect(filmRefusals.tooLarge(8192, 4320, 9.4e6).words).toContain('höchstens 9,4 Millionen px');
  });

  test('which mark is next, and what was lost of the marks', () => {
    expect([markName('rim-2'), markName('horn-to'), markHint('level-from', 'above')]).toEqual(['Rand, Punkt 3', 'Instrument, zum Schalltrichter hin', 'die Mitte des Hinterkopfs']);
    const lost = { what: markName('horn-to'), kind: 'other', cost: 'some', startS: 3.2, endS: 5.1 } as const;
    expect(plain(lostSentence({ ...lost, part: 0.62 }))).toMatch(/^Instrument, zum Schalltrichter hin: verloren in 62 % des Films, am längsten von 3,20 bis 5,10 s; dort fehlt ein Teil der Zahlen\. Die Marke dort neu setzen/);
    expect(lostSentence({ ...lost, part: 1 })).toContain(': verloren im ganzen Film, am längsten');
    const notes = [2.1, 3.8, 4, 5, 6].map((startS) => ({ name: 'B4', startS }));
    expect(untoldNotes('travel', notes.slice(0, 1), 7)).toBe('Der Weg ist bei 1 von 7 Noten nicht angegeben: B4 bei 2,10 s.');
    expect(untoldNotes('lateral', notes, 7)).toMatch(/^Der Winkel des Instruments zur Rechten ist bei 5 von 7 Noten nicht angegeben: .+ und 1 weitere\.$/);
  });
});

function parsedPlayer() {
  const { player, readings, rim, force, upperLipShare, arch, lips } = inventedPlayer('up');
  return { id: 'p', label: player.label, instrument: player.instrument, arch, lips, lessons: [{ id: 'l', rim, force, upperLipShare, readings, tryOuts: [] }] };
}
