import { readFileSync } from 'node:fs';
import type * as z from 'zod/mini';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { recordJsonSchemaText } from '../../../src/cli/recordJsonSchema';
import type { PlayerSpec } from '../../../src/core/specs';
import type { playerSchema } from '../../../src/records/playerSchema';
import { faultOfPlayer, parsePlayers, parsePlayersText, playersFile, playersFileText } from '../../../src/records/schema';
import { type Mutable, fullPlayer, fullRecord } from '../../support/records';

const refusal = (value: unknown): string => {
  const parsed = parsePlayers(value);
  expect(parsed.kind).toBe('refused');
  return parsed.kind === 'refused' ? parsed.message : '';
};

/** What belongs to the lesson; the rest of a player is the player's own. */
const OF_LESSON = /^(?:rim|force|home|upperLipShare|readings|tryOuts|date|remark|measurings)(?=$|[.[:])/;

/** A value with one field (path by dots) set, or taken away when the value is undefined. */
function withField(root: unknown, path: string, value: unknown): unknown {
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  const owner = keys.reduce<unknown>((place, key) => (place as Record<string, unknown>)[key], root) as Record<string, unknown>;
  if (value === undefined) delete owner[last];
  else owner[last] = value;
  return root;
}

/** The full player's file with one field of the player, or of the first lesson, set. */
const spoiled = (path: string, value: unknown): unknown =>
  withField(playersFile([fullPlayer()]), `players.0.${OF_LESSON.test(path) ? 'lessons.0.' : ''}${path}`, value);

/** Where a refusal of that file names it. */
const placed = (message: string): string => `players[0].${OF_LESSON.test(message) ? 'lessons[0].' : ''}${message}`;

const accepts = (value: unknown): void => {
  expect(parsePlayers(value)).toEqual({ kind: 'players', players: (value as { players: unknown }).players, fromVersion: (value as { version: unknown }).version });
};

const flat = { kind: 'straight' };
const single = (form: unknown, profile: unknown = flat): unknown => spoiled('arch', { single: { form, profile } });

describe('a file that is right', () => {
  it('comes through unchanged, with every optional field and without any', () => {
    accepts(playersFile([fullPlayer()]));
    const [, bare] = fullPlayer().lessons;
    accepts(playersFile([{ ...fullPlayer(), lessons: [{ ...bare!, readings: [{ note: 'F3' }] }] }]));
    accepts(playersFile([{ ...fullPlayer(), lessons: [bare!] }, { ...fullPlayer(), id: 'another' }]));
  });

  it('may have an arch that was measured, and is of version 5 then', () => {
    const measure = { name: 'upper-canine-width', mm: 34, sdMm: 0.5, by: 'caliper' };
    const file = (measures: readonly object[], version = 5) =>
      withField(withField(playersFile([fullPlayer()]), 'players.0.arch.measured', { family: 'sextic', measures }), 'version', version);
    accepts(file([measure]));
    accepts(file([]));
    expect(playersFile((file([measure]) as { players: PlayerSpec[] }).players).version).toBe(5);
    expect(refusal(file([measure], 4))).toContain('version: 4; allowed: 5 where an arch has measured');
    expect(refusal(file([{ ...measure, mm: 60 }]))).toContain('measures[0].mm: 60; allowed: a number from 20 to 55 mm for upper-canine-width');
    expect(refusal(file([{ ...measure, by: 'thumb' }]))).toContain('measures[0].by: "thumb"; allowed: one of "ruler", "caliper"');
    const print = { jaw: 'upper', scale: { by: 'card', widthMm: 85.6, heightMm: 54 }, scalePart: 0.001, points: Array.from({ length: 8 }, (_, x) => ({ xMm: x, yMm: x * x, sdMm: 0.1 })) };
    const printed = (prints: readonly object[]) => withField(file([measure]), 'players.0.arch.measured.prints', prints);
    accepts(printed([{ ...print, isFree: true }]));
    expect(refusal(printed([{ ...print, isFree: false }]))).toContain('isFree: false; allowed: true, or absent');
    accepts(printed([print, { ...print, jaw: 'lower', scale: { by: 'circle', diameterMm: 23 } }]));
    expect(refusal(printed([print, print]))).toContain('prints[1].jaw: "upper"; allowed: one print of each jaw');
    expect(refusal(printed([{ ...print, points: print.points.slice(1) }]))).toContain('prints[0].points: a list of 7; allowed: a list of 8 to 60');
    expect(refusal(printed([{ ...print, scale: { by: 'eye' } }]))).toContain('allowed: one of "card", "circle", "ruler"');
    expect(refusal(file([measure, measure]))).toContain('measures[1].name: "upper-canine-width"; allowed: each measure once');
  });

  it('agrees with the type the core computes from', () => {
    expectTypeOf<Mutable<PlayerSpec>>().toEqualTypeOf<Mutable<z.output<typeof playerSchema>>>();
  });

  it.each<[string, unknown]>([
    ['flat plate', single({ kind: 'line' })],
    ['sphere', single({ kind: 'circle', radiusMm: 1000 }, { kind: 'arc', radiusMm: 1000 })],
    ['small sphere', single({ kind: 'circle', radiusMm: 5 }, { kind: 'arc', radiusMm: 5 })],
    ['cylinder', single({ kind: 'circle', radiusMm: 30 })],
    ['ellipsoid of large size', single({ kind: 'power', widthMm: 2000, depthMm: 1000, exponent: 0.5 })],
    ['catenary', single({ kind: 'catenary', widthMm: 55, depthMm: 40 })],
    ['measured points', single({ kind: 'points', points: [[-20, -10], [-5, -0.5], [6, -0.7], [21, -11]] })],
    ['sextic', single({ kind: 'sextic', a: 2.4e-8, b: 0.0206 })],
    ['thin flat ring', spoiled('rim', { innerDiameterMm: 20, outerDiameterMm: 20.002, highPointDiameterMm: 20.001, contourRadiusMm: null })],
    ['contour as round as its reach', spoiled('rim', { innerDiameterMm: 20, outerDiameterMm: 30, highPointDiameterMm: 26, contourRadiusMm: 3 })],
    ['stiff linear lips', spoiled('lips', { upper: { thicknessMm: 1, effectiveModulusKPa: 1e6 }, lower: { thicknessMm: 40, effectiveModulusKPa: 1 }, law: 'linear' })],
    ['long travel', spoiled('readings.1.travel', { upMm: -60, rightMm: 60 })],
    ['largest force', spoiled('force.newtons', 200)],
  ])('may be an exact case: %s', (_, value) => {
    accepts(value);
  });
});

describe('a refusal names the field, the value and what is allowed, on one line', () => {
  it.each<[string, unknown, string]>([
    ['force.newtons', 0, 'force.newtons: 0; allowed: a number above 0 and up to 200 N'],
    ['force.newtons', 200.1, 'force.newtons: 200.1; allowed: a number above 0 and up to 200 N'],
    ['force.newtons', '25', 'force.newtons: "25"; allowed: a number above 0 and up to 200 N'],
    ['force.newtons', Number.NaN, 'force.newtons: NaN; allowed: a number above 0 and up to 200 N'],
    ['force.newtons', Number.POSITIVE_INFINITY, 'force.newtons: Infinity; allowed: a number above 0 and up to 200 N'],
    ['force', undefined, 'force: missing; allowed: an object with newtons'],
    ['readings.1.travel.upMm', 61, 'readings[1].travel.upMm (B♭3): 61; allowed: a number from -60 to 60 mm'],
    ['readings.1.travel.sdMm', 0, 'readings[1].travel.sdMm (B♭3): 0; allowed: a number from 0.001 to 20 mm'],
    ['readings.1.note', 'H9', 'readings[1].note: "H9"; allowed: a note such as C4 (middle C), Bb3, B♭3 or F#4, from C-1 to G9'],
    ['readings.1.note', 'A9', 'readings[1].note: "A9"; allowed: a note such as C4 (middle C), Bb3, B♭3 or F#4, from C-1 to G9'],
    ['readings.0.force.newtons', 500, 'readings[0].force.newtons (F3): 500; allowed: a number above 0 and up to 200 N'],
    ['readings.0.method', 'guess', 'readings[0].method (F3): "guess"; allowed: one of "eye", "ruler", "video", "picture"'],
    ['readings.0.horn.elevationDeg', null, 'readings[0].horn.elevationDeg (F3): null; allowed: a number from -80 to 80 degrees'],
    ['readings', {}, 'readings: an empty object; allowed: a list of 0 to 200'],
    ['readings.0', 3, 'readings[0]: 3; allowed: an object with note, take, travel, method, horn, direction, jaw, force, airstream, upperLipShare, ease, remark, from'],
    ['home.note', 'nowhere', 'home.note: "nowhere"; allowed: a note such as C4 (middle C), Bb3, B♭3 or F#4, from C-1 to G9'],
    ['upperLipShare.value', 1, 'upperLipShare.value: 1; allowed: a number above 0 and below 1'],
    ['upperLipShare.by', 'eye', 'upperLipShare.by: "eye"; allowed: one of "diameter", "arc", "area"'],
    ['lips.law', 'none', 'lips.law: "none"; allowed: one of "stiffening", "linear"'],
    ['lips.upper.thicknessMm', -1, 'lips.upper.thicknessMm: -1; allowed: a number from 0.5 to 60 mm'],
    ['arch.jaw.openingMm', -0.1, 'arch.jaw.openingMm: -0.1; allowed: a number from 0 to 40 mm'],
    ['arch.jaw', undefined, 'arch.jaw: missing; allowed: an object with openingMm, forwardMm, hingeDeg, hingeArmMm'],
    ['arch', {}, 'arch: an empty object; allowed: an object with upper, lower and jaw, or with single'],
    ['arch', 7, 'arch: 7; allowed: an object with upper, lower and jaw, or with single'],
    ['arch.upper.form.kind', 'oval', 'arch.upper.form.kind: "oval"; allowed: one of "power", "sextic", "catenary", "circle", "line", "points"'],
    ['arch.upper.form', null, 'arch.upper.form: null; allowed: an object with kind one of "power", "sextic", "catenary", "circle", "line", "points"'],
    ['arch.lower.form.exponent', 0.2, 'arch.lower.form.exponent: 0.2; allowed: a number from 0.5 to 2 (no unit)'],
    ['arch.upper.teeth.0.outMm', 2.5, 'arch.upper.teeth[0].outMm: 2.5; allowed: a number from -2 to 2 mm'],
    ['arch.upper.teeth.0.fdi', 31, 'arch.upper.teeth[0].fdi: 31; allowed: a tooth of this jaw by ISO 3950: 11 to 17, 21 to 27'],
    ['arch.upper.teeth.0.centreMm', 4, 'arch.upper.teeth[0].centreMm: 4; allowed: below 0: tooth 11 is on the player’s right'],
    ['instrument', '', 'instrument: ""; allowed: a text of 1 to 60 characters'],
    ['mood', 'sunny', 'mood: unknown field; allowed here: id, label, instrument, arch, lips, lessons'],
    ['id', 'a b', 'id: "a b"; allowed: a text of 1 to 60 of the characters A–Z, a–z, 0–9, _ and -'],
    ['id', 'x'.repeat(61), `id: "${'x'.repeat(60)}…"; allowed: a text of 1 to 60 of the characters A–Z, a–z, 0–9, _ and -`],
    ['id', '', 'id: ""; allowed: a text of 1 to 60 of the characters A–Z, a–z, 0–9, _ and -'],
    ['label', 'x'.repeat(201), `label: "${'x'.repeat(60)}…"; allowed: a text of up to 200 characters`],
    ['lessons', [], 'lessons: a list of 0; allowed: a list of 1 to 200'],
    ['lessons', 'none', 'lessons: "none"; allowed: a list of 1 to 200'],
    ['lessons.1.id', 'lesson-1', 'lessons[1].id: "lesson-1"; allowed: each id once within a player'],
    ['lessons.1.id', 'try-2', 'lessons[1].id: "try-2"; allowed: each id once within a player'],
    ['tryOuts.3.id', 'try-2', 'tryOuts[3].id: "try-2"; allowed: each id once within a player'],
    ['date', '2026-02-29', 'date: "2026-02-29"; allowed: a day of the calendar such as 2026-03-01'],
    ['date', '2026-3-1', 'date: "2026-3-1"; allowed: a day of the calendar such as 2026-03-01'],
    ['date', '2026-13-01', 'date: "2026-13-01"; allowed: a day of the calendar such as 2026-03-01'],
    ['date', '2026-03-01T10:00', 'date: "2026-03-01T10:00"; allowed: a day of the calendar such as 2026-03-01'],
    ['remark', 'x'.repeat(501), `remark: "${'x'.repeat(60)}…"; allowed: a text of up to 500 characters`],
    ['readings.0.take', 0, 'readings[0].take (F3): 0; allowed: a whole number from 1 to 99'],
    ['readings.0.take', 1.5, 'readings[0].take (F3): 1.5; allowed: a whole number from 1 to 99'],
    ['readings.0.ease', 6, 'readings[0].ease (F3): 6; allowed: a whole number from 1 to 5'],
    ['readings.0.ease', '3', 'readings[0].ease (F3): "3"; allowed: a whole number from 1 to 5'],
    ['readings.0.airstream', 'left', 'readings[0].airstream (F3): "left"; allowed: one of "down", "up", "unsure"'],
    ['readings.0.upperLipShare', 1, 'readings[0].upperLipShare (F3): 1; allowed: a number above 0 and below 1'],
    ['tryOuts.0.readings.0.ease', 0, 'tryOuts[0].readings[0].ease (F3): 0; allowed: a whole number from 1 to 5'],
    ['tryOuts.0.change', { kind: 'dance' }, 'tryOuts[0].change.kind: "dance"; allowed: one of "hold-horn", "let-horn-follow", "place-rim", "bring-horn-round"'],
    ['tryOuts.0.change', 1, 'tryOuts[0].change: 1; allowed: an object with kind one of "hold-horn", "let-horn-follow", "place-rim", "bring-horn-round"'],
    ['tryOuts.2.change.upMm', 0, 'tryOuts[2].change.upMm: 0; allowed: a number from -6 to 6 mm, not 0'],
    ['tryOuts.2.change.upMm', 6.1, 'tryOuts[2].change.upMm: 6.1; allowed: a number from -6 to 6 mm, not 0'],
    ['tryOuts.3.change.lateralDeg', -20.5, 'tryOuts[3].change.lateralDeg: -20.5; allowed: a number from -20 to 20 degrees, not 0'],
    ['tryOuts', Array.from({ length: 21 }, (_, index) => ({ id: `t${index}`, change: { kind: 'hold-horn' }, readings: [] })), 'tryOuts: a list of 21; allowed: a list of 0 to 20'],
    ['readings.0.travel.leftMm', 1, 'readings[0].travel.leftMm (F3): unknown field; allowed here: upMm, rightMm, sdMm, rightSdMm'],
  ])('%s = %j', (path, value, message) => {
    expect(refusal(spoiled(path, value))).toBe(placed(message));
  });

  it.each<[string, unknown, string]>([
    ['version', 6, 'version: 6 is newer than this program reads; allowed: 1 to 5'],
    ['version', 2.5, 'version: 2.5; allowed: 1 to 5'],
    ['version', 0, 'version: 0; allowed: 1 to 5'],
    ['version', '2', 'version: "2"; allowed: 1 to 5'],
    ['format', 'other', 'format: "other"; allowed: "rimpath-record"'],
    ['format', undefined, 'format: missing; allowed: "rimpath-record"'],
    ['players', undefined, 'players: missing; allowed: a list of 1 to 500'],
    ['players', [], 'players: a list of 0; allowed: a list of 1 to 500'],
    ['players', Array.from({ length: 501 }, () => 0), 'players: a list of 501; allowed: a list of 1 to 500'],
    ['players', [fullPlayer(), fullPlayer()], 'players[1].id: "player-A_1"; allowed: each player once'],
    ['players', ['x'], 'players[0]: "x"; allowed: an object with id, label, instrument, arch, lips, lessons'],
    ['mood', 1, 'mood: unknown field; allowed here: format, version, players, scans'],
  ])('of the file: %s = %j', (path, value, message) => {
    expect(refusal(withField(playersFile([fullPlayer()]), path, value))).toBe(message);
  });

  it('names the player among several', () => {
    const spoilt = withField({ ...fullPlayer(), id: 'b', label: 'M. K.' }, 'lessons.0.readings.1.travel.upMm', 61) as PlayerSpec;
    expect(refusal(playersFile([fullPlayer(), spoilt]))).toBe(
      'players[1].lessons[0].readings[1].travel.upMm (M. K., B♭3): 61; allowed: a number from -60 to 60 mm',
    );
  });

  it('gives up a hostile file at its first fault instead of counting them all', { timeout: 60_000 }, () => {
    const zeros = (length: number): number[] => Array.from({ length }, () => 0);
    expect(refusal(spoiled('readings', zeros(5_000_000)))).toBe(placed('readings: a list of 5000000; allowed: a list of up to 2000'));
    const lesson = { ...fullPlayer().lessons[0]!, readings: zeros(200) as never };
    const many = Array.from({ length: 200 }, (_, index) => ({ ...lesson, id: `l${index}` }));
    const began = performance.now();
    expect(refusal(playersFile(Array.from({ length: 400 }, (_, index) => ({ ...fullPlayer(), id: `p${index}`, lessons: many }))))).toMatch(/^players\[0\]\.lessons\[0\]\.readings\[0\]/);
    // 16 million faults would take minutes and the memory.
    expect(performance.now() - began).toBeLessThan(20_000);
  });

  it('names a misspelled field rather than the one it left empty', () => {
    const file = spoiled('force', undefined);
    withField(file, 'players.0.lessons.0.forse', { newtons: 20 });
    expect(refusal(file)).toMatch(/^players\[0\]\.lessons\[0\]\.forse: unknown field; allowed here: id, date, remark, rim,/);
  });

  it('names the field inside whichever kind of arch was meant', () => {
    expect(refusal(single({ kind: 'circle', radiusMm: 1 }))).toBe(
      'players[0].arch.single.form.radiusMm: 1; allowed: a number from 2 to 100000 mm',
    );
    expect(refusal(single({ kind: 'circle', radiusMm: 30, depthMm: 3 }))).toBe(
      'players[0].arch.single.form.depthMm: unknown field; allowed here: kind, radiusMm',
    );
  });

  it.each<[unknown, string]>([
    [null, 'null'],
    [[], 'a list of 0'],
    [3, '3'],
    ['x', '"x"'],
    [undefined, 'missing'],
  ])('refuses %j as a whole', (value, words) => {
    expect(refusal(value)).toBe(`record: ${words}; allowed: an object with "format": "rimpath-record"`);
  });

  it('keeps control characters and long values out of the line', () => {
    const message = refusal(spoiled('lips.law', `\u001b[31m\n\u2028\u202e${'x'.repeat(10_000)}`));
    expect(message).not.toMatch(/[\p{Cc}\p{Zl}\p{Cf}]/u);
    expect(message.length).toBeLessThan(200);
    const key = `a\nb${'y'.repeat(5000)}`;
    const keyMessage = refusal(spoiled(key, 1));
    expect(keyMessage).not.toContain('\n');
    expect(keyMessage.length).toBeLessThan(300);
  });
});

describe('conditions between fields', () => {
  it.each<[string, Record<string, number | null>, string]>([
    ['outer not above inner', { outerDiameterMm: 25.4, highPointDiameterMm: 25.4 }, 'rim.outerDiameterMm: 25.4; allowed: above innerDiameterMm, 25.4 mm'],
    ['high point outside', { highPointDiameterMm: 40 }, 'rim.highPointDiameterMm: 40; allowed: from innerDiameterMm to outerDiameterMm, 25.4 to 39 mm'],
    ['contour too tight', { contourRadiusMm: 3 }, 'rim.contourRadiusMm: 3; allowed: null (flat) or at least 3.5 mm, the distance from the high point to the further edge'],
  ])('rim: %s', (_, change, message) => {
    expect(refusal(spoiled('rim', { ...fullRecord().rim, ...change }))).toBe(placed(message));
  });

  it.each<[string, number, RegExp]>([
    ['crownRadiusMm', 5, /^players\[0\]\.arch\.upper\.profile\.crownRadiusMm: 5; allowed: above 5\.58 mm, so that/],
    // At the neck: asin(sin 6° + 10/28) = 27.5°.
    ['gumInclinationDeg', 28, /^players\[0\]\.arch\.upper\.profile\.gumInclinationDeg: 28; allowed: below 27\.5\d degrees/],
  ])('profile: %s', (field, value, message) => {
    expect(refusal(spoiled(`arch.upper.profile.${field}`, value))).toMatch(message);
  });

  it.each<[string, [number, number][], string]>([
    ['x must rise', [[-20, -10], [-5, 0], [-5, 0], [21, -11]], 'points[2][0]: -5; allowed: x above that of the point before'],
    ['from the right', [[1, -10], [5, 0], [8, 0], [21, -11]], 'points[0][0]: 1; allowed: a first point on the player’s right (x below 0)'],
    ['to the left', [[-9, -10], [-5, 0], [-3, 0], [-1, -11]], 'points[3][0]: -1; allowed: a last point on the player’s left (x above 0)'],
    ['enough of them', [[-9, -10], [1, 0], [3, 0]], 'points: a list of 3; allowed: a list of 4 to 400'],
  ])('points: %s', (_, points, message) => {
    expect(refusal(single({ kind: 'points', points }))).toBe(`players[0].arch.single.form.${message}`);
  });

  it('a tooth is named once', () => {
    const tooth = { fdi: 11, outMm: 0.5, centreMm: -4, widthMm: 8 };
    expect(refusal(spoiled('arch.upper.teeth', [tooth, tooth]))).toBe('players[0].arch.upper.teeth[1].fdi: 11; allowed: each tooth once');
  });

  it('at most 200 readings', () => {
    const reading = { note: 'C4', travel: { upMm: 0, rightMm: 0 } };
    accepts(spoiled('readings', Array.from({ length: 200 }, () => reading)));
    expect(refusal(spoiled('readings', Array.from({ length: 201 }, () => reading)))).toBe(placed('readings: a list of 201; allowed: a list of 0 to 200'));
  });
});

describe('parsePlayersText', () => {
  it('reads a file’s text and refuses what is no record file', () => {
    const text = playersFileText([fullPlayer()]);
    expect(parsePlayersText(text)).toEqual({ kind: 'players', players: [fullPlayer()], fromVersion: 4 });
    expect(playersFileText([fullPlayer()])).toBe(text);
    expect(parsePlayersText('  \n')).toEqual({ kind: 'refused', message: 'file: empty; allowed: a JSON object' });
    const broken = parsePlayersText('{"format":\n\n"rimpath-record"');
    expect(broken.kind === 'refused' ? broken.message : '').toMatch(/^file: not JSON \([^\n]+\); allowed: a JSON object$/);
    expect(parsePlayersText('x'.repeat(100_000_001))).toEqual({
      kind: 'refused',
      message: 'file: 100000001 characters; allowed: up to 100000000',
    });
    for (const version of [1, 2]) {
      expect(parsePlayersText(`{"format":"rimpath-record","version":${version},"arch":${'['.repeat(100_000)}${']'.repeat(100_000)}}`).kind).toBe('refused');
    }
  });

  it('a field that would change what objects are made of is unknown or nothing', () => {
    const text = JSON.stringify(playersFile([fullPlayer()]));
    for (const spoilt of [text.replace('{', '{"__proto__":{"label":"x"},'), text.replace('"label"', '"__proto__":{"lips":1},"label"')]) {
      const parsed = parsePlayersText(spoilt);
      expect(({} as { lips?: unknown }).lips).toBeUndefined();
      if (parsed.kind === 'players') expect(parsed.players).toEqual([fullPlayer()]);
      else expect(parsed.message).toContain('__proto__: unknown field');
    }
  });
});

describe('what could not be read again', () => {
  const fault = (edit: (player: ReturnType<typeof fullPlayer>) => void): string | null => {
    const player = fullPlayer();
    edit(player);
    return faultOfPlayer(player);
  };

  it('is named as a file would be refused, and nothing is said of a player that is right', () => {
    const player = fullPlayer();
    expect([faultOfPlayer(player), faultOfPlayer({ ...player, label: 'x' })]).toEqual([null, null]);
    expect(fault((one) => (one.label = 'x'.repeat(201)))).toContain('label: ');
    expect(fault((one) => (one.lessons[0]!.readings[0]!.travel = { upMm: 80, rightMm: 0 }))).toMatch(/^lessons\[0\]\.readings\[0\]\.travel\.upMm \(.+\): 80; allowed: /);
    expect(fault((one) => (one.lessons[1]!.id = one.lessons[0]!.id))).toContain('id twice');
  });

  it('is looked for in every lesson that changed since it was last found right', () => {
    const player = fullPlayer();
    expect(faultOfPlayer(player)).toBeNull();
    const [first, ...others] = player.lessons;
    expect(faultOfPlayer({ ...player, lessons: [{ ...first!, remark: 'x'.repeat(501) }, ...others] })).toContain('lessons[0].remark');
    expect(faultOfPlayer({ ...player, lessons: [] })).toContain('lessons: ');
  });
});

it('docs/record.schema.json is up to date (npm run schema)', () => {
  const published = readFileSync(new URL('../../../docs/record.schema.json', import.meta.url), 'utf8');
  expect(published).toBe(recordJsonSchemaText());
});
