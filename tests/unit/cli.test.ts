import { spawnSync } from 'node:child_process';
import { closeSync, existsSync, mkdtempSync, openSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { notFinite, predictOutput, problemLine } from '../../src/cli/predictOutput';
import { type PredictResult, runPredict } from '../../src/cli/runPredict';
import { analyse } from '../../src/core/analyse';
import { computeBands } from '../../src/core/bands';
import type { Analysis } from '../../src/core/analysis';
import { UNSEEN_HORN_SD_DEG } from '../../src/core/readings';
import type { PlayerRecord } from '../../src/core/specs';
import { playersFileText } from '../../src/records/schema';
import { expectWithin } from '../support/expectWithin';
import { type Mutable, fullRecord, parseRecord, playerOf } from '../support/records';

const projectRoot = fileURLToPath(new URL('../..', import.meta.url));
const demoPath = join(projectRoot, 'models/players/pushes-up.json');

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'predict-'));
});
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};

/** The text of a file that holds a record as its one player's one lesson. */
const fileText = (record: PlayerRecord): string => playersFileText([playerOf(record)]);

const nothing = (): Readable => Readable.from([]);
const run = (names: readonly string[], input: Readable = nothing()): Promise<PredictResult> => runPredict(names, input, analyse);

/** A sphere: answers are known exactly. */
function sphereRecord(): Mutable<PlayerRecord> {
  const record = fullRecord();
  record.arch = { single: { form: { kind: 'circle', radiusMm: 40 }, profile: { kind: 'arc', radiusMm: 40 } } };
  record.lips.lower = { ...record.lips.upper };
  record.readings = [
    { note: 'B♭3', travel: { upMm: 4, rightMm: 3, sdMm: 0.5 } },
    { note: 'F3', travel: { upMm: 0, rightMm: 0 }, horn: { elevationDeg: -8, lateralDeg: 1 } },
    { note: 'Bb3', travel: { upMm: 2, rightMm: 1, sdMm: 0.5 } },
  ];
  return record;
}

/** The same object with every leaf replaced by the name of its type. */
function shapeOf(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(shapeOf);
  if (typeof value !== 'object' || value === null) return typeof value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, shapeOf(inner)]));
}

const refused = async (names: readonly string[], message: string | RegExp, input?: Readable): Promise<void> => {
  const result = await run(names, input);
  expect(result.out).toBe('');
  expect(result.err.endsWith('\n')).toBe(true);
  const line = result.err.slice(0, -1);
  expect(line).not.toMatch(/[\n\r]/);
  if (typeof message === 'string') expect(line).toBe(message);
  else expect(line).toMatch(message);
  expect(result.status).toBe(2);
};

const printed = (analysis: Analysis) => predictOutput(analysis, computeBands(analysis));

