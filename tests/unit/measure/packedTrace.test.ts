import * as fc from 'fast-check';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { crc32 } from '../../../src/core/crc32';
import { LARGEST_PACKED, packNumbers, readNumbers } from '../../../src/measure/packedNumbers';
import { LONGEST_SERIES } from '../../../src/measure/packedSeries';
import { MOST_TRACED_FRAMES, type PackedTrace, TRACED_NAMES, packTrace, unpackTrace } from '../../../src/measure/packedTrace';
import type { FilmTrace, TracedName, TracedRim } from '../../../src/measure/traces';
import { expectWithin } from '../../support/expectWithin';
import { swayingTrace } from '../../support/measurings';
import { propertySeed, seedWords } from '../../support/seed';

/** Half a step of each kind of number, and the rounding of what is compared. */
const HALF_STEP = { placePx: 0.025 + 1e-9, deviationPx: 0.005 + 1e-9, timeS: 5e-5 + 1e-9, angleRad: 2.5e-4 + 1e-9 };

function unpacked(packed: PackedTrace): FilmTrace {
  const read = unpackTrace(packed, 'front');
  if (read.kind === 'damaged') throw new Error(read.message);
  return read.trace;
}

const RIM: TracedRim = { centre: { x: 1, y: 2 }, semiMajorPx: 75, semiMinorPx: 70, angleRad: 0.5, centreSdPx: 0.1, axesSdPx: 0.1 };
const ofRim = (rim: TracedRim | null, timeS = 0): FilmTrace => ({ view: 'front', frames: [{ timeS, rim, points: {} }] });
const rimBack = (part: Partial<TracedRim>): TracedRim | null | undefined => unpacked(packTrace(ofRim({ ...RIM, ...part }))).frames[0]?.rim;

describe('crc32', () => {
  it('gives the check value of CRC-32 (IEEE 802.3), at once and in parts', () => {
    const bytes = new TextEncoder().encode('123456789');
    expect(crc32(bytes)).toBe(0xcbf43926);
    expect(crc32(bytes.subarray(4), crc32(bytes.subarray(0, 4)))).toBe(0xcbf43926);
    expect(crc32(new Uint8Array())).toBe(0);
  });
});

describe('whole numbers as text', () => {
  it.each<[readonly number[], string]>([
    [[], ''],
    // Half bytes by hand: 0 → 0, −1 → 1, 1 → 2, 3 → 6, −4 → 7.
    [[0, -1, 1, 3], 'ASY='],
    // 4 → zigzag 8 → 8, 1; then the filler 8 makes the bytes whole: 0x81, 0x78.
    [[4, -4], 'gXg='],
  ])('%j is %s', (values, text) => {
    expect(packNumbers(values)).toBe(text);
  });

  it(`come back, whatever they are ${seedWords}`, () => {
    const whole = fc.oneof(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -LARGEST_PACKED, max: LARGEST_PACKED }), fc.constantFrom(-LARGEST_PACKED, LARGEST_PACKED));
    fc.assert(
      fc.property(fc.array(whole, { maxLength: 40 }), (values) => {
        const reader = readNumbers(packNumbers(values), 1000);
        expect(values.map(() => reader?.next())).toEqual(values);
        expect(reader?.isAtEnd()).toBe(true);
        expect(reader?.next()).toBeNull();
      }),
      { seed: propertySeed },
    );
  });

  it.each([[0.5], [Number.NaN], [LARGEST_PACKED + 1], [-LARGEST_PACKED - 1]])('%d is refused', (value) => {
    expect(() => packNumbers([value])).toThrow(`packNumbers: ${value}; allowed: a whole number from -1073741824 to 1073741824`);
  });

  it.each([['AA'], ['A'], ['AA A'], ['AA=A'], ['====' ], ['ÄAAA'], ['AAAAAAAA']])('%j is no such text', (text) => {
    expect(readNumbers(text, 4)).toBeNull();
  });

  it('a number longer than any, or cut off, is none', () => {
    expect(readNumbers(btoa('\xff\xff\xff\xff\xff\xff\xff'), 100)?.next()).toBeNull();
    expect(readNumbers(btoa('\x9f'), 100)?.next()).toBeNull();
  });
});

