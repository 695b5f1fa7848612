import { readFileSync } from 'node:fs';
import type * as z from 'zod/mini';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { recordJsonSchemaText } from '../../../src/cli/recordJsonSchema';
import type { PlayerRecord } from '../../../src/core/specs';
import { parseRecord, parseRecordText, type recordSchema } from '../../../src/records/schema';
import { type Mutable, fullRecord } from '../../support/records';

const refusal = (value: unknown): string => {
  const parsed = parseRecord(value);
  expect(parsed.kind).toBe('refused');
  return parsed.kind === 'refused' ? parsed.message : '';
};

/** The full record with one field (path by dots) set, or taken away when the value is undefined. */
const spoiled = (path: string, value: unknown): unknown => {
  const record: unknown = fullRecord();
  const keys = path.split('.');
  const last = keys.pop() ?? '';
  const owner = keys.reduce<unknown>((place, key) => (place as Record<string, unknown>)[key], record) as Record<string, unknown>;
  if (value === undefined) delete owner[last];
  else owner[last] = value;
  return record;
};

const accepts = (value: unknown): void => {
  expect(parseRecord(value)).toEqual({ kind: 'record', record: value });
};

const flat = { kind: 'straight' };
const single = (form: unknown, profile: unknown = flat): unknown => spoiled('arch', { single: { form, profile } });

describe('a record that is right', () => {
  it('comes through unchanged, with every optional field and without any', () => {
    accepts(fullRecord());
    const bare = fullRecord();
    delete bare.home;
    bare.readings = [{ note: 'F3', travel: { upMm: 0, rightMm: 0 } }];
    accepts(bare);
    bare.readings = [];
    accepts(bare);
  });

  it('agrees with the type the core computes from', () => {
    expectTypeOf<Mutable<PlayerRecord>>().toEqualTypeOf<Mutable<z.output<typeof recordSchema>>>();
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
    ['readings.0.method', 'guess', 'readings[0].method (F3): "guess"; allowed: one of "eye", "ruler", "video"'],
    ['readings.0.horn.elevationDeg', null, 'readings[0].horn.elevationDeg (F3): null; allowed: a number from -80 to 80 degrees'],
    ['readings', {}, 'readings: an empty object; allowed: a list of 0 to 200'],
    ['readings.0', 3, 'readings[0]: 3; allowed: an object with note, travel, horn, method, direction, jaw, force'],
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
    ['player.instrument', '', 'player.instrument: ""; allowed: a text of 1 to 60 characters'],
    ['mood', 'sunny', 'mood: unknown field; allowed here: format, version, player, arch, rim, lips, force, home, upperLipShare, readings'],
    ['readings.0.travel.leftMm', 1, 'readings[0].travel.leftMm (F3): unknown field; allowed here: upMm, rightMm, sdMm'],
    ['version', 2, 'version: 2 is newer than this program reads; allowed: 1'],
    ['version', 0, 'version: 0; allowed: 1'],
    ['version', '1', 'version: "1"; allowed: 1'],
    ['format', 'other', 'format: "other"; allowed: "rimpath-record"'],
    ['format', undefined, 'format: missing; allowed: "rimpath-record"'],
  ])('%s = %j', (path, value, message) => {
    expect(refusal(spoiled(path, value))).toBe(message);
  });

  it('names a misspelled field rather than the one it left empty', () => {
    const record = spoiled('force', undefined) as Record<string, unknown>;
    record['forse'] = { newtons: 20 };
    expect(refusal(record)).toMatch(/^forse: unknown field; allowed here: format,/);
  });

  it('names the field inside whichever kind of arch was meant', () => {
    expect(refusal(single({ kind: 'circle', radiusMm: 1 }))).toBe(
      'arch.single.form.radiusMm: 1; allowed: a number from 2 to 100000 mm',
    );
    expect(refusal(single({ kind: 'circle', radiusMm: 30, depthMm: 3 }))).toBe(
      'arch.single.form.depthMm: unknown field; allowed here: kind, radiusMm',
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
    expect(refusal(spoiled('rim', { ...fullRecord().rim, ...change }))).toBe(message);
  });

  it.each<[string, number, RegExp]>([
    ['crownRadiusMm', 5, /^arch\.upper\.profile\.crownRadiusMm: 5; allowed: above 5\.58 mm, so that/],
    // At the neck: asin(sin 6° + 10/28) = 27.5°.
    ['gumInclinationDeg', 28, /^arch\.upper\.profile\.gumInclinationDeg: 28; allowed: below 27\.5\d degrees/],
  ])('profile: %s', (field, value, message) => {
    expect(refusal(spoiled(`arch.upper.profile.${field}`, value))).toMatch(message);
  });

  it.each<[string, [number, number][], string]>([
    ['x must rise', [[-20, -10], [-5, 0], [-5, 0], [21, -11]], 'points[2][0]: -5; allowed: x above that of the point before'],
    ['from the right', [[1, -10], [5, 0], [8, 0], [21, -11]], 'points[0][0]: 1; allowed: a first point on the player’s right (x below 0)'],
    ['to the left', [[-9, -10], [-5, 0], [-3, 0], [-1, -11]], 'points[3][0]: -1; allowed: a last point on the player’s left (x above 0)'],
    ['enough of them', [[-9, -10], [1, 0], [3, 0]], 'points: a list of 3; allowed: a list of 4 to 400'],
  ])('points: %s', (_, points, message) => {
    expect(refusal(single({ kind: 'points', points }))).toBe(`arch.single.form.${message}`);
  });

  it('a tooth is named once', () => {
    const tooth = { fdi: 11, outMm: 0.5, centreMm: -4, widthMm: 8 };
    expect(refusal(spoiled('arch.upper.teeth', [tooth, tooth]))).toBe('arch.upper.teeth[1].fdi: 11; allowed: each tooth once');
  });

  it('at most 200 readings', () => {
    const reading = { note: 'C4', travel: { upMm: 0, rightMm: 0 } };
    accepts(spoiled('readings', Array.from({ length: 200 }, () => reading)));
    expect(refusal(spoiled('readings', Array.from({ length: 201 }, () => reading)))).toBe('readings: a list of 201; allowed: a list of 0 to 200');
  });
});

describe('parseRecordText', () => {
  it('reads a file’s text and refuses what is no record', () => {
    expect(parseRecordText(JSON.stringify(fullRecord()))).toEqual({ kind: 'record', record: fullRecord() });
    expect(parseRecordText('  \n')).toEqual({ kind: 'refused', message: 'file: empty; allowed: a JSON object' });
    const broken = parseRecordText('{"format":\n\n"rimpath-record"');
    expect(broken.kind === 'refused' ? broken.message : '').toMatch(/^file: not JSON \([^\n]+\); allowed: a JSON object$/);
    expect(parseRecordText('x'.repeat(1_000_001))).toEqual({
      kind: 'refused',
      message: 'file: 1000001 characters; allowed: up to 1000000',
    });
    expect(parseRecordText(`{"format":"rimpath-record","version":1,"arch":${'['.repeat(100_000)}${']'.repeat(100_000)}}`).kind).toBe('refused');
  });
});

it('docs/record.schema.json is up to date (npm run schema)', () => {
  const published = readFileSync(new URL('../../../docs/record.schema.json', import.meta.url), 'utf8');
  expect(published).toBe(recordJsonSchemaText());
});