describe('what is printed', () => {
  it('has the published shape, in the file’s order, readings of one note pooled', () => {
    const output = printed(analyse(sphereRecord()));
    expect(output.readings.map(({ note, sources }) => [note, sources])).toEqual([
      ['B♭3', [0, 2]],
      ['F3', [1]],
    ]);
    const angles = { elevationDeg: 'number', lateralDeg: 'number' };
    const vector = ['number', 'number', 'number'];
    const share = { upper: 'number', lower: 'number', right: 'number', left: 'number' };
    const view = { ...angles, changeFromHome: angles };
    expect(output.readings[0]?.travel).toMatchObject({ upMm: 3, rightMm: 2 });
    expectWithin(output.readings[0]!.travel.sdMm, Math.SQRT1_2 / 2, { abs: 1e-12 });
    expectWithin(output.readings[0]!.travel.rightSdMm, Math.SQRT1_2 / 2, { abs: 1e-12 });
    expect(shapeOf(output.readings[0])).toMatchObject({
      follow: { ...angles, rimCentreMm: vector, axis: vector, contactFraction: 'number', share, lipShare: { upper: 'number', lower: 'number' } },
      held: {
        contactFraction: 'number',
        share,
        momentNmm: { elevation: 'number', lateral: 'number' },
        peakOverMeanPressure: 'number',
      },
      changeFromHome: angles,
      predictedHorn: angles,
      views: { plate: view, sphere: view, normal: view },
    });
    expect(notFinite(output)).toBeNull();
  });

  it('says null for an angle that nobody saw', () => {
    const record = sphereRecord();
    record.home = { note: 'F3' };
    const unseen = { elevationDeg: -8, lateralDeg: 1, sdDeg: UNSEEN_HORN_SD_DEG, lateralSdDeg: 2 };
    record.readings = record.readings.map((reading) => (reading.note === 'F3' ? { ...reading, horn: unseen } : reading));
    const [away, home] = printed(analyse(record)).readings;
    expect(away!.predictedHorn).toMatchObject({ elevationDeg: null, band95: { elevationDeg: null } });
    expect(shapeOf(away!.predictedHorn)).toMatchObject({ lateralDeg: 'number', band95: { lateralDeg: 'number' } });
    expect(home!.measuredHorn).toEqual({ elevationDeg: null, lateralDeg: 1, sdDeg: null, lateralSdDeg: 2 });
  });

  it('on a sphere the axis runs from its centre through the rim’s centre, and the rim stands at home + travel', () => {
    for (const { follow, travel } of printed(analyse(sphereRecord())).readings) {
      const [x = Number.NaN, y = Number.NaN, z = Number.NaN] = follow.rimCentreMm;
      expectWithin(x, -travel.rightMm, { abs: 1e-12 });
      expectWithin(y, travel.upMm, { abs: 1e-12 });
      // The form's apex is the origin, so the sphere's centre lies 40 mm behind it.
      const distance = Math.hypot(x, y, z + 40);
      [x, y, z + 40].forEach((part, index) => expectWithin(follow.axis[index] ?? Number.NaN, part / distance, { abs: 1e-9 }));
    }
  });

  it('says where a number is not finite, which JSON would hide', () => {
    expect(notFinite({ a: [1, { b: Number.NaN }] })).toBe('a[1].b');
    expect(notFinite({ a: Number.POSITIVE_INFINITY })).toBe('a');
    expect(notFinite({ a: [null, 'x', 0] })).toBeNull();
  });
});

