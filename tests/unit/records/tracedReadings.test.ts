import { describe, expect, it } from 'vitest';
import { measuringIdIn, withMeasuring, withoutMeasuring } from '../../../src/core/lessons';
import type { LessonSpec, PlayerSpec } from '../../../src/core/specs';
import { originWords } from '../../../src/notebook/readings/ReadingOrigin';
import { faultOfPlayer } from '../../../src/records/schema';
import { deletingWords, faultOfMeasuring, measuringsInUse, originOf, readingsFrom } from '../../../src/records/tracedReadings';
import { bareMeasuring, fullMeasuring } from '../../support/measurings';
import { fullPlayer } from '../../support/records';

const player: PlayerSpec = fullPlayer();
const [lesson] = player.lessons as [LessonSpec];
const from = (seen: object) => ({ from: { measuring: 'measuring-1', ...seen } });

describe('where a reading was seen', () => {
  it('is the frame in its own film’s time', () => {
    const found = originOf(lesson, lesson.readings[0]!);
    expect(found).toMatchObject({ kind: 'found', sourceIndex: 1, source: { name: 'take 2 side.mov' }, measuring: { id: 'measuring-1' } });
    // 1.5 s of the first film; the side film's times come to the first's with −1.204 s.
    expect(found.kind === 'found' && found.frameS).toBe(1.5 + 1.204);
  });

  it.each<[string, object, number | null]>([
    ['the frame that is named', { startS: 1, endS: 2, atS: 1.25 }, 1.25],
    ['else the middle of the stretch', { startS: 1, endS: 2 }, 1.5],
    ['else its beginning', { startS: 1 }, 1],
    ['else nobody knows', {}, null],
  ])('%s', (_, seen, frameS) => {
    expect(originOf(lesson, from(seen))).toMatchObject({ kind: 'found', sourceIndex: 0, frameS });
  });

  it('says from how many frames, where the measuring still holds that', () => {
    expect(originOf(lesson, from({ source: 1, startS: 1.08, endS: 1.84 }))).toMatchObject({ frames: 23 });
    expect(originOf(lesson, from({ startS: 1, endS: 2 }))).toMatchObject({ frames: null });
    expect(originOf(lesson, from({}))).toMatchObject({ frames: null });
  });

  it('says where a number was changed by hand since', () => {
    const measured = { note: 'F3', ...from({ source: 1, startS: 1.08, endS: 1.84 }), travel: { upMm: 0.4, rightMm: -0.2 }, horn: { elevationDeg: -8, lateralDeg: 1 }, upperLipShare: 0.62 };
    expect(originOf(lesson, measured)).toMatchObject({ isChanged: false });
    expect(originOf(lesson, { ...measured, travel: { upMm: 0.9, rightMm: -0.2 } })).toMatchObject({ isChanged: true });
    expect(originOf(lesson, { ...measured, horn: { elevationDeg: -8, lateralDeg: 1, sdDeg: 45 } })).toMatchObject({ isChanged: true });
    expect(originOf(lesson, { ...measured, ease: 2, jaw: { openingMm: 9 } })).toMatchObject({ isChanged: false });
    const changed = originOf(lesson, { ...measured, upperLipShare: 0.5 });
    expect(changed.kind === 'found' && originWords(changed)).toBe('Measured from take 2 side.mov at 2.66 s (23 frames), since changed by hand.');
  });

  it('is nowhere for what was typed', () => {
    expect(originOf(lesson, {})).toEqual({ kind: 'none' });
  });

  it('is told to be gone, or unreadable', () => {
    expect(originOf(player.lessons[1]!, lesson.readings[0]!)).toEqual({ kind: 'gone', message: 'The measuring this reading came from has been deleted, so its frame cannot be shown.' });
    expect(originOf(lesson, from({ source: 2 }))).toMatchObject({ kind: 'gone', message: expect.stringContaining('no longer holds its picture') as unknown });
    expect(originOf({ ...lesson, measurings: [{ id: 'measuring-1' }] }, from({}))).toMatchObject({ kind: 'gone', message: expect.stringContaining('cannot be read (kind: missing;') as unknown });
  });
});

describe('deleting a measuring', () => {
  it('says what stays and what is lost', () => {
    expect(readingsFrom(lesson, 'measuring-1')).toBe(2);
    expect(deletingWords(lesson, 'measuring-1')).toBe(
      'Its marks and what was followed are deleted, and a film that was kept with it. The 2 readings that came from it stay, but can no longer be traced back to a frame or measured again.',
    );
    expect(deletingWords(lesson, 'measuring-2')).toContain('No reading came from it.');
    const tried = { ...lesson, readings: [], tryOuts: [{ ...lesson.tryOuts[0]!, readings: [{ note: 'F3', ...from({}) }] }] };
    expect(deletingWords(tried, 'measuring-1')).toContain('The 1 reading that came from it stays,');
  });

  it('leaves the readings, which then came from something that is gone', () => {
    const without = withoutMeasuring(player, lesson.id, 'measuring-1').lessons[0]!;
    expect(without.readings).toBe(lesson.readings);
    expect(without.measurings?.map(({ id }) => id)).toEqual(['measuring-2']);
    expect(originOf(without, without.readings[0]!).kind).toBe('gone');
  });
});

describe('putting a measuring in', () => {
  it('is asked first whether the lesson could be kept with it', () => {
    expect(faultOfMeasuring(lesson, fullMeasuring())).toBeNull();
    expect(faultOfMeasuring(lesson, { ...bareMeasuring('m'), date: 'today' } as never)).toBe('date: "today"; allowed: a day of the calendar such as 2026-03-01');
    const full = { ...lesson, measurings: Array.from({ length: 50 }, (_, at) => bareMeasuring(`m${at}`)) };
    expect(faultOfMeasuring(full, bareMeasuring('one-more'))).toBe('measurings: 50 already; allowed: up to 50 in a lesson');
    // In the place of one that is there.
    expect(faultOfMeasuring(full, bareMeasuring('m7'))).toBeNull();
  });
});

describe('films that are accepted in two lessons', () => {
  it('are a measuring of its own in each, or the player could not be kept', () => {
    const other = player.lessons[1]!.id;
    const measuring = fullMeasuring();
    expect(measuringIdIn(player, lesson.id, measuring.id, () => 'new')).toBe(measuring.id);
    expect(measuringIdIn(player, other, 'not-there-yet', () => 'new')).toBe('not-there-yet');
    const id = measuringIdIn(player, other, measuring.id, () => 'new');
    expect(id).toBe('new');
    expect(faultOfPlayer(withMeasuring(player, other, { ...measuring, id }))).toBeNull();
    expect(faultOfPlayer(withMeasuring(player, other, measuring))).toContain('the same id twice');
  });
});

describe('the measurings in use', () => {
  const kept = (one: PlayerSpec) => ({ player: one, revision: 1, changedAt: 0 });
  it('are those of everybody who is kept and of whoever else is handed in', () => {
    const open = withMeasuring(player, 'lesson-2', bareMeasuring('new'));
    expect(measuringsInUse({ players: [kept(player)], damaged: [], message: null }, [open])).toEqual(new Set(['measuring-1', 'measuring-2', 'new']));
  });

  it('are unknown where somebody could not be read', () => {
    expect(measuringsInUse({ players: [kept(player)], damaged: [{ id: 'x', message: '', text: '' }], message: null })).toBeNull();
    expect(measuringsInUse({ players: [], damaged: [], message: 'failed' })).toBeNull();
  });
});
