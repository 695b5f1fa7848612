import { describe, expect, expectTypeOf, it } from 'vitest';
import { travelSds } from '../../../src/core/readings';
import type { KeptMeasuring, ReadingSpec } from '../../../src/core/specs';
import { LONGEST_FILE_NAME, type FileMark } from '../../../src/measure/fileMark';
import type { CameraSpec, PictureMarks, ViewFrom } from '../../../src/measure/marks';
import { LONGEST_SERIES } from '../../../src/measure/packedSeries';
import { MOST_TRACED_FRAMES, type PackedTrace } from '../../../src/measure/packedTrace';
import type { HeadSample, NoteHeard } from '../../../src/measure/traces';
import {
  type AcceptedReading, LONGEST_KEPT_NAME, LONGEST_KEPT_SERIES, MOST_KEPT_FRAMES, type Measuring, type MeasuringSource, readMeasuring,
} from '../../../src/records/measuringSchema';
import { faultOfPlayer, parsePlayers, parsePlayersText, playersFile, playersFileText } from '../../../src/records/schema';
import { bareMeasuring, fullMeasuring } from '../../support/measurings';
import { type Mutable, fullPlayer } from '../../support/records';

const refusal = (spoil: (one: Mutable<Measuring>) => void): string => {
  const one = fullMeasuring();
  spoil(one);
  const read = readMeasuring(one);
  return read.kind === 'refused' ? read.message : 'read';
};

