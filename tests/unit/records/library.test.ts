import { readdirSync } from 'node:fs';
import type * as z from 'zod/mini';
import { safeParse } from 'zod/mini';
import { describe, expect, it } from 'vitest';
import { anglesFromAxis, axisFromAngles, toRadians } from '../../../src/core/frame';
import { midiOf, partialSemitones } from '../../../src/core/pitch';
import type { JawArchSpec } from '../../../src/core/specs';
import teethFile from '../../../models/teeth.json';
import {
  type ArchModel,
  arches,
  crownOf,
  defaultRim,
  demoPlayers,
  instrumentById,
  instruments,
  rims,
  teeth,
  toothSpec,
} from '../../../src/records/library';
import {
  archModelSchema,
  instrumentSchema,
  playerModelSchema,
  rimModelSchema,
  teethSchema,
} from '../../../src/records/modelSchemas';
import { classPlanSchema, classSchema } from '../../../src/records/classSchema';
import { classes } from '../../../src/records/classes';
import { refusalWords } from '../../../src/records/refusal';
import { newId } from '../../../src/records/newId';
import { defaultPlayer, newLesson } from '../../../src/records/newRecords';
import { parsePlayers, playersFile } from '../../../src/records/schema';
import { expectWithin } from '../../support/expectWithin';
import { fullPlayer } from '../../support/records';

const filesIn = (folder: string): string[] =>
  readdirSync(new URL(`../../../models/${folder}/`, import.meta.url)).map((file) => file.replace(/\.json$/, '')).sort();

const complaint = (schema: z.ZodMiniType, value: unknown): string => {
  const result = safeParse(schema, value);
  return result.success ? '' : refusalWords(result.error.issues, value);
};

describe('every file under models/', () => {
  it.each<[string, z.ZodMiniType, readonly { readonly id: string }[]]>([
    ['instruments', instrumentSchema, instruments],
    ['rims', rimModelSchema, rims],
    ['arches', archModelSchema, arches],
    ['players', playerModelSchema, demoPlayers.map(({ record: _record, ...model }) => model)],
    ['classes', classSchema, classes],
  ])('%s: is in the library, is named like its id and fits its schema', (folder, schema, models) => {
    expect(models.map(({ id }) => id).sort()).toEqual(filesIn(folder));
    for (const model of models) expect(complaint(schema, model), model.id).toBe('');
  });

  it('the crown table fits its schema and numbers each tooth once', () => {
    expect(complaint(teethSchema, teethFile)).toBe('');
    expect(teeth.map(({ id }) => id)).toEqual(['U1', 'U2', 'U3', 'U4', 'U5', 'U6', 'U7', 'L1', 'L2', 'L3', 'L4', 'L5', 'L6', 'L7']);
    const numbers = teeth.flatMap(({ fdi }) => fdi);
    expect(new Set(numbers).size).toBe(28);
  });
});

describe('classes', () => {
  const [spec] = classes;
  const [step] = spec.steps;

  it.each(classes.flatMap((one) => one.steps.flatMap(({ id, who }) => who.map(({ player }) => [id, player] as const))))(
    'step %s shows a player there is: %s',
    (_step, player) => {
      expect(['this', ...demoPlayers.map(({ id }) => id)]).toContain(player);
    },
  );

  it.each<[string, unknown, string]>([
    ['a camera there is none of', { ...step, camera: 'below' }, 'steps[0].camera'],
    ['three players', { ...step, who: [...step!.who, ...step!.who] }, 'steps[0].who'],
    ['an answer written down', { ...step, answer: 'up' }, 'steps[0].answer'],
    ['a question where nothing moves', { ...step, question: { words: 'Which way?', about: 'bell up or down' } }, 'steps[0].plays.kind'],
    ['a travel beyond what is possible', { ...step, plays: { kind: 'line', upMm: 400, rightMm: 0 } }, 'steps[0].plays.upMm'],
    ['teeth that are none', { ...step, who: [{ player: 'pushes-up', arch: { single: { form: { kind: 'wave' }, profile: { kind: 'straight' } } } }] }, 'steps[0].who[0].arch'],
  ])('refuses %s', (_what, wrong, place) => {
    expect(complaint(classSchema, { ...spec, steps: [wrong] })).toContain(place);
  });

  it('refuses two steps of one name', () => {
    expect(complaint(classSchema, { ...spec, steps: [step, step] })).toContain('steps with ids of their own');
  });

  it('a teacher’s own version may word some of a step, and not with what no step has', () => {
    const plan = { classId: spec.id, order: ['b', 'a'], shown: { a: false }, words: { b: { title: 'Ours' } } };
    expect(complaint(classPlanSchema, plan)).toBe('');
    expect(complaint(classPlanSchema, { ...plan, words: { b: { colour: 'red' } } })).toContain('colour');
    expect(complaint(classPlanSchema, { ...plan, words: { b: { title: 'x'.repeat(61) } } })).toContain('title');
  });
});

