import { describe, expect, test } from 'vitest';
import { rimWidthMm, sidewaysSign, unitMm } from '../../../src/notebook/entry';
import { momentWords, swingDirection } from '../../../src/print/instrumentWords';
import { UNSEEN_HORN_SD_DEG } from '../../../src/core/readings';
import { angleWords, fromHomeWords, unseenAtHomeWords } from '../../../src/notebook/hornWords';
import { noteNamed } from '../../../src/core/noteNaming';
import { shownNote } from '../../../src/notebook/noteNames';

describe('words that follow the instrument', () => {
  test('a held horn moves at the bell', () => {
    expect(swingDirection('held', 'elevation', 2)).toBe('bell up');
    expect(swingDirection('held', 'elevation', -2)).toBe('bell down');
    expect(swingDirection('held', 'lateral', 2)).toBe('bell to the right');
    expect(swingDirection('held', 'lateral', -2)).toBe('bell to the left');
  });

  test('on the lap the head moves, and the other way', () => {
    expect(swingDirection('lap', 'elevation', 2)).toBe('head tips forward');
    expect(swingDirection('lap', 'elevation', -2)).toBe('head tips back');
    expect(swingDirection('lap', 'lateral', 2)).toBe('head turns to the left');
    expect(swingDirection('lap', 'lateral', -2)).toBe('head turns to the right');
  });

  test('the hands push with what they supply, or not at all', () => {
    expect(momentWords('held', { elevation: -29.4, lateral: 20.6 })?.replaceAll('\u00a0', ' ')).toBe(
      'push the bell down with 29 N·mm and to the right with 21 N·mm',
    );
    expect(momentWords('held', { elevation: 0.4, lateral: -0.4 })).toBeNull();
  });
});

describe('the horn’s own angles', () => {
  const horn = { elevationDeg: -10.26, lateralDeg: 2.7, sdDeg: 1, lateralSdDeg: 2 };
  const upUnseen = { ...horn, sdDeg: UNSEEN_HORN_SD_DEG };
  const rightUnseen = { ...horn, lateralSdDeg: UNSEEN_HORN_SD_DEG };

  test('only what was seen is told', () => {
    expect(angleWords(horn)).toBe('10.3° down, 2.7° right');
    expect(angleWords({ elevationDeg: null, lateralDeg: -2.7 })).toBe('2.7° left');
    const home = 'From the horn measured at home this makes 1.0° up';
    const seenHere = [horn, upUnseen, rightUnseen, { ...upUnseen, ...{ lateralSdDeg: UNSEEN_HORN_SD_DEG } }, null];
    expect(seenHere.map((measured) => fromHomeWords({ elevationDeg: 1, lateralDeg: null }, measured))).toEqual([
      ...[`${home}; measured here: 10.3° down, 2.7° right.`, `${home}; measured here: 2.7° right.`, `${home}; measured here: 10.3° down.`, `${home}.`, `${home}.`],
    ]);
  });

  test('what was not seen at home is named', () => {
    expect(unseenAtHomeWords(horn)).toBe('');
    expect(unseenAtHomeWords(upUnseen)).toBe('Up and down the horn was not seen at home: only the change is known.');
    expect(unseenAtHomeWords(rightUnseen)).toBe('Sideways the horn was not seen at home: only the change is known.');
  });
});

describe('how travel is typed', () => {
  const rim = { innerDiameterMm: 16, outerDiameterMm: 27, highPointDiameterMm: 21, contourRadiusMm: null };

  test('one rim width is from the inner to the outer edge', () => {
    expect(rimWidthMm(rim)).toBe(5.5);
    expect(unitMm('rim widths', rim)).toBe(5.5);
    expect(unitMm('mm', rim)).toBe(1);
  });

  test('only facing the player is the sign turned: a mirror shows the player’s right on the right', () => {
    expect([sidewaysSign('player'), sidewaysSign('mirror'), sidewaysSign('facing')]).toEqual([1, 1, -1]);
  });
});

describe('note names', () => {
  test('as sounding keep their spelling', () => {
    expect(shownNote('F#4', 0)).toBe('F♯4');
    expect(shownNote('Gb4', 0)).toBe('G♭4');
  });

  test('as written are transposed, both ways', () => {
    // Common practice, no published source: a trumpet in B flat is written a tone higher than it sounds.
    expect(shownNote('Bb4', 2)).toBe('C5');
    expect(noteNamed('C5', { naming: 'scientific', transpositionSemitones: 2 })).toBe('Bb4');
  });

  test('printed signs and small letters are read', () => {
    const sounding = { naming: 'scientific', transpositionSemitones: 0 } as const;
    expect(noteNamed('b♭3', sounding)).toBe('Bb3');
    expect(noteNamed('f♯4', sounding)).toBe('F#4');
    expect(noteNamed('H4', sounding)).toBeNull();
  });
});