describe('a kept measuring', () => {
  it('comes through whole, with everything in it and with nothing that may be absent', () => {
    for (const one of [fullMeasuring(), bareMeasuring('m')]) {
      expect(readMeasuring(one)).toEqual({ kind: 'measuring', measuring: one });
      expect(readMeasuring(JSON.parse(JSON.stringify(one)) as KeptMeasuring)).toEqual({ kind: 'measuring', measuring: one });
    }
  });

  it('is read once: the same object is known again', () => {
    const one: KeptMeasuring = fullMeasuring();
    const [first, again] = [readMeasuring(one), readMeasuring(one)];
    expect(first.kind === 'measuring' && again.kind === 'measuring' && first.measuring === again.measuring).toBe(true);
  });

  it('has the shapes of what is measured', () => {
    type Marks = MeasuringSource['anchors'][number]['marks'];
    expectTypeOf<Mutable<PictureMarks>>().toEqualTypeOf<Mutable<Marks>>();
    expectTypeOf<Mutable<PackedTrace>>().toEqualTypeOf<Mutable<NonNullable<MeasuringSource['trace']>>>();
    expectTypeOf<Mutable<NoteHeard>>().toEqualTypeOf<Mutable<NonNullable<Measuring['sound']>['notes'][number]>>();
    expectTypeOf<MeasuringSource['view']>().toEqualTypeOf<ViewFrom>();
    expectTypeOf<MeasuringSource>().toExtend<CameraSpec>();
    expectTypeOf<MeasuringSource>().toExtend<FileMark>();
    type Travel = NonNullable<HeadSample['travel']>;
    // Up to version 4 one deviation stood for both.
    expectTypeOf<Omit<NonNullable<AcceptedReading['travel']>, 'rightSdMm'>>().toEqualTypeOf<Mutable<Omit<Travel, 'rightSdMm'>>>();
    expectTypeOf<NonNullable<AcceptedReading['travel']>['rightSdMm']>().toEqualTypeOf<Travel['rightSdMm'] | undefined>();
    expectTypeOf<NonNullable<AcceptedReading['elevation']>>().toEqualTypeOf<Mutable<NonNullable<HeadSample['elevation']>>>();
    expectTypeOf<NonNullable<AcceptedReading['lateral']>>().toEqualTypeOf<Mutable<NonNullable<HeadSample['lateral']>>>();
    expectTypeOf<Measuring>().toExtend<KeptMeasuring>();
    expect([MOST_KEPT_FRAMES, LONGEST_KEPT_SERIES, LONGEST_KEPT_NAME]).toEqual([MOST_TRACED_FRAMES, LONGEST_SERIES, LONGEST_FILE_NAME]);
  });

  it.each<[string, (one: Mutable<Measuring>) => void, string]>([
    ['another kind', (one) => (one.kind = 'dream' as never), 'kind: "dream"; allowed: one of "pictures", "film"'],
    ['no day', (one) => (one.date = '2026-02-30'), 'date: "2026-02-30"; allowed: a day of the calendar such as 2026-03-01'],
    ['no source', (one) => (one.sources = []), 'sources: a list of 0; allowed: a list of 1 to 40'],
    ['a view from below', (one) => (one.sources[0]!.view = 'below' as never), 'sources[0].view: "below"; allowed: one of "front", "right", "left", "above"'],
    ['an empty file', (one) => (one.sources[0]!.bytes = 0), 'sources[0].bytes: 0; allowed: a whole number from 1 to 1000000000000 bytes'],
    ['no digest', (one) => (one.sources[0]!.digest = '0123'), 'sources[0].digest: "0123"; allowed: a text of 16 of the characters 0–9 and a–f'],
    ['no name', (one) => (one.sources[0]!.name = ''), 'sources[0].name: ""; allowed: a text of 1 to 200 characters'],
    ['half a pixel', (one) => (one.sources[0]!.width = 0.5), 'sources[0].width: 0.5; allowed: a whole number from 1 to 30000 px'],
    ['no focal length', (one) => (one.sources[0]!.focalPx = 0), 'sources[0].focalPx: 0; allowed: a number above 0 and up to 1000000 px'],
    ['a place that is none', (one) => (one.sources[0]!.anchors[0]!.marks.rim![1]!.x = Number.NaN), 'sources[0].anchors[0].marks.rim[1].x: NaN; allowed: a number from -100000 to 100000 px'],
    ['a far mark in the rim’s own plane', (one) => (one.sources[0]!.anchors[0]!.marks.hornMarkMm = { value: 0, sd: 1 }), 'sources[0].anchors[0].marks.hornMarkMm.value: 0; allowed: a number above 0 and up to 5000 mm'],
    ['a far mark known exactly', (one) => (one.sources[0]!.anchors[0]!.marks.hornMarkMm = { value: 40, sd: 0 }), 'sources[0].anchors[0].marks.hornMarkMm.sd: 0; allowed: a number above 0 and up to 5000 mm'],
    ['an unknown landmark', (one) => ((one.sources[0]!.anchors[1]!.marks.landmarks as Record<string, unknown>).chin = { x: 1, y: 1 }), 'sources[0].anchors[1].marks.landmarks.chin: unknown field; allowed here: nose-bridge, inner-eye-right, inner-eye-left, outer-eye-right, outer-eye-left, cheekbone-right, cheekbone-left, ear-right, ear-left'],
    ['endless marks', (one) => (one.sources[0]!.anchors[0]!.marks.lipLine = Array.from({ length: 101 }, () => ({ x: 0, y: 0 }))), 'sources[0].anchors[0].marks.lipLine: a list of 101; allowed: a list of 0 to 100'],
    ['too many frames', (one) => (one.sources[0]!.trace!.frames = 72_001), 'sources[0].trace.frames: 72001; allowed: a whole number from 0 to 72000'],
    ['an endless series', (one) => (one.sources[0]!.trace!.times = 'A'.repeat(3_000_001)), `sources[0].trace.times: "${'A'.repeat(60)}…"; allowed: a text of up to 3000000 characters`],
    ['a sum that is none', (one) => (one.sources[0]!.trace!.check = 2 ** 32), 'sources[0].trace.check: 4294967296; allowed: a whole number from 0 to 4294967295'],
    ['a note that ends first', (one) => (one.sound!.notes[0]!.endS = 1), 'sound.notes[0].endS: 1; allowed: startS, 1.02 s, or later'],
    ['an unheard pitch', (one) => (one.sound!.notes[0]!.midi = 128), 'sound.notes[0].midi: 128; allowed: a number from 0 to 127 MIDI'],
    ['too long a film', (one) => (one.sound!.notes[0]!.endS = 21_601), 'sound.notes[0].endS: 21601; allowed: a number from -60 to 21600 s'],
    ['a stretch that ends first', (one) => (one.accepted[0]!.endS = 0), 'accepted[0].endS: 0; allowed: startS, 1.08 s, or later'],
    ['a source that is not there', (one) => (one.accepted[0]!.source = 2), 'accepted[0].source: 2; allowed: a whole number from 0 to 1'],
    ['an exact travel', (one) => (one.accepted[0]!.travel!.sdMm = 0), 'accepted[0].travel.sdMm: 0; allowed: a number from 0.001 to 20 mm'],
    ['an angle that is none', (one) => (one.accepted[0]!.elevation!.deg = 81), 'accepted[0].elevation.deg: 81; allowed: a number from -80 to 80 degrees'],
    ['a whole share', (one) => (one.accepted[0]!.upperLipShare = 1), 'accepted[0].upperLipShare: 1; allowed: a number above 0 and below 1'],
    ['something else', (one) => ((one as Record<string, unknown>).film = 'x'), 'film: unknown field; allowed here: id, kind, date, take, home, sources, sound, accepted'],
  ])('with %s is refused', (_, spoil, message) => {
    expect(refusal(spoil)).toBe(message);
  });
});