describe('instruments', () => {
  it.each(instruments)('$id: rises through playable notes within its range', (instrument) => {
    const midis = instrument.defaultNotes.map((name) => midiOf(name));
    const low = midiOf(instrument.comfortableRange.low);
    const high = midiOf(instrument.comfortableRange.high);
    expect(midis).toEqual([...new Set(midis)].sort((a, b) => a - b));
    expect(low).toBeLessThanOrEqual(midis[0] ?? Number.NaN);
    expect(high).toBeGreaterThanOrEqual(midis[midis.length - 1] ?? Number.NaN);
    expect(instrument.partials).toEqual([...instrument.partials].sort((a, b) => a - b));
    // Every note is some played partial lowered by 0 to 6 semitones of valves or slide (the pedal register adds partial 1).
    for (const midi of midis) {
      const reached = [1, ...instrument.partials].some((partial) => {
        const lowered = instrument.fundamentalMidi + partialSemitones(partial) - midi;
        return lowered >= 0 && lowered <= 6;
      });
      expect(reached, `${midi}`).toBe(true);
    }
    expect(rims).toContain(defaultRim(instrument));
  });

  it('words follow the instrument: a horn on the lap swings against the head when the head moves the other way', () => {
    // Seen from a head that has tipped back by 5°, a horn that kept its place in the room.
    const tipped = toRadians(5);
    const [x, y, z] = axisFromAngles({ elevationDeg: 0, lateralDeg: 0 });
    const seen = anglesFromAxis([x, y * Math.cos(tipped) - z * Math.sin(tipped), z * Math.cos(tipped) + y * Math.sin(tipped)]);
    expectWithin(seen.elevationDeg, -5, { abs: 1e-9 });
    const lapWords = instrumentById('tuba')?.words;
    expect(seen.elevationDeg < 0 ? lapWords?.lower : lapWords?.raise).toBe('tip the head back');
    expect(instruments.filter(({ held }) => held === 'lap').map(({ id }) => id)).toEqual(['euphonium', 'tuba']);
    expect(instrumentById('trumpet')?.words.raise).toBe('bring the bell up');
    expect(instrumentById('kazoo')).toBeUndefined();
  });
});

describe('rims', () => {
  it.each(rims)('$id: high point within a third to a half of the width from the inside', ({ rim }) => {
    const part = (rim.highPointDiameterMm - rim.innerDiameterMm) / (rim.outerDiameterMm - rim.innerDiameterMm);
    expect(part).toBeGreaterThanOrEqual(1 / 3);
    expect(part).toBeLessThanOrEqual(1 / 2);
    const reach = Math.max(rim.highPointDiameterMm - rim.innerDiameterMm, rim.outerDiameterMm - rim.highPointDiameterMm) / 2;
    expect(rim.contourRadiusMm).toBeGreaterThan(reach);
  });
});

describe('arches', () => {
  const jaws = (model: ArchModel): { upper: JawArchSpec; lower: JawArchSpec; forwardMm: number } => {
    if ('single' in model.arch) throw new Error(`${model.id} is no pair of jaws`);
    return { upper: model.arch.upper, lower: model.arch.lower, forwardMm: model.arch.jaw.forwardMm };
  };
  const named = (id: string): ArchModel => {
    const model = arches.find((arch) => arch.id === id);
    if (model === undefined) throw new Error(`no arch ${id}`);
    return model;
  };
  const frontRadius = ({ form }: JawArchSpec): number => (form.kind === 'sextic' ? 1 / (2 * form.b) : Number.NaN);

  it('the average front has a radius of 20 to 28 mm in both jaws', () => {
    const { upper, lower } = jaws(named('average'));
    for (const jaw of [upper, lower]) {
      expect(frontRadius(jaw)).toBeGreaterThanOrEqual(20);
      expect(frontRadius(jaw)).toBeLessThanOrEqual(28);
    }
  });

  it('narrow is tighter in front than average, broad is flatter', () => {
    for (const jaw of ['upper', 'lower'] as const) {
      const [narrow, average, broad] = ['narrow', 'average', 'broad'].map((id) => frontRadius(jaws(named(id))[jaw]));
      expect(narrow).toBeLessThan(average ?? Number.NaN);
      expect(average).toBeLessThan(broad ?? Number.NaN);
    }
  });

  it('the set-back jaw differs from the average only in where it stands', () => {
    const average = jaws(named('average'));
    const receded = jaws(named('receded-lower-jaw'));
    expect([receded.upper, receded.lower]).toEqual([average.upper, average.lower]);
    expect(receded.forwardMm).toBeLessThan(average.forwardMm);
  });

  it('the gum’s concave arc is wider than the lips of the demo players are thick', () => {
    const thickest = Math.max(...demoPlayers.flatMap(({ record }) => [record.lips.upper.thicknessMm, record.lips.lower.thicknessMm]));
    for (const model of arches) {
      for (const jaw of [jaws(model).upper, jaws(model).lower]) {
        expect(jaw.profile.kind === 'arcs' ? jaw.profile.gumRadiusMm : Number.NaN).toBeGreaterThan(thickest);
      }
    }
  });
});