describe('a trace', () => {
  const trace = swayingTrace(900);
  const back = unpacked(packTrace(trace));

  it('comes back within half a step in every value, and lost where it was lost', () => {
    expect(back.frames).toHaveLength(900);
    expect(back.frames.some(({ rim }) => rim === null)).toBe(true);
    trace.frames.forEach((frame, at) => {
      const other = back.frames[at]!;
      expectWithin(other.timeS, frame.timeS, { abs: HALF_STEP.timeS }, `time ${at}`);
      expect(Object.keys(other.points).sort()).toEqual(Object.keys(frame.points).sort());
      for (const name of TRACED_NAMES) {
        const [one, two] = [frame.points[name], other.points[name]];
        if (one === undefined || two === undefined) continue;
        expectWithin(two.x, one.x, { abs: HALF_STEP.placePx }, name);
        expectWithin(two.y, one.y, { abs: HALF_STEP.placePx }, name);
        expectWithin(two.sdPx, one.sdPx, { abs: HALF_STEP.deviationPx }, name);
      }
      expect(other.rim === null).toBe(frame.rim === null);
      if (frame.rim === null || other.rim === null) return;
      for (const axis of ['x', 'y'] as const) expectWithin(other.rim.centre[axis], frame.rim.centre[axis], { abs: HALF_STEP.placePx }, axis);
      for (const field of ['semiMajorPx', 'semiMinorPx'] as const) expectWithin(other.rim[field], frame.rim[field], { abs: HALF_STEP.placePx }, field);
      for (const field of ['centreSdPx', 'axesSdPx'] as const) expectWithin(other.rim[field], frame.rim[field], { abs: HALF_STEP.deviationPx }, field);
      expectWithin(other.rim.angleRad, frame.rim.angleRad, { abs: HALF_STEP.angleRad }, 'angle');
    });
  });

  it('packed a second time is the very same text', () => {
    expect(packTrace(back)).toEqual(packTrace(trace));
    expect(unpacked(packTrace(back))).toEqual(back);
  });

  it('of 30 seconds with everything followed stays below 60 kB', () => {
    expect(JSON.stringify(packTrace(trace)).length).toBeLessThan(60_000);
  });

  it('with nothing in it, or without frames, comes back so', () => {
    expect(unpacked(packTrace({ view: 'front', frames: [] })).frames).toEqual([]);
    expect(unpacked(packTrace(ofRim(null, 1.5))).frames).toEqual([{ timeS: 1.5, rim: null, points: {} }]);
    expect(packTrace(ofRim(null))).not.toHaveProperty('rim');
  });

  it('keeps of a point that slides the deviation that counts: across the line that it ends, else for any way', () => {
    const slides = { alongRad: 0, sdPx: 3 };
    const points = { 'horn-near': { x: 100, y: 100, sdPx: 0.2, slides }, 'horn-far': { x: 300, y: 100, sdPx: 0.2, slides: { ...slides, alongRad: Math.PI / 2 } }, 'ear-left': { x: 5, y: 5, sdPx: 0.2, slides } };
    const sds = (view: FilmTrace['view']): readonly (number | undefined)[] => {
      const [frame] = unpacked(packTrace({ view, frames: [{ timeS: 0, rim: null, points }] })).frames;
      return [frame?.points['horn-near']?.sdPx, frame?.points['horn-far']?.sdPx, frame?.points['ear-left']?.sdPx];
    };
    const anyWay = Number(Math.sqrt((0.2 ** 2 + 3 ** 2) / 2).toFixed(2));
    expect(sds('right')).toEqual([0.2, 3, anyWay]);
    expect(sds('front')).toEqual([anyWay, anyWay, anyWay]);
  });

  it('gives its view back', () => {
    const read = unpackTrace(packTrace(ofRim(RIM)), 'above');
    expect(read.kind === 'trace' && read.trace.view).toBe('above');
  });

  it('never says that a place is exact', () => {
    expect(rimBack({ centreSdPx: 0 })?.centreSdPx).toBe(0.01);
    expect(rimBack({ axesSdPx: 1e-9 })?.axesSdPx).toBe(0.01);
  });

  it('takes a quarter turn either way for the same axis', () => {
    expect(rimBack({ angleRad: Math.PI / 2 })?.angleRad).toBe(Math.PI / 2);
    expect(rimBack({ angleRad: -Math.PI / 2 + 1e-6 })?.angleRad).toBe(Math.PI / 2);
  });

  it.each<[string, () => FilmTrace, string]>([
    ['no number', () => ofRim({ ...RIM, semiMajorPx: Number.NaN }), 'semiMajorPx: NaN; allowed: from 0 to 100000'],
    ['a negative axis', () => ofRim({ ...RIM, semiMinorPx: -1 }), 'semiMinorPx: -1; allowed: from 0 to 100000'],
    ['a negative deviation', () => ofRim({ ...RIM, centreSdPx: -0.001 }), 'centreSdPx: -0.001; allowed: from 0.01 to 100000'],
    ['an endless deviation', () => ofRim({ ...RIM, axesSdPx: Number.POSITIVE_INFINITY }), 'axesSdPx: Infinity; allowed: from 0.01 to 100000'],
    ['a place far off', () => ofRim({ ...RIM, centre: { x: 2e5, y: 0 } }), 'centre.x: 200000; allowed: from -100000 to 100000'],
    ['an angle beyond the quarter turn', () => ofRim({ ...RIM, angleRad: 2 }), 'angleRad: 2; allowed: from -1.5705 to 1.571'],
    ['a time beyond six hours', () => ofRim(null, 30_000), 'timeS: 30000; allowed: from -21600 to 21600'],
    ['too many frames', () => ({ view: 'front', frames: Array.from({ length: MOST_TRACED_FRAMES + 1 }, () => ofRim(null).frames[0]!) }), 'frames: 72001; allowed: up to 72000'],
  ])('with %s is refused', (_, make, message) => {
    expect(() => packTrace(make())).toThrow(message);
  });

  it('names everything that is followed', () => {
    expectTypeOf<(typeof TRACED_NAMES)[number]>().toEqualTypeOf<TracedName>();
  });
});