describe('a file with measurings', () => {
  const withLesson = (measurings: readonly unknown[], from?: unknown): unknown => {
    const player = fullPlayer();
    const [first, second] = player.lessons;
    return { format: 'rimpath-record', version: 3, players: [{ ...player, lessons: [{ ...first, measurings }, { ...second, readings: [{ note: 'F3', ...(from !== undefined && { from }) }] }] }] };
  };
  const message = (value: unknown): string => {
    const parsed = parsePlayers(value);
    return parsed.kind === 'refused' ? parsed.message : 'read';
  };

  it('is of version 3 where films were measured; one without stays of version 2, so that older programs can read it', () => {
    const player = fullPlayer();
    const filmed = { ...player, lessons: player.lessons.map((one) => ({ ...one, ...(one.measurings && { measurings: [fullMeasuring()] }) })) };
    expect(playersFile([filmed]).version).toBe(3);
    const [lesson] = player.lessons;
    const { measurings: _measurings, ...unmeasured } = { ...lesson!, readings: [{ note: 'F3' }], tryOuts: [] };
    expect(playersFile([{ ...player, lessons: [unmeasured] }]).version).toBe(2);
    const pointing: ReadingSpec = { note: 'F3', from: { measuring: 'gone' } };
    expect(playersFile([{ ...player, lessons: [{ ...unmeasured, readings: [pointing] }] }]).version).toBe(3);
    expect(playersFile([{ ...player, lessons: [{ ...unmeasured, tryOuts: [{ id: 't', change: { kind: 'hold-horn' }, readings: [pointing] }] }] }]).version).toBe(3);
    expect(parsePlayersText(playersFileText([filmed]))).toEqual({ kind: 'players', players: [filmed], fromVersion: 3 });
  });

  it('is of version 4 where pictures were measured or a home was chosen, and 3 may not hold what only 4 knows', () => {
    const player = fullPlayer();
    const withOne = (measuring: object): typeof player => ({ ...player, lessons: [{ ...player.lessons[0]!, measurings: [measuring as KeptMeasuring] }] });
    expect(playersFile([withOne({ ...bareMeasuring('m'), kind: 'pictures' })]).version).toBe(4);
    expect(playersFile([withOne({ ...bareMeasuring('m'), kind: 'film', home: 'F3' })]).version).toBe(4);
    expect(message({ ...(withLesson([{ ...bareMeasuring('m'), home: 'F3' }]) as object), version: 3 })).toBe('version: 3; allowed: 4 or more where a method is "picture", or a measuring has home');
    const typed: ReadingSpec = { note: 'F3', method: 'picture' };
    const plain = { ...player, lessons: [{ ...player.lessons[0]!, readings: [typed], tryOuts: [], measurings: undefined }] };
    expect(playersFile([plain as never]).version).toBe(4);
  });

  it('is of version 5 where a travel has a deviation to the right, in a reading or as it was accepted, which 4 may not hold', () => {
    const player = fullPlayer();
    const [lesson] = player.lessons;
    const { measurings: _measurings, ...unmeasured } = lesson!;
    const travel = { upMm: 1, rightMm: 0, sdMm: 0.2, rightSdMm: 0.4 };
    const typed = { ...player, lessons: [{ ...unmeasured, readings: [{ note: 'F3', travel }], tryOuts: [] }] };
    expect(playersFile([typed]).version).toBe(5);
    expect(parsePlayersText(playersFileText([typed]))).toEqual({ kind: 'players', players: [typed], fromVersion: 5 });
    expect(message({ ...playersFile([typed]), version: 4 })).toBe('version: 4; allowed: 5 where a travel has rightSdMm');
    const tried = { ...typed, lessons: [{ ...unmeasured, readings: [], tryOuts: [{ id: 't', change: { kind: 'hold-horn' as const }, readings: [{ note: 'F3', travel }] }] }] };
    expect(playersFile([tried]).version).toBe(5);
    const accepted = { ...player, lessons: [{ ...unmeasured, measurings: [{ ...bareMeasuring('m'), accepted: [{ note: 'F3', travel, frames: 9 }] }] }] };
    expect(playersFile([accepted]).version).toBe(5);
    // One deviation for both goes on being read by older programs.
    const { rightSdMm: _right, ...one } = travel;
    expect(playersFile([{ ...typed, lessons: [{ ...typed.lessons[0]!, readings: [{ note: 'F3', travel: one }] }] }]).version).toBe(2);
  });

  it('of version 4 is read as it stands: its one deviation is that of either', () => {
    const player = fullPlayer();
    const file = { format: 'rimpath-record', version: 4, players: [{ ...player, lessons: [{ ...player.lessons[0]!, readings: [{ note: 'F3', method: 'picture', travel: { upMm: 1, rightMm: 0, sdMm: 0.2 } }] }] }] };
    const parsed = parsePlayersText(JSON.stringify(file));
    expect(parsed).toEqual({ kind: 'players', players: file.players, fromVersion: 4 });
    if (parsed.kind === 'players') expect(travelSds(parsed.players[0]!.lessons[0]!.readings[0]!)).toEqual({ sdMm: 0.2, rightSdMm: 0.2 });
  });

  it('of version 3 has its readings from pictures called so; those from films, typed ones and all of version 4 stay', () => {
    const value = withLesson([{ ...bareMeasuring('p'), kind: 'pictures' }, { ...bareMeasuring('f'), kind: 'film' }]) as { players: [{ lessons: [{ readings: ReadingSpec[]; tryOuts: { readings: ReadingSpec[] }[] }] }] };
    const [lesson] = value.players[0].lessons;
    lesson.readings = [
      { note: 'F3', method: 'video', from: { measuring: 'p' } },
      { note: 'F3', method: 'video', from: { measuring: 'f' } },
      { note: 'F3', method: 'video' },
      { note: 'F3', method: 'ruler', from: { measuring: 'p' } },
    ];
    const methods = (version: number): unknown => {
      const parsed = parsePlayers({ ...value, version });
      return parsed.kind === 'players' ? parsed.players[0]!.lessons[0]!.readings.map(({ method }) => method) : parsed.message;
    };
    expect(methods(3)).toEqual(['picture', 'video', 'video', 'ruler']);
    expect(methods(4)).toEqual(['video', 'video', 'video', 'ruler']);
  });

  it('that calls itself version 2 is refused', () => {
    expect(message({ ...(withLesson([]) as object), version: 2 })).toBe('version: 2; allowed: 3 or more where there are measurings, or readings with from');
  });

  it.each<[string, unknown, string]>([
    ['an id twice', withLesson([bareMeasuring('m'), bareMeasuring('m')]), 'players[0].lessons[0].measurings[1].id: "m"; allowed: each id once within a player'],
    ['the id of a lesson', withLesson([bareMeasuring('lesson-1')]), 'players[0].lessons[0].measurings[0].id: "lesson-1"; allowed: each id once within a player'],
    ['more than 50', withLesson(Array.from({ length: 51 }, (_, at) => bareMeasuring(`m${at}`))), 'players[0].lessons[0].measurings: a list of 51; allowed: a list of 0 to 50'],
    ['one that is spoilt', withLesson([bareMeasuring('m'), { ...bareMeasuring('n'), sources: 1 }]), 'players[0].lessons[0].measurings[1].sources: 1; allowed: a list of 1 to 40'],
    ['a reading from nowhere', withLesson([], {}), 'players[0].lessons[1].readings[0].from.measuring (F3): missing; allowed: a text of 1 to 60 of the characters A–Z, a–z, 0–9, _ and -'],
    ['a reading from a stretch that ends first', withLesson([], { measuring: 'm', startS: 2, endS: 1 }), 'players[0].lessons[1].readings[0].from.endS (F3): 1; allowed: startS, 2 s, or later'],
    ['a reading from no frame', withLesson([], { measuring: 'm', atS: Number.NaN }), 'players[0].lessons[1].readings[0].from.atS (F3): NaN; allowed: a number from -60 to 21600 s'],
  ])('is refused for %s', (_, value, words) => {
    expect(message(value)).toBe(words);
  });

  it('may have readings whose measuring is gone', () => {
    expect(message(withLesson([], { measuring: 'gone', atS: 3 }))).toBe('read');
  });

  it('of nonsense within lists within lists is given up early', { timeout: 30_000 }, () => {
    const zeros = Array.from({ length: 1900 }, () => 0);
    const sources = Array.from({ length: 1900 }, () => ({ anchors: zeros }));
    expect(message(withLesson(Array.from({ length: 50 }, (_, at) => ({ ...bareMeasuring(`m${at}`), sources }))))).toBe(
      'players[0].lessons[0].measurings[0].sources: a list of 1900; allowed: a list of 1 to 40',
    );
    const anchors = Array.from({ length: 1000 }, () => ({ timeS: 0, marks: { landmarks: {}, rim: zeros } }));
    expect(message(withLesson([{ ...bareMeasuring('m'), sources: [{ ...bareMeasuring('m').sources[0]!, anchors }] }]))).toBe(
      'players[0].lessons[0].measurings[0].sources[0].anchors: a list of 1000; allowed: a list of 0 to 100',
    );
  });

  it('is asked before it is kept whether it could be read again', () => {
    const player = fullPlayer();
    expect(faultOfPlayer(player)).toBeNull();
    const spoilt = { ...fullMeasuring(), kind: 'dream' };
    const [first, second] = player.lessons;
    expect(faultOfPlayer({ ...player, lessons: [{ ...first!, measurings: [spoilt] }, second!] })).toBe('lessons[0].measurings[0].kind: "dream"; allowed: one of "pictures", "film"');
    // Only what was changed since is looked at, but all of that.
    expect(faultOfPlayer({ ...player, lessons: [{ ...first!, remark: 'x', measurings: [...first!.measurings!, spoilt] }, second!] })).toContain('lessons[0].measurings[2].kind');
  });
});
