import { describe, expect, test } from 'vitest';
import { parsePictureText, pictureOf, pictureText } from '../../../src/records/sharedPicture';
import { bareMeasuring } from '../../support/measurings';
import { fullPlayer } from '../../support/records';
import { EVERYTHING, UNTICKED, VIEW, unnamed } from '../../support/sharedPictures';

const ids = () => {
  let next = 0;
  return () => `id-${++next}`;
};
const shared = (choice = UNTICKED, view = VIEW) => pictureOf(fullPlayer(), 'lesson-1', view, choice);
const texts = (value: unknown): string => JSON.stringify(value);

describe('what goes along', () => {
  test('the one lesson, and nothing that names anybody, no word anybody wrote and nothing measured from films', () => {
    const { player } = shared();
    expect(player.lessons).toHaveLength(1);
    const { readings, tryOuts } = player.lessons[0]!;
    expect(readings).toHaveLength(3);
    expect(tryOuts.map(({ change }) => change.kind)).toEqual(['hold-horn', 'let-horn-follow', 'place-rim', 'bring-horn-round']);
    for (const word of ['Invented', 'player-A_1', 'lesson-1', '2026-03-01', 'after a rest', 'spoke late', 'short', 'let the horn follow', 'measuring', 'take 2 front.mp4', 'try-1"']) {
      expect(texts(shared())).not.toContain(word);
    }
  });

  test.each([
    ['label', ['Invented', '"date":"2026-03-01"']],
    ['remarks', ['after a rest', 'spoke late', 'short', 'let the horn follow']],
    ['measurings', ['"digest"', '"from":{"measuring":"measuring-1"}']],
  ] as const)('%s where it is ticked, and only that', (name, words) => {
    const one = texts(shared({ ...UNTICKED, ticks: { ...UNTICKED.ticks, [name]: true } }).player);
    const rest = texts(shared({ ...EVERYTHING, ticks: { ...EVERYTHING.ticks, [name]: false } }).player);
    for (const word of words) {
      expect(one).toContain(word);
      // The day of a film is the film’s own.
      if (!word.includes('date')) expect(rest).not.toContain(word);
    }
  });

  test('files that were measured keep their names only where the label goes along: a film is often called after whom it shows', () => {
    const both = shared({ ...UNTICKED, ticks: { label: true, remarks: false, measurings: true } });
    const films = shared({ ...UNTICKED, ticks: { label: false, remarks: false, measurings: true } });
    expect(texts(both)).toContain('take 2 front.mp4');
    expect(texts(films)).not.toContain('take 2 front.mp4');
    expect(texts(films)).toContain('"name":"film-1"');
    expect(parsePictureText(pictureText(films), ids())).toMatchObject({ kind: 'picture' });
  });

  test('a bite print only with what was measured; else the same forms that say nothing of it', () => {
    const player = fullPlayer();
    if ('single' in player.arch) throw new Error('one surface');
    const print = { jaw: 'upper', scale: { by: 'ruler', lengthMm: 50 }, scalePart: 0.001, points: Array.from({ length: 8 }, (_, x) => ({ xMm: x, yMm: x, sdMm: 0.1 })) } as const;
    const printed = { ...player, arch: { ...player.arch, measured: { family: 'sextic', measures: [], prints: [print] } } } as const;
    const given = pictureOf(printed, 'lesson-1', VIEW, UNTICKED).player.arch;
    expect(given).toEqual({ upper: player.arch.upper, lower: player.arch.lower, jaw: player.arch.jaw });
    expect(pictureOf(printed, 'lesson-1', VIEW, EVERYTHING).player.arch).toEqual(printed.arch);
    const measured = { ...player, arch: { ...player.arch, measured: { family: 'sextic', measures: [] } } } as const;
    expect(pictureOf(measured, 'lesson-1', VIEW, UNTICKED).player.arch).toEqual(measured.arch);
  });

  test('all of a lesson, all but its try-outs, or the chosen note and home', () => {
    const lesson = (extent: 'lesson' | 'readings' | 'note', selected: number) => shared({ ...UNTICKED, extent }, { ...VIEW, selected });
    expect(lesson('readings', 1).player.lessons[0]).toMatchObject({ tryOuts: [], readings: [{ note: 'F3' }, { note: 'B♭3' }, { note: 'D4' }] });
    const note = lesson('note', 2);
    expect(note.player.lessons[0]!.readings.map((reading) => reading.note)).toEqual(['F3', 'D4']);
    expect(note.view.selected).toBe(1);
    expect(lesson('note', 0).player.lessons[0]!.readings.map((reading) => reading.note)).toEqual(['F3']);
  });

  test('a lesson without readings', () => {
    const picture = pictureOf(fullPlayer(), 'lesson-2', { ...VIEW, selected: 7 }, { ...UNTICKED, extent: 'note' });
    const parsed = parsePictureText(pictureText(picture), ids());
    expect(parsed).toMatchObject({ kind: 'picture', picture: { view: { selected: 0 } } });
  });
});

describe('a picture’s text', () => {
  test('comes back with names of its own', () => {
    const parsed = parsePictureText(pictureText(shared(EVERYTHING)), ids());
    if (parsed.kind !== 'picture') throw new Error(parsed.message);
    expect(parsed.picture.player).toMatchObject({ id: 'id-1', lessons: [{ id: 'id-2' }] });
    expect(unnamed(parsed.picture)).toEqual(unnamed(shared(EVERYTHING)));
  });

  test('is not made of what could not be read again', () => {
    const player = fullPlayer();
    player.lessons[0]!.force.newtons = 900;
    expect(() => pictureText(pictureOf(player, 'lesson-1', VIEW, UNTICKED))).toThrow('force.newtons: 900; allowed');
  });

  const value = (): Record<string, unknown> => JSON.parse(pictureText(shared(EVERYTHING))) as Record<string, unknown>;
  const record = (): { players: { lessons: object[] }[] } => value()['record'] as never;
  test.each<readonly [string, unknown, string]>([
    ['no object', [], 'picture: a list of 0; allowed: an object'],
    ['another format', { ...value(), format: 'x' }, 'format: "x"; allowed: "rimpath-picture"'],
    ['a file of players', record(), 'format: "rimpath-record"; allowed: "rimpath-picture"'],
    ['a newer version', { ...value(), version: 2 }, 'version: 2 is newer than this program reads; allowed: 1'],
    ['an unknown field', { ...value(), more: 1 }, 'more: unknown field; allowed here: format, version, view, record'],
    ['another camera', { ...value(), view: { ...VIEW, camera: 'behind' } }, 'view.camera: "behind"; allowed: one of "three-quarter", "face", "mirror", "side", "above"'],
    ['no record', { ...value(), record: undefined }, 'record: missing; allowed: an object with "format": "rimpath-record"'],
    ['two players', { ...value(), record: { ...record(), players: [...record().players, { ...record().players[0], id: 'other' }] } }, 'record: more than one lesson; allowed: one player with one lesson'],
    ['two lessons', { ...value(), record: { ...record(), players: [{ ...record().players[0], lessons: [...record().players[0]!.lessons, { ...record().players[0]!.lessons[0], id: 'other', tryOuts: [], measurings: [bareMeasuring('other-measuring')] }] }] } }, 'record: more than one lesson; allowed: one player with one lesson'],
  ])('refused: %s', (_, spoilt, message) => {
    expect(parsePictureText(JSON.stringify(spoilt))).toEqual({ kind: 'refused', message });
  });

  test('no JSON', () => {
    expect(parsePictureText('{')).toMatchObject({ kind: 'refused', message: expect.stringContaining('picture: not JSON') as string });
  });
});