describe('a damaged trace', () => {
  const packed = packTrace(swayingTrace(40));
  const message = (spoilt: PackedTrace): string => {
    const read = unpackTrace(spoilt, 'front');
    return read.kind === 'damaged' ? read.message : 'read';
  };
  /** With the check sum put right, as another program would write it. */
  const resummed = (spoilt: PackedTrace): PackedTrace => {
    for (const check of sums(spoilt)) {
      const tried = { ...spoilt, check };
      if (!message(tried).startsWith('trace.check')) return tried;
    }
    throw new Error('no sum goes with it');
  };

  it('is told by its sum', () => {
    expect(message({ ...packed, check: packed.check ^ 1 })).toMatch(/^trace\.check: does not go with the rest/);
    expect(message({ ...packed, times: packed.rim!, rim: packed.times })).toMatch(/^trace\.check/);
    expect(message({ ...packed, points: { ...packed.points, 'ear-left': packed.points['ear-right']!, 'ear-right': packed.points['ear-left']! } })).toMatch(/^trace\.check/);
  });

  it.each([[-1], [1.5], [Number.NaN], [72_001], [1e300], [Number.POSITIVE_INFINITY]])('of %d frames is refused before anything is made', (frames) => {
    expect(message({ ...packed, frames })).toBe(`trace.frames: ${frames}; allowed: a whole number from 0 to 72000`);
  });

  it('with a right sum is refused where its series are none', () => {
    const numbers = (...values: number[]): string => packNumbers(values);
    const bare: PackedTrace = { frames: 2, times: numbers(0, 5), points: {}, check: 0 };
    expect(message(resummed(bare))).toBe('read');
    expect(message(resummed({ ...bare, times: numbers(0) }))).toMatch(/^trace\.times/);
    expect(message(resummed({ ...bare, times: numbers(0, 5, 1) }))).toMatch(/^trace\.times/);
    expect(message(resummed({ ...bare, times: numbers(0, 216_000_001) }))).toMatch(/^trace\.times/);
    expect(message(resummed({ ...bare, times: '!' }))).toMatch(/^trace\.times/);
    const nose = (text: string): string => message(resummed({ ...bare, points: { 'nose-bridge': text } }));
    expect(nose(numbers(2, 1, 1, 1, 1, 5, 5))).toBe('read');
    // Three frames of two; a run of none within; a deviation of nothing; one number too few and too many.
    expect(nose(numbers(3, 1, 1, 1, 1, 5, 5))).toMatch(/^trace\.points\.nose-bridge/);
    expect(nose(numbers(1, 0, 1, 1, 1, 1, 1, 5, 5))).toMatch(/^trace\.points\.nose-bridge/);
    expect(nose(numbers(-1, 3))).toMatch(/^trace\.points\.nose-bridge/);
    expect(nose(numbers(2, 1, 1, 1, 1, 5, -5))).toMatch(/^trace\.points\.nose-bridge/);
    expect(nose(numbers(2, 1, 1, 1, 1, 5))).toMatch(/^trace\.points\.nose-bridge/);
    expect(nose(numbers(2, 1, 1, 1, 1, 5, 5, 0))).toMatch(/^trace\.points\.nose-bridge/);
    expect(message(resummed({ ...bare, rim: numbers(2, 0, 0, 0, 0, -1, 0, 0, 0, 0, 0, 1, 0, 1, 0) }))).toMatch(/^trace\.rim/);
  });

  it('a series longer than any is not read', () => {
    const long = 'A'.repeat(LONGEST_SERIES + 4);
    expect(message(resummed({ frames: 2, times: long, points: {}, check: 0 }))).toMatch(/^trace\.times/);
  });
});

/** The sum that goes with a packed trace, worked out here a second time. */
function sums({ frames, times, rim = '', points }: PackedTrace): number[] {
  const named = TRACED_NAMES.filter((name) => points[name] !== undefined).map((name) => `${name} ${points[name]}\n`);
  return [crc32(new TextEncoder().encode(`frames ${frames}\ntimes ${times}\nrim ${rim}\n${named.join('')}`))];
}
