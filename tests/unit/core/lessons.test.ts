import { describe, expect, it } from 'vitest';
import { lessonOf, recordOf, withLesson, withMeasuring, withRecord, withTryOut, withoutLesson, withoutMeasuring, withoutTryOut } from '../../../src/core/lessons';
import type { PlayerSpec } from '../../../src/core/specs';
import { demoPlayers } from '../../../src/records/library';

const { player } = demoPlayers[0]!;
const first = player.lessons[0]!;
const last = player.lessons.at(-1)!;

describe('a lesson as a record', () => {
  it('is the same object while nothing in it changes, even when another lesson does', () => {
    const record = recordOf(player, last);
    expect(recordOf(player, last)).toBe(record);
    const other = withLesson(player, { ...first, remark: 'another' });
    expect(recordOf(other, lessonOf(other, last.id))).toBe(record);
  });

  it('is another one where the mouth or the label changed', () => {
    const record = recordOf(player, last);
    const relabelled: PlayerSpec = { ...player, label: 'other' };
    expect(recordOf(relabelled, last)).not.toBe(record);
    expect(recordOf(relabelled, last).player.label).toBe('other');
  });

  it('stays the same where the lesson changed only in what no record holds', () => {
    const record = recordOf(player, last);
    const measured = withMeasuring(player, last.id, { id: 'm' });
    const changed = [
      measured,
      withMeasuring(measured, last.id, { id: 'm' }),
      withoutMeasuring(measured, last.id, 'm'),
      withLesson(player, { ...last, remark: 'another', toTry: 'this' }),
      withTryOut(player, last.id, { id: 'new', change: { kind: 'hold-horn' }, readings: [] }),
    ];
    for (const one of changed) {
      expect(lessonOf(one, last.id)).not.toBe(last);
      expect(recordOf(one, lessonOf(one, last.id))).toBe(record);
    }
    expect(record).not.toHaveProperty('measurings');
  });

  it('is another one where the lesson changed in what a record holds, though the readings are the same list', () => {
    const record = recordOf(player, last);
    for (const part of [{ rim: { ...last.rim } }, { force: { newtons: 3 } }, { home: { note: 'C4' } }, { upperLipShare: { ...last.upperLipShare } }]) {
      const changed = withLesson(player, { ...last, ...part });
      expect(recordOf(changed, lessonOf(changed, last.id))).not.toBe(record);
      expect(recordOf(changed, lessonOf(changed, last.id))).toMatchObject(part);
      expect(recordOf(player, last)).toBe(record);
    }
  });

  it('put back changed comes out again as it was put in, and leaves the other lessons and what no record holds', () => {
    const record = { ...recordOf(player, first), force: { newtons: 31 }, player: { label: 'X', instrument: 'tuba' } };
    const changed = withRecord(player, first.id, record);
    expect(recordOf(changed, lessonOf(changed, first.id))).toBe(record);
    expect(changed.label).toBe('X');
    expect(changed.instrument).toBe('tuba');
    expect(changed.lessons[0]).toMatchObject({ id: first.id, date: first.date, remark: first.remark, force: { newtons: 31 } });
    expect(changed.lessons.slice(1)).toEqual(player.lessons.slice(1));
  });

  it('put back unchanged gives the very same player', () => {
    expect(withRecord(player, last.id, recordOf(player, last))).toBe(player);
  });

  it('loses its home where the record has none', () => {
    const { home: _home, ...homeless } = recordOf(player, last);
    expect(lessonOf(withRecord(player, last.id, homeless), last.id)).not.toHaveProperty('home');
  });

  it('of an unknown id is the last one, and none at all is refused', () => {
    expect(lessonOf(player, 'nowhere')).toBe(last);
    expect(() => lessonOf({ ...player, lessons: [] }, last.id)).toThrow('lessons: none; allowed: at least one');
  });
});

describe('lessons and try-outs taken out and put in', () => {
  it('the only lesson stays', () => {
    const alone = { ...player, lessons: [last] };
    expect(withoutLesson(alone, last.id)).toBe(alone);
    expect(withoutLesson(player, 'nowhere')).toBe(player);
    expect(withoutLesson(player, first.id).lessons).toEqual(player.lessons.slice(1));
  });

  it('a try-out is added after the others, replaced in its place, and taken out', () => {
    const tried = { id: 'new', change: { kind: 'hold-horn' }, readings: [] } as const;
    const added = withTryOut(player, last.id, tried);
    expect(lessonOf(added, last.id).tryOuts).toEqual([...last.tryOuts, tried]);
    const again = withTryOut(added, last.id, { ...last.tryOuts[0]!, remark: 'changed' });
    expect(lessonOf(again, last.id).tryOuts.map(({ remark }) => remark)).toEqual(['changed', undefined]);
    expect(withoutTryOut(added, last.id, 'new')).toEqual(player);
  });

  it('a measuring is added after the others, replaced in its place, and taken out, and the readings stay', () => {
    const added = withMeasuring(withMeasuring(player, last.id, { id: 'm' }), last.id, { id: 'n' });
    const other = { id: 'm', kind: 'film' };
    const replaced = lessonOf(withMeasuring(added, last.id, other), last.id);
    expect(replaced.measurings).toEqual([other, { id: 'n' }]);
    expect(replaced.readings).toBe(last.readings);
    expect(withoutMeasuring(added, last.id, 'nowhere')).toBe(added);
    const without = withoutMeasuring(added, last.id, 'm');
    expect(lessonOf(without, last.id).measurings).toEqual([{ id: 'n' }]);
    expect(lessonOf(withoutMeasuring(without, last.id, 'n'), last.id)).not.toHaveProperty('measurings');
  });

  it('a lesson whose record is put back changed keeps its measurings', () => {
    const measured = withMeasuring(player, last.id, { id: 'm' });
    const changed = withRecord(measured, last.id, { ...recordOf(measured, lessonOf(measured, last.id)), force: { newtons: 9 } });
    expect(lessonOf(changed, last.id).measurings).toEqual([{ id: 'm' }]);
  });
});