describe('runPredict', () => {
  it('prints one JSON object for a file and for standard input', async () => {
    const json = fileText(sphereRecord());
    const fromFile = await run([file('sphere.json', json)]);
    expect(fromFile).toMatchObject({ status: 0, err: '' });
    expect(JSON.parse(fromFile.out)).toEqual(JSON.parse(JSON.stringify(printed(analyse(sphereRecord())))));
    expect(await run(['-'], Readable.from([Buffer.from(json.slice(0, 100)), Buffer.from(json.slice(100))]))).toEqual(fromFile);
    // UTF-8 with a byte order mark, as some editors write it.
    expect(await run([file('bom.json', `\uFEFF${json}`)])).toEqual(fromFile);
  });

  it('says how it is used', async () => {
    const help = await run(['--help']);
    expect(help).toMatchObject({ status: 0, err: '' });
    expect(help.out).toContain('FILE.json');
    await refused([], /^arguments: 0; allowed: one file name\. usage:/);
    await refused(['a.json', 'b.json'], /^arguments: 2; allowed: one file name\./);
    await refused(['a.json', '--colour', 'red'], /^arguments: Unknown option '--colour'.*usage:/);
    await refused(['a.json', '--lesson'], /^arguments: .*--lesson.* usage:/);
  });

  it('says what is wrong in the language that is asked for; what it prints is the same in both', async () => {
    await refused(['a.json', 'b.json', '--language', 'de'], /^Argumente: 2; erlaubt: ein Dateiname\. Aufruf: .*\[--language en\|de\]/);
    await refused(['nowhere.json', '--language=de'], /^nowhere\.json: keine solche Datei; erlaubt: eine lesbare JSON-Datei/);
    await refused(['a.json', '--language', 'fr'], /^--language: "fr"; allowed: en, de$/);
    const name = file('sphere.json', fileText(sphereRecord()));
    expect(await run([name, '--language', 'de'])).toEqual(await run([name]));
    await refused(['nowhere.json'], /^nowhere\.json: no such file/);
  });

  it('takes the one player and the last lesson, or those that are named', async () => {
    const [first, second] = [sphereRecord(), sphereRecord()];
    second.readings = [{ note: 'F3', travel: { upMm: 0, rightMm: 0 } }];
    const [earlier, later] = [playerOf(first).lessons[0]!, playerOf(second).lessons[0]!];
    const lessons = [{ ...earlier, date: '2026-03-01' }, { ...later, id: 'lesson-2', date: '2026-03-08' }];
    const one = { ...playerOf(first), label: 'M. K.', lessons };
    const other = { ...playerOf(second), id: 'player-2', label: 'M. K.' };
    const notes = async (words: readonly string[]): Promise<string[]> => {
      const { out, err } = await run(words);
      expect(err).toBe('');
      return (JSON.parse(out) as ReturnType<typeof predictOutput>).readings.map(({ note }) => note);
    };
    const alone = file('alone.json', playersFileText([one]));
    expect(await notes([alone])).toEqual(['F3']);
    expect(await notes([alone, '--lesson', '1'])).toEqual(['B♭3', 'F3']);
    expect(await notes([alone, '--lesson=2026-03-01', '--player', 'M. K.'])).toEqual(['B♭3', 'F3']);
    await refused([alone, '--lesson', '3'], '--lesson: 3; allowed: a number from 1 to 2, or a lesson’s day');
    await refused([alone, '--lesson', '2026-03-02'], '--lesson: "2026-03-02"; allowed: a number from 1 to 2, or a lesson’s day');
    await refused([alone, '--player', 'X'], '--player: "X"; allowed: player-1 (M. K.)');

    const many = file('many.json', playersFileText([one, other]));
    expect(await notes([many, '--player', 'player-2'])).toEqual(['F3']);
    await refused([many], '--player: missing, and the file holds 2 players; allowed: player-1 (M. K.), player-2 (M. K.)');
    await refused([many, '--player', 'M. K.'], '--player: "M. K.", a label that 2 players have; allowed: player-1 (M. K.), player-2 (M. K.)');

    const sameDay = file('same-day.json', playersFileText([{ ...one, lessons: lessons.map((lesson) => ({ ...lesson, date: '2026-03-01' })) }]));
    await refused([sameDay, '--lesson', '2026-03-01'], '--lesson: 2026-03-01, a day with 2 lessons; allowed: a number, here 1, 2');
  });

  it('still reads a file of version 1', async () => {
    const { player, ...rest } = sphereRecord();
    const old = JSON.stringify({ format: 'rimpath-record', version: 1, player, ...rest });
    expect((await run([file('old.json', old)])).out).toBe((await run([file('sphere.json', fileText(sphereRecord()))])).out);
  });

  it.each<[string, () => readonly string[], RegExp]>([
    ['a missing file', () => [join(folder, 'none.json')], /none\.json: no such file; allowed: a readable JSON file/],
    ['a folder', () => [folder], /: is a folder; allowed: a readable JSON file/],
    ['an empty file', () => [file('empty.json', '')], /^file: empty; allowed: a JSON object$/],
    ['a binary file', () => [file('binary', Uint8Array.from([0x89, 0x50, 0x4e, 0x47, 0xff, 0xfe, 0]))], /binary: not UTF-8 text; allowed: a JSON file in UTF-8$/],
    ['UTF-16', () => [file('utf16.json', Buffer.from(`\uFEFF${fileText(sphereRecord())}`, 'utf16le'))], /utf16\.json: not UTF-8 text/],
    ['a huge file', () => [file('huge.json', ' '.repeat(100_000_001))], /huge\.json: larger than a record file; allowed: up to 100000000 bytes$/],
    ['broken JSON', () => [file('broken.json', '{"format":\n')], /^file: not JSON \(.+\); allowed: a JSON object$/],
    ['another JSON file', () => [file('other.json', '{"name":"x"}')], /^format: missing; allowed: "rimpath-record"$/],
    ['a newer version', () => [file('newer.json', '{"format":"rimpath-record","version":6}')], /^version: 6 is newer than this program reads; allowed: 1 to 5$/],
    ['a name with a line break', () => [join(folder, 'two\nlines')], /two lines: no such file/],
  ])('refuses %s in one line', async (_, names, message) => {
    await refused(names(), message);
  });

  it('refuses endless standard input without reading it all', async () => {
    let given = 0;
    const endless = new Readable({
      read() {
        given += 65_536;
        this.push(Buffer.alloc(65_536, 0x20));
      },
    });
    await refused(['-'], /^standard input: larger than a record file/, endless);
    expect(given).toBeLessThan(102_000_000);
  });

  it('names the field, the value and what is allowed', async () => {
    const record = sphereRecord();
    record.force.newtons = 250;
    await refused([file('force.json', fileText(record))], 'players[0].lessons[0].force.newtons: 250; allowed: a number above 0 and up to 200 N');
  });

  it('names the reading that cannot be reached', async () => {
    const record = sphereRecord();
    record.readings.push({ note: 'G5', travel: { upMm: 0, rightMm: 58 } });
    const parsed = parseRecord(record);
    expect(parsed.kind).toBe('record');
    await refused([file('off.json', fileText(record))], /^readings\[3\] \(G5\)[:,]/);
  });

  it('names home when nothing rests there', async () => {
    const record = sphereRecord();
    record.home = { note: 'F3', upMm: 55, rightMm: 0 };
    await refused([file('home.json', fileText(record))], /^home \(55 mm up/);
  });

  it('a fault of the program is no fault of the record', async () => {
    const broken = (): never => {
      throw new TypeError('oops\nhere');
    };
    const result = await runPredict([file('fine.json', fileText(sphereRecord()))], nothing(), broken);
    expect(result).toEqual({ status: 1, out: '', err: 'internal error: oops here\n' });
    const notANumber = (record: PlayerRecord): Analysis => {
      const analysis = analyse(record);
      return { ...analysis, home: { ...analysis.home, lipLineMm: Number.NaN } };
    };
    expect(await runPredict([file('nan.json', fileText(sphereRecord()))], nothing(), notANumber)).toEqual({
      status: 1,
      out: '',
      err: 'internal error: home.lipLineMm is not a finite number\n',
    });
  });

  it('counts the problems it does not spell out', () => {
    const analysis = analyse(sphereRecord());
    const problem = { readingIndex: 2, reason: 'bad-reading', words: 'cannot be' } as const;
    expect(problemLine(analysis)).toBeNull();
    expect(problemLine({ ...analysis, problems: [problem] })).toBe('readings[2] (Bb3): cannot be');
    expect(problemLine({ ...analysis, problems: [problem, problem] })).toBe('readings[2] (Bb3): cannot be (and 1 more)');
    expect(problemLine({ ...analysis, problems: [{ ...problem, readingIndex: null }] })).toBe('home: cannot be');
  });
});

describe('npm run -s predict', () => {
  const predict = (name: string, input = ''): ReturnType<typeof spawnSync> =>
    spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/predict.ts', name], { cwd: projectRoot, input, encoding: 'utf8' });

  it('prints a demo player’s angles from standard input', async () => {
    const { default: demo } = await import('../../models/players/pushes-up.json');
    const ran = predict('-', JSON.stringify({ format: 'rimpath-record', version: 2, players: [demo.player] }));
    expect(ran.stderr).toBe('');
    expect(ran.status).toBe(0);
    const output = JSON.parse(String(ran.stdout)) as ReturnType<typeof predictOutput>;
    expect(output.readings.map(({ note }) => note)).toEqual(demo.player.lessons[0]!.readings.map(({ note }) => note));
  });

  it.skipIf(!existsSync('/dev/full'))('says in one line that its output cannot be written', () => {
    const full = openSync('/dev/full', 'w');
    const [ran, refusedThere] = ['docs/example.json', 'no such file'].map((name) =>
      spawnSync(process.execPath, ['--import', 'tsx', 'src/cli/predict.ts', name], {
        cwd: projectRoot,
        stdio: ['ignore', full, 'pipe'],
        encoding: 'utf8',
      }));
    closeSync(full);
    expect([ran?.status, ran?.stderr]).toEqual([1, 'standard output: cannot be written (ENOSPC)\n']);
    // A refusal writes nothing there, so it stays what it is.
    expect([refusedThere?.status, refusedThere?.stderr.split('\n').length]).toEqual([2, 2]);
  });

  it('exits with 2, one line and nothing printed on a file that is no record', () => {
    const ran = predict(demoPath);
    expect(ran.stdout).toBe('');
    expect(ran.stderr).toBe('format: missing; allowed: "rimpath-record"\n');
    expect(ran.status).toBe(2);
  });
});
