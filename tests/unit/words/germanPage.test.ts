/** German sentences of the page, the class, two players and what leaves the page, where words change their order or numbers their signs. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { differWords, fromToWords } from '../../../src/app/beside/words';
import { answersFor, followedWords, heldWords, placeWords, swingLabel } from '../../../src/app/class/words';
import { notebookLibrary } from '../../../src/app/library';
import { lapSwingWords } from '../../../src/app/staffNotes';
import { finenessWords, pegWords, sizeWords } from '../../../src/notebook/share/holdWords';
import { captionWords, filmProgress } from '../../../src/notebook/share/pictureWords';
import { lengthWords, whatGoesWords } from '../../../src/notebook/share/words';
import { swingBeside, swingClause } from '../../../src/print/instrumentWords';
import { refusalWords } from '../../../src/solids/refusalWords';
import { sayPage } from '../../../src/words/page';
import { speak } from '../../../src/words/language';

beforeAll(() => speak('de'));
afterAll(() => speak('en'));

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');
const swing = { elevationDeg: 4.3, lateralDeg: 0 };

describe('the page', () => {
  test('names what is ready made', () => {
    expect(notebookLibrary.instruments.map(({ name }) => name)).toContain('Trompete in B');
    expect([notebookLibrary.arches[0]?.name, notebookLibrary.rims[1]?.name]).toEqual(['Durchschnitt', 'Waldhorn']);
  });

  test('counts, and names clefs', () => {
    expect([sayPage('takenIn', { count: 1 }), sayPage('savedNotAll', { count: 3, damaged: 1 })]).toEqual([
      'Übernommen: 1 Spieler.',
      'Gesichert: 3 Spieler. 1 hier aufbewahrter Spieler lässt sich nicht lesen und konnte nicht in die Datei.',
    ]);
    expect(sayPage('clef', { clef: 'treble', transposed: 'yes' })).toBe('Violinschlüssel, transponiert');
    expect(sayPage('lessonPlace', { place: 2, dated: 'yes', day: '1. März 2026' })).toBe('2, 1. März 2026');
  });

  test('an angle beside the horn, and the head in its place', () => {
    expect([plain(swingBeside('held', 'elevation', -3.42)), swingBeside('lap', 'lateral', 1.2)]).toEqual(['3,4° abwärts', 'Kopf 1,2° nach links']);
    expect(lapSwingWords().elevation).toEqual({ heading: 'vor', positive: 'Kopf nach vorn', negative: 'Kopf nach hinten' });
  });
});

describe('the class', () => {
  test('what was seen, with the verb where German has it', () => {
    expect(plain(followedWords(placeWords(4, -0.6), swingClause('held', swing, 'after')))).toBe('Mit dem Rand 4,0 mm nach oben und 0,6 mm nach links käme der Schalltrichter 4,3° nach oben.');
    expect(followedWords(placeWords(0, 0), swingClause('lap', { elevationDeg: 0, lateralDeg: 0 }, 'after'))).toBe('Mit dem Rand in der Grundstellung bliebe der Kopf, wie er ist.');
    expect(plain(heldWords(placeWords(4, 0), { upper: 0.7, lower: 0.3, right: 0.5, left: 0.5 }))).toBe(
      'Festgehalten, mit dem Rand 4,0 mm nach oben: 70 % der Kraft auf der oberen Hälfte, 30 % auf der unteren.',
    );
    expect(answersFor('bell to the side', 'held')).toEqual(['zur Rechten des Spielers', 'zur Linken des Spielers', 'bleibt']);
    expect(plain(swingLabel('held', { elevationDeg: 3.4, lateralDeg: 0.01 }))).toBe('3,4° aufwärts');
  });

  test('two players', () => {
    expect(plain(fromToWords('B3', 'F4', { upMm: 2.6, rightMm: 0.4 }, swingClause('held', swing)))).toBe(
      'Von B3 bis F4 wandert der Rand 2,6 mm nach oben und 0,4 mm nach rechts; der Schalltrichter käme 4,3° nach oben.',
    );
    expect(fromToWords(null, 'F4', { upMm: 0, rightMm: 0.01 }, swingClause('held', swing))).toMatch(/^Von der Grundstellung bis F4 bleibt der Rand, wo er ist; /);
    expect(plain(differWords({ upMm: 1.25, rightMm: 0, elevationDeg: 10, lateralDeg: 0.5 }))).toBe(
      'Zwischen den beiden: 1,3 mm Weg auf und ab und 0,0 mm zur Seite, 10,0° Schwenk auf und ab und 0,5° zur Seite.',
    );
  });
});

describe('what leaves the page', () => {
  const nothing = { label: false, remarks: false, measurings: false };

  test('what goes along, and what stays', () => {
    expect(whatGoesWords({ choice: { extent: 'lesson', ticks: nothing }, readings: 8, tryOuts: 1, measurings: 2 })).toBe(
      'Dabei sind: Zähne, Lippen, Rand und Kraft; 8 Ablesungen und 1 Versuch; das Bild, wie es gerade zu sehen ist. Ohne Bezeichnung, ohne Tag, ohne Bemerkungen, ohne das aus Filmen Gemessene.',
    );
    expect(whatGoesWords({ choice: { extent: 'note', ticks: { label: true, remarks: true, measurings: false } }, readings: 8, tryOuts: 1, measurings: 2 })).toMatch(
      /; die gewählte Note und die Grundstellung; .+ Ohne das aus Filmen Gemessene\.$/,
    );
    expect(whatGoesWords({ choice: { extent: 'readings', ticks: { label: true, remarks: true, measurings: true } }, readings: 1, tryOuts: 4, measurings: 2 })).toMatch(
      /; 1 Ablesung; das Bild, wie es gerade zu sehen ist\.$/,
    );
    expect(lengthWords(1234)).toBe('1\u202f234 Zeichen.');
  });

  test('things to hold', () => {
    const figures = { sizeMm: [57.6, 49.2, 40], backMm: 0, bodies: 2, triangles: 12345, volumeMm3: 1, chordMm: 0.0149, raised: [] } as const;
    expect(sizeWords('upper', figures, 27.25)).toMatch(/^58 × 49 × 40 mm; .+ ein echter Rand von 27,3 mm rollt darüber\.$/);
    expect(sizeWords('pegs', figures, 27)).toBe('Ein Träger und 1 Stab, nebeneinander 58 × 49 × 40 mm; jeder lässt sich stehend drucken, ohne Stützen.');
    expect(finenessWords('rim', figures)).toBe('12345 Dreiecke, höchstens 0,015 mm neben dem eigenen Profil des Rands.');
    expect(pegWords(['1', '2'], ['H3', 'Cis4'], 1)).toMatch(/^Erhaben auf den Füßen: 1 ist H3, 2 ist Cis4\. 1 Note dazwischen ist weggelassen\. Ein Stab /);
    expect(refusalWords({ reason: 'thin-rim', leastMm: 0.8 })).toBe('Dieser Rand ist weniger als 0,8 mm breit: zu dünn zum Drucken.');
  });

  test('pictures and films', () => {
    expect(plain(filmProgress(0.4, 40.2))).toBe('Der Film wird hergestellt: 40 %, noch etwa 40 s');
    expect(captionWords('H4', { upMm: 2, rightMm: 0 }, swing, 'held', true)).toMatch(/ Festgehalten; beim Mitgehen käme der Schalltrichter 4,3° nach oben\.$/);
  });
});