describe('demo players', () => {
  it('travel opposite ways from a middle note of a ready-made instrument', () => {
    const ways = demoPlayers.slice(0, 2).map(({ record }) => {
      const readings = [...record.readings].sort((a, b) => midiOf(a.note) - midiOf(b.note));
      const home = readings.findIndex(({ note }) => note === record.home?.note);
      expect(home).toBeGreaterThan(0);
      expect(home).toBeLessThan(readings.length - 1);
      expect(readings[home]?.travel).toMatchObject({ upMm: 0, rightMm: 0 });
      expect(readings[home]?.horn).toBeDefined();
      const ups = readings.map(({ travel }) => travel?.upMm ?? Number.NaN);
      const rises = ups.slice(1).map((up, index) => Math.sign(up - (ups[index] ?? Number.NaN)));
      expect(new Set(rises).size).toBe(1);
      expect(instrumentById(record.player.instrument)).toBeDefined();
      return rises[0];
    });
    expect(ways).toEqual([1, -1]);
  });

  it('the third turns back at the top: above F4 it comes down again in both takes', () => {
    const record = demoPlayers[2]!.record;
    for (const take of [1, 2]) {
      const up = (note: string): number => record.readings.find((one) => one.note === note && one.take === take)?.travel?.upMm ?? Number.NaN;
      expect(up('F4')).toBeGreaterThan(up('F3') + 1.5);
      expect(up('C5')).toBeLessThan(up('F4') - 1.5);
    }
  });

  it('one plays with more upper lip, the other with more lower lip; both say that they are invented', () => {
    const [first, second] = demoPlayers.map(({ record }) => record.upperLipShare.value);
    expect(first).toBeGreaterThan(0.5);
    expect(second).toBeLessThan(0.5);
    for (const player of demoPlayers) expect(`${player.name} ${player.source}`).toMatch(/Invented.*Invented/);
  });
});

describe('what is made from the library', () => {
  it.each(instruments.map(({ id }) => id))('a new player for %s can be kept, with notes that nobody has seen yet', (id) => {
    const player = defaultPlayer(id, { id: newId(), lessonId: newId(), date: '2026-03-01' });
    expect(parsePlayers(playersFile([player]))).toEqual({ kind: 'players', players: [player], fromVersion: 2 });
    const [lesson] = player.lessons;
    expect(lesson?.date).toBe('2026-03-01');
    expect(lesson?.readings.map(({ note }) => note)).toContain(lesson?.home?.note);
    expect(lesson?.readings.map((reading) => Object.keys(reading))).toEqual(lesson?.readings.map(() => ['note']));
    expect('date' in defaultPlayer(id, { id: 'a', lessonId: 'b' }).lessons[0]!).toBe(false);
  });

  it('refuses an instrument that is not there', () => {
    expect(() => defaultPlayer('kazoo', { id: 'a', lessonId: 'b' })).toThrow('instrument "kazoo"; allowed: trumpet, french-horn,');
  });

  it('the next lesson begins with what stood at the last one, and with nothing seen', () => {
    const [first] = fullPlayer().lessons;
    const player = { ...fullPlayer(), lessons: [first!] };
    const next = newLesson(player, 'next', '2026-03-08').lessons;
    expect(next).toHaveLength(2);
    expect(next[0]).toBe(first);
    const { rim, force, home, upperLipShare } = first!;
    const kept = { rim, force, home, upperLipShare };
    expect(next[1]).toEqual({ id: 'next', date: '2026-03-08', ...kept, readings: [{ note: 'F3', direction: 'up' }, { note: 'B♭3' }, { note: 'D4' }], tryOuts: [] });
    const [again] = newLesson({ ...player, lessons: [{ ...first!, readings: [{ note: 'F3' }, { note: 'F3', take: 2 }] }] }, 'next', '2026-03-08').lessons.slice(-1);
    expect(again?.readings).toEqual([{ note: 'F3' }]);
    for (const id of ['try-1', 'measuring-2']) {
      expect(() => newLesson(player, id, '2026-03-08')).toThrow(`id: "${id}"; allowed: one that this player does not have yet`);
    }
    expect(() => newLesson({ ...player, lessons: [] }, 'next', '2026-03-08')).toThrow('lessons: none');
  });

  it('new ids are allowed ones and never the same', () => {
    const ids = Array.from({ length: 1000 }, newId);
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[A-Za-z0-9_-]{20}$/);
  });

  it('lays a tooth along the form by the table’s widths', () => {
    expect(toothSpec(11, 0.5)).toEqual({ fdi: 11, outMm: 0.5, centreMm: -4.25, widthMm: 8.5 });
    expect(toothSpec(22, -1)).toEqual({ fdi: 22, outMm: -1, centreMm: 11.75, widthMm: 6.5 });
    expect(toothSpec(33, 1).centreMm).toBe(5 + 5.5 + 3.5);
    expect(toothSpec(43, 1).centreMm).toBe(-14);
    expect(crownOf(46).id).toBe('L6');
    expect(() => crownOf(18)).toThrow('tooth 18; allowed: 11–17');
  });
});
